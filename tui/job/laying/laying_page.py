"""Laying: the checks of the day, and the weather as it was."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.before_laid import LAYING_TICKS
from domain.checks.check import Situation
from domain.days.dates import read_past_date
from domain.days.weather import limits_in_words, too_cold, too_windy
from domain.errors import Refused
from domain.job import Cover, Job, Laying, Stage
from domain.page_names import PageName
from domain.quantity import to_decimal
from domain.signs import Sign
from domain.tone import Tone
from domain.trader import WeatherLimits
from domain.units import parse_speed, parse_temperature
from tui.job.page import JobPage
from tui.widgets.field_row import Field, FieldRow
from tui.widgets.field_values import date_typed, number_typed
from tui.widgets.form import YES_NO, Form
from tui.widgets.line_input import Takes

YES, NO = YES_NO

FIELDS = (
    Field("on", "Laid on", hint="today", takes=Takes.DONE),
    *(Field(f"tick-{key}", words, choices=YES_NO) for key, words in LAYING_TICKS.items()),
    Field(
        "temperature",
        "Temperature",
        unit="°C",
        example="9",
        section="Weather on the day",
        takes=Takes.FIGURE,
    ),
    Field("wind", "Wind", unit="mph", example="8", takes=Takes.COUNT),
    Field("dry", "Deck dry", choices=YES_NO),
)


def read_laying(values: Mapping[str, str], today: date) -> Laying:
    """Return what was typed as a value. Raises :class:`domain.errors.Refused`."""
    warm, wind = values["temperature"].strip(), values["wind"].strip()
    return Laying(
        on=read_past_date("on", values["on"], today),
        ticks=frozenset(key for key in LAYING_TICKS if values[f"tick-{key}"] == YES),
        temperature_c=to_decimal(parse_temperature("temperature", warm).celsius) if warm else None,
        wind_mph=to_decimal(parse_speed("wind", wind).mph) if wind else None,
        deck_dry={YES: True, NO: False}.get(values["dry"]),
    )


def day_laid(job: Job, today: date) -> date:
    """Return the day on which a roof was laid whose laying is not recorded: its last booked one."""
    days = [booked.day for booked in job.days if booked.day <= today]
    laid = job.stripping is not None and job.stripping.cover is Cover.LAID
    return max(days) if laid and days else today


def laying_typed(laying: Laying | None, day: date) -> dict[str, str]:
    """Return what stands in the fields; of what is not recorded the ``day`` alone."""
    if laying is None:
        return {"on": date_typed(day)}
    dry = "" if laying.deck_dry is None else YES if laying.deck_dry else NO
    return {
        "on": date_typed(laying.on),
        "temperature": number_typed(laying.temperature_c),
        "wind": number_typed(laying.wind_mph),
        "dry": dry,
    } | {f"tick-{key}": YES for key in laying.ticks}


def weather_notes(values: Mapping[str, str], limits: WeatherLimits) -> dict[str, str]:
    """What stands against temperature and wind as typed; nothing while they cannot be read."""
    cold = too_cold(_degrees(values["temperature"]), limits)
    windy = too_windy(_mph(values["wind"]), limits)
    return {
        "temperature": f"{Sign.CAUTION} should be above {number_typed(limits.least_c)} °C"
        if cold
        else "",
        "wind": f"{Sign.CAUTION} should be under {number_typed(limits.lay_mph)} mph"
        if windy
        else "",
    }


def _degrees(text: str) -> Decimal | None:
    try:
        return to_decimal(parse_temperature("temperature", text).celsius)
    except Refused:
        return None


def _mph(text: str) -> Decimal | None:
    try:
        return to_decimal(parse_speed("wind", text).mph)
    except Refused:
        return None


class LayingForm(Form):
    """The form, with the weather to lay in where the weather is written."""

    DEFAULT_CSS = "LayingForm > #limits { height: auto; color: $quiet; }"

    def __init__(self) -> None:
        super().__init__(FIELDS)
        self._limits = Static("", id="limits")

    def compose(self) -> ComposeResult:
        """Yield the form, with a line for the weather limits under their heading."""
        for part in super().compose():
            if isinstance(part, FieldRow) and part.field.id == "temperature":
                yield self._limits
            yield part

    def show_limits(self, limits: WeatherLimits) -> None:
        """Say the trader's weather limits, a sentence for each."""
        self._limits.update(Content(" ".join(limits_in_words(limits))))


class LayingPage(JobPage):
    """The laying page: one form, whose checks a single key ticks."""

    page: ClassVar[PageName] = PageName.LAYING
    place: ClassVar[str] = "laid"
    reminds_of: ClassVar[Stage | None] = Stage.LAID
    DEFAULT_CSS = """
    LayingPage FieldRow > .label { width: 39; }
    LayingPage FieldRow > Input, LayingPage FieldRow > Input.-short { width: 8; }
    LayingPage FieldRow > Input.-wide { width: 1fr; }
    """

    def body(self) -> Iterable[Widget]:
        """Yield the form."""
        yield LayingForm()

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields, with the weather held against the limits."""
        job = situation.job
        day = day_laid(job, situation.today)
        self.query_one(Form).fill(laying_typed(job.laying, day))
        self._note_weather()

    def follow(self, situation: Situation) -> None:
        """The weather to lay in, by the trader's own limits."""
        self.query_one(LayingForm).show_limits(situation.trader.limits)

    def part(self, job: Job) -> object:
        """Return what this page keeps of the job: the laying."""
        return job.laying

    def on_form_changed(self) -> None:
        """What is said of the weather follows the typing."""
        self._note_weather()

    def action_tick_all(self) -> None:
        """Everything was looked at and is right: on to the weather."""
        form = self.query_one(Form)
        for key in LAYING_TICKS:
            form.put(f"tick-{key}", YES)
        form.focus_first("temperature")

    def _note_weather(self) -> None:
        form, limits = self.query_one(Form), self.situation.trader.limits
        for field, words in weather_notes(form.values, limits).items():
            form.note(field, words, Tone.CAUTION)

    def as_typed(self) -> Job:
        """The job with the laying as it is typed."""
        laying = read_laying(self.query_one(Form).values, self.open_book.today)
        return replace(self.job, laying=laying)

    async def save(self) -> None:
        """Record what stands in the fields."""
        job, laying = self.job, read_laying(self.query_one(Form).values, self.open_book.today)
        await self.record(lambda book: book.record_laying(job, laying), "Saved: the laying.")
