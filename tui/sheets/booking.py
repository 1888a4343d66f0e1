"""Booking: the days, and what stands against each of them."""

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import ClassVar

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.calendar import read_date, read_ruled_out, show_date
from domain.cancellation import right_ends
from domain.checks.check import Situation
from domain.errors import HeadlapError
from domain.job import BookedDay, Job
from domain.papers.blocks import Tone
from domain.sheets import SheetName
from domain.weather import window
from tui.reading.plain import read_number, read_text, shown, shown_date
from tui.sheets.base import Sheet
from tui.widgets.form import YES_NO, Field, Form

DAYS = (1, 2, 3)
_LONGEST_DAY = Decimal(16)

FIELDS = (
    Field("hand", "Materials in hand", choices=YES_NO),
    *(
        field
        for number in DAYS
        for field in (
            Field(f"day{number}", f"Day {number}", unit=" ", hint="thu", section=" "),
            Field(f"hours{number}", f"Hours on day {number}", unit="h", hint="8"),
            Field(f"task{number}", f"To do on day {number}", hint="strip, lay"),
        )
    ),
)


def read_days(values: Mapping[str, str], today: date) -> tuple[BookedDay, ...]:
    """The days that were typed. Raises :class:`domain.errors.Refused`."""
    return tuple(
        BookedDay(
            day=read_date(f"Day {n}", values[f"day{n}"], today),
            hours=read_number(
                f"Hours on day {n}", values[f"hours{n}"], "hours such as 8", most=_LONGEST_DAY
            ),
            task=read_text(f"To do on day {n}", values[f"task{n}"] or "strip, lay", "Say what."),
        )
        for n in DAYS
        if values[f"day{n}"].strip()
    )


def days_typed(job: Job) -> dict[str, str]:
    """What stands in the fields."""
    typed = {"hand": YES_NO[0] if job.materials_in_hand else YES_NO[1]}
    for number, booked in zip(DAYS, job.days, strict=False):
        typed |= {
            f"day{number}": shown_date(booked.day),
            f"hours{number}": shown(booked.hours),
            f"task{number}": booked.task,
        }
    return typed


class BookingSheet(Sheet):
    """Up to three days; beside each what speaks against it."""

    sheet: ClassVar[SheetName] = SheetName.BOOKING
    DEFAULT_CSS = "BookingSheet Static { height: auto; }"

    def body(self) -> Iterable[Widget]:
        """The right to cancel, then the days."""
        yield Static("", id="cancel")
        yield Form(FIELDS)

    def fill(self, situation: Situation) -> None:
        """What is on record."""
        self.query_one(Form).fill(days_typed(situation.job))

    def follow(self, situation: Situation) -> None:
        """The end of the right to cancel, and what speaks against the days."""
        ends = _right_ends(situation.job)
        words = f"The customer may cancel until {show_date(ends)}." if ends else ""
        self.query_one("#cancel", Static).update(Content(words))
        self._note_days()

    def part(self, job: Job) -> object:
        """The days."""
        return job.days, job.materials_in_hand

    def on_form_changed(self) -> None:
        """What speaks against a day follows the typing."""
        self._note_days()

    async def save(self) -> None:
        """Book the days."""
        job, values = self.job, self.query_one(Form).values
        days, in_hand = read_days(values, self.desk.today), values["hand"] == YES_NO[0]
        await self.record(lambda book: book.book_days(job, days, in_hand), "Saved: the days.")

    def _note_days(self) -> None:
        form = self.query_one(Form)
        for number in DAYS:
            against = self._against(form.values[f"day{number}"])
            form.note(f"day{number}", against, Tone.CAUTION)

    def _against(self, typed: str) -> str:
        """What speaks against a day as typed; empty while it cannot be read."""
        try:
            day = read_date("Day", typed, self.desk.today)
            ruled_out = read_ruled_out("Ruled out", self.situation.job.site.ruled_out)
        except HeadlapError:
            return ""
        ends = _right_ends(self.situation.job)
        found = window(self.situation.outlooks.get(day), self.situation.trader.limits)
        reasons = (
            ("▲ inside the right to cancel", ends is not None and day <= ends),
            ("▲ Sunday", day.weekday() == 6),
            ("▲ ruled out", day in ruled_out.dates or day.weekday() in ruled_out.weekdays),
            (f"▲ {found.trouble}", bool(found.trouble)),
        )
        return ", ".join(words for words, holds in reasons if holds)


def _right_ends(job: Job) -> date | None:
    acceptance = job.quote.acceptance if job.quote else None
    return right_ends(job.customer, acceptance) if acceptance else None
