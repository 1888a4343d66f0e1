"""Stripping: what was found, how the deck was left, where the waste went, and the extras."""

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import ClassVar

from rich.text import Text
from textual.widget import Widget

from domain.calendar import read_date
from domain.checks.check import Situation
from domain.errors import HeadlapError, Refused
from domain.job import Cover, Extra, Job, Stage, Stripping
from domain.money import show_money
from domain.pricing import old_mass
from domain.quantity import to_decimal
from domain.roof import build_roof
from domain.sheets import SheetName
from tui.dialogs.extra import extra_dialog
from tui.reading.plain import read_number, read_text, shown, shown_date
from tui.safe_text import fitted
from tui.sheets.base import Sheet
from tui.widgets.form import Field, Form
from tui.widgets.line_list import LineList

FIELDS = (
    Field("on", "Stripped on", hint="today"),
    Field("found", "Found", hint="nothing, or what it was"),
    Field("cover", "Deck left", choices=tuple(cover.value for cover in Cover)),
    Field("kg", "Old covering", unit="kg", hint="40"),
    Field("to", "Went to", hint="the tip, its name"),
    Field("note", "Transfer note", hint="its reference"),
)


def read_stripping(values: Mapping[str, str], today: date) -> Stripping:
    """What was typed. Raises :class:`Refused`."""
    if values["cover"] not in {cover.value for cover in Cover}:
        raise Refused("Deck left", values["cover"], "Choose how it was left for the night.")
    kg = values["kg"].strip()
    return Stripping(
        on=read_date("Stripped on", values["on"], today),
        found=read_text("Found", values["found"], "Write what was found; nothing is an answer."),
        cover=Cover(values["cover"]),
        waste_kg=read_number("Old covering", kg, "kilograms such as 40") if kg else None,
        waste_to=values["to"].strip(),
        transfer_note=values["note"].strip(),
    )


def stripping_typed(job: Job, today: date) -> dict[str, str]:
    """What stands in the fields; the mass is worked out until it is weighed."""
    done = job.stripping
    if done is None:
        mass = _worked_out_mass(job)
        return {"on": shown_date(today), "kg": shown(mass) if mass else ""}
    return {
        "on": shown_date(done.on),
        "found": done.found,
        "cover": done.cover.value,
        "kg": shown(done.waste_kg),
        "to": done.waste_to,
        "note": done.transfer_note,
    }


def _worked_out_mass(job: Job) -> Decimal:
    if job.survey is None:
        return Decimal(0)
    try:
        area = to_decimal(build_roof(job.survey.measures).area / 10**6)
    except HeadlapError:
        return Decimal(0)  # the survey says what is wrong with the roof
    return old_mass(area, job.survey.old).quantize(Decimal(1))


class StrippedSheet(Sheet):
    """A form, and the extras under it."""

    sheet: ClassVar[SheetName] = SheetName.STRIP
    place: ClassVar[str] = "stripped"
    reminds_of: ClassVar[Stage | None] = Stage.STRIPPED
    DEFAULT_CSS = "StrippedSheet Form { height: 7; } StrippedSheet LineList { height: 1fr; }"

    def body(self) -> Iterable[Widget]:
        """Form and extras."""
        yield Form(FIELDS)
        yield LineList()

    def fill(self, situation: Situation) -> None:
        """What is on record."""
        self.query_one(Form).fill(stripping_typed(situation.job, situation.today))

    def follow(self, situation: Situation) -> None:
        """The extras."""
        self.query_one(LineList).show(len(situation.job.extras), self._draw)

    def part(self, job: Job) -> object:
        """The stripping."""
        return job.stripping

    def action_add_extra(self) -> None:
        """Write down an extra."""
        self._ask(None)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Settle the extra."""
        event.stop()
        self._ask(self.situation.job.extras[event.row])

    async def save(self) -> None:
        """Write it up."""
        job = self.job
        stripping = read_stripping(self.query_one(Form).values, self.desk.today)
        await self.record(
            lambda book: book.record_stripping(job, stripping), "Saved: what stripping found."
        )

    def _ask(self, extra: Extra | None) -> None:
        async def save(written: Extra) -> None:
            job = self.situation.job
            await self.act(lambda book: book.save_extra(job, written), "Saved: the extra.")

        quote, trader = self.situation.job.quote, self.situation.trader
        rate = quote.deck_rate if quote else trader.rates.deck_metre
        self.app.push_screen(extra_dialog(extra, trader, self.desk.today, rate, save))

    def _draw(self, row: int, width: int) -> Text:
        extra, p = self.situation.job.extras[row], self.palette
        line = Text(fitted(extra.words, width - 40), style=f"bold {p.ink}", end="")
        line.append(f" {shown(extra.quantity):>6} {fitted(extra.unit, 6)}", style=p.quiet)
        line.append(f"{show_money(extra.price):>11}  ", style=p.ink)
        line.append(extra.state.value, style=p.slate)
        return line
