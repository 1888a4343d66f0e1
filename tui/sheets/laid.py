"""Laying: the checks of the day, and the weather as it was."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import ClassVar

from textual.widget import Widget

from domain.calendar import read_date
from domain.checks.check import Situation
from domain.checks.laid import LAYING_TICKS
from domain.job import Job, Laying, Stage
from domain.quantity import to_decimal
from domain.sheets import SheetName
from domain.units import parse_speed, parse_temperature
from tui.reading.plain import shown, shown_date
from tui.sheets.base import Sheet
from tui.widgets.form import YES_NO, Field, Form

YES, NO = YES_NO

FIELDS = (
    Field("on", "Laid on", hint="today"),
    *(Field(f"tick-{key}", words, choices=YES_NO) for key, words in LAYING_TICKS.items()),
    Field("temperature", "Temperature", unit="°C", hint="9", section="The weather as it was"),
    Field("wind", "Wind", unit="mph", hint="8"),
    Field("dry", "Deck dry", choices=YES_NO),
)


def read_laying(values: Mapping[str, str], today: date) -> Laying:
    """What was typed. Raises :class:`domain.errors.Refused`."""
    warm, wind = values["temperature"].strip(), values["wind"].strip()
    return Laying(
        on=read_date("Laid on", values["on"], today),
        ticks=frozenset(key for key in LAYING_TICKS if values[f"tick-{key}"] == YES),
        temperature_c=to_decimal(parse_temperature("Temperature", warm).celsius) if warm else None,
        wind_mph=to_decimal(parse_speed("Wind", wind).mph) if wind else None,
        deck_dry={YES: True, NO: False}.get(values["dry"]),
    )


def laying_typed(laying: Laying | None, today: date) -> dict[str, str]:
    """What stands in the fields; today until it is written up."""
    if laying is None:
        return {"on": shown_date(today)}
    dry = "" if laying.deck_dry is None else YES if laying.deck_dry else NO
    return {
        "on": shown_date(laying.on),
        "temperature": shown(laying.temperature_c),
        "wind": shown(laying.wind_mph),
        "dry": dry,
    } | {f"tick-{key}": YES for key in laying.ticks}


class LaidSheet(Sheet):
    """One form; one key ticks all."""

    sheet: ClassVar[SheetName] = SheetName.LAYING
    place: ClassVar[str] = "laid"
    reminds_of: ClassVar[Stage | None] = Stage.LAID
    DEFAULT_CSS = "LaidSheet FieldRow > .label { width: 42; }"

    def body(self) -> Iterable[Widget]:
        """The form."""
        yield Form(FIELDS)

    def fill(self, situation: Situation) -> None:
        """What is on record."""
        self.query_one(Form).fill(laying_typed(situation.job.laying, situation.today))

    def part(self, job: Job) -> object:
        """The laying."""
        return job.laying

    def action_tick_all(self) -> None:
        """Everything was looked at and is right."""
        for key in LAYING_TICKS:
            self.query_one(Form).put(f"tick-{key}", YES)

    async def save(self) -> None:
        """Write it up."""
        job, laying = self.job, read_laying(self.query_one(Form).values, self.desk.today)
        await self.record(lambda book: book.record_laying(job, laying), "Saved: the laying.")
