"""The booking: up to four days, with what speaks for and against each as it is typed."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from typing import ClassVar

from textual import events
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Static

from domain.checks.check import Situation
from domain.days.calendar import show_date, show_day
from domain.job import BookedDay, Booking, Job, Stage
from domain.page_names import PageName
from domain.papers.materials_paper import materials_paper
from domain.tone import Tone
from tui.frame.commands import key_of
from tui.job.booking.booking_fields import (
    DAYS,
    FIELDS,
    IN_HAND,
    day_note,
    days_gone_by,
    days_typed,
    hours_note,
    load_note,
    read_days,
    right_words,
    whole_note,
)
from tui.job.page import JobPage
from tui.job.reminders_shown import Reminders
from tui.job.roof_views import show_takeoff
from tui.widgets.form import YES_NO, Form

_TROUBLE = (Tone.STOP, Tone.CAUTION)


class PastDays(Static):
    """How many days have gone by; a click shows them."""

    DEFAULT_CSS = "PastDays { color: $quiet; }"

    class Asked(Message):
        """It was clicked."""

    def show(self, days: Sequence[date], *, shown: bool) -> None:
        """Name them, if there are any."""
        self.display = bool(days)
        count = f"{len(days)} past day{'s' if len(days) > 1 else ''}"
        named = ", ".join(show_day(day) for day in days)
        does = "puts them away" if shown else "shows them"
        self.update(Content(f"{count}: {named} – {key_of('booking', 'past_days')} {does}"))

    def on_click(self, event: events.Click) -> None:
        """Show them, or put them away, as the key does."""
        event.stop()
        self.post_message(self.Asked())


class BookingPage(JobPage):
    """The right to cancel above, then the days; what is said of a day follows its typing."""

    page: ClassVar[PageName] = PageName.BOOKING
    place: ClassVar[str] = "booking"
    DEFAULT_CSS = """
    BookingPage > VerticalScroll { scrollbar-size-vertical: 1; }
    BookingPage > VerticalScroll > * { height: auto; }
    BookingPage #figures { margin-bottom: 1; }
    BookingPage.-low #figures { margin-bottom: 0; }
    BookingPage #right.-caution { color: $caution; }
    BookingPage #right.-quiet { color: $quiet; }
    BookingPage FieldRow { height: auto; }
    BookingPage FieldRow > .note { height: auto; max-height: 2; }
    BookingPage FieldRow > .label { width: 19; }
    BookingPage FieldRow > Input { width: 18; }
    BookingPage FieldRow > Input.-wide { width: 1fr; }
    BookingPage FieldRow > .unit { padding: 0; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._blank_days, self._past_shown = 0, False

    def body(self) -> Iterable[Widget]:
        """What to mind, what stands over all days, then the days: they scroll together."""
        yield VerticalScroll(
            Reminders(Stage.BOOKED),
            Static("", id="right"),
            Static("", id="figures"),
            PastDays(),
            Form(FIELDS),
            can_focus=False,
        )

    def fill(self, situation: Situation) -> None:
        """Put what is recorded into the fields."""
        self._form.fill(days_typed(situation.job))
        self._blank_days, self._past_shown = 0, False
        self._fold_days()

    def follow(self, situation: Situation) -> None:
        """The right to cancel, and what is said of the days."""
        said = right_words(situation.job, situation.today)
        line = self.query_one("#right", Static)
        line.set_classes(f"-{said.tone.value}")
        line.update(Content(said.words))
        self._note_days()

    def part(self, job: Job) -> object:
        """The days, and whether the materials are there."""
        return job.days, job.materials_in_hand

    def on_form_changed(self) -> None:
        """What is said of a day follows what is typed; the screen hears of the change too."""
        if self._situation is not None:  # the choices tell of themselves before they are filled
            self._note_days()
            self._fold_days()

    def action_another_day(self) -> None:
        """Show one more day to book, and go there."""
        blank = self._blank
        if len(blank) < max(1, self._blank_days + 1):
            self.job_screen.say(f"{len(DAYS)} days at most.", Tone.QUIET)
            return
        self._blank_days = max(self._blank_days, self._least_blank) + 1
        self._fold_days()
        shown = blank[min(self._blank_days, len(blank)) - 1]
        self._form.focus_first(f"day{shown}")

    def action_past_days(self) -> None:
        """Show the days that have gone by, or put them away."""
        self._past_shown = not self._past_shown
        self._fold_days()

    def on_past_days_asked(self, event: PastDays.Asked) -> None:
        """The same by a click."""
        event.stop()
        self.action_past_days()

    @property
    def _blank(self) -> list[int]:
        """The days that nothing is booked for or typed; one just cleared stays where it is."""
        values, booked = self._form.values, len(self.situation.job.days)
        return [n for n in DAYS if n > booked and not values[f"day{n}"].strip()]

    @property
    def _least_blank(self) -> int:
        """How many days are shown to be typed in, if none more was asked for."""
        values = self._form.values
        return 0 if any(values[f"day{n}"].strip() for n in DAYS) else 1

    def _fold_days(self) -> None:
        """Put the days that have gone by out of the way, and those that are blank."""
        values = self._form.values
        past = days_gone_by(self.situation.job, values, self.situation.today)
        unseen = self._blank[max(self._blank_days, self._least_blank) :]
        away = [*unseen, *([] if self._past_shown else past)]
        self._form.fold([f"{name}{n}" for n in away for name in ("day", "hours", "task")])
        gone = [self.situation.job.days[n - 1].day for n in past]
        self.query_one(PastDays).show(gone, shown=self._past_shown)

    def begin(self) -> None:
        """Put the cursor on the first day that something speaks against, else as every page."""
        super().begin()
        values = self._form.values
        for n in DAYS:
            if not self._form.query_one(f"#row-day{n}").display:
                continue
            notes = (note(values, n, self.situation) for note in (day_note, hours_note))
            if any(note.tone in _TROUBLE for note in notes):
                self._form.focus_first(f"day{n}")
                return

    def as_typed(self) -> Job:
        """The job with the days as they are typed."""
        job, values = self.job, self._form.values
        days = read_days(values, job, self.situation.trader, self.open_book.today)
        return replace(job, days=days, materials_in_hand=values[IN_HAND.id] == YES_NO[0])

    async def save(self) -> None:
        """Book what was typed. Raises :class:`domain.errors.HeadlapError`."""
        job, values = self.job, self._form.values
        days = read_days(values, job, self.situation.trader, self.open_book.today)
        in_hand = values[IN_HAND.id] == YES_NO[0]
        await self.record(lambda book: book.book_days(job, Booking(days, in_hand)), _saved(days))

    def action_takeoff(self) -> None:
        """Show the take-off of the roof as a paper."""
        show_takeoff(self)

    def action_materials(self) -> None:
        """Show what to buy; once that is recorded, what was used of it."""
        self.job_screen.attempt(self._show_materials)

    def _show_materials(self) -> None:
        from tui.papers.paper_screen import PaperScreen

        self.app.push_screen(PaperScreen(materials_paper(self.situation.job)))

    def _note_days(self) -> None:
        values = self._form.values
        for n in DAYS:
            for key, note in (("day", day_note), ("hours", hours_note)):
                said = note(values, n, self.situation)
                self._form.note(f"{key}{n}", said.words, said.tone)
        # On one line where they fit: in a low window the days need the other.
        whole = (whole_note(values, self.situation), load_note(self.situation))
        lines = [Content.styled(each.words, f"${each.tone.value}") for each in whole if each.words]
        self.query_one("#figures", Static).update(Content("  ").join(lines))

    @property
    def _form(self) -> Form:
        return self.query_one(Form)


def _saved(days: tuple[BookedDay, ...]) -> str:
    """What to say of the days now booked."""
    if not days:
        return "Saved: no day is booked."
    return f"Saved: booked for {', '.join(show_date(booked.day) for booked in days)}."
