"""The call about the weather: the number, what is wrong, the days there are instead."""

from collections.abc import Awaitable, Callable, Iterable, Sequence
from datetime import date, timedelta
from typing import Any, ClassVar, TypeAlias, cast

from rich.text import Text
from textual import events
from textual.binding import BindingType
from textual.widget import Widget
from textual.widgets import Static

from domain.contacts import international_digits
from domain.days.calendar import show_hours
from domain.days.forecast_line import show_token
from domain.days.weather import Verdict
from domain.errors import NotNow
from domain.job import Cover, DaysMoved, Job, Rung
from domain.page_names import PageName
from domain.tone import Tone
from domain.week import Task, TaskKind, WeekData, WeekLine
from domain.week.put_off import PutOff
from domain.week.ring_text import Message, ring_text, spoken
from domain.week.ringing import DayOffered, days_to_move, next_days
from domain.week.trouble import Trouble, troubles_of
from storage.book import Book
from tui.frame.held_keys import KEYS_WAIT
from tui.frame.program import Program
from tui.frame.safe_text import one_line, plain
from tui.frame.screen import BaseScreen
from tui.frame.theme import PALETTES
from tui.papers.copying import copy_or_save
from tui.week.code_screen import CodeScreen
from tui.week.job_of_line import open_job_of
from tui.week.phone_number import PhoneNumber
from tui.widgets.form_dialog import FormDialog, dialog_bindings
from tui.widgets.line_list import NO_ROW, LineList

Answer: TypeAlias = DaysMoved | tuple[Rung, ...] | PutOff
"""Days moved, days that stay, or nobody answered."""

_NONE_FREE = "No day of the next four weeks is dry, free and long enough."
_INSTEAD = "Instead: a digit or ↓ chooses the day, Enter moves the job to it"


class Call:
    """All that is known of a call before it is made."""

    def __init__(self, line: WeekLine, data: WeekData, today: date) -> None:
        """Raises :class:`NotNow` if nothing is wrong any more."""
        self.line, self.today, self.trader = line, today, data.trader
        self.wrong: Sequence[Trouble] = troubles_of(data, line, today)
        if not self.wrong:
            raise NotNow("The forecast has changed meanwhile: there is nothing to ring about.")
        self.days = days_to_move(line, today, {each.day for each in self.wrong})
        self.offered: Sequence[DayOffered] = next_days(data, line, self.days, today)

    def text(self, offered: DayOffered | None) -> Message:
        """What could be texted instead, asking for a day."""
        return ring_text(self.line, self.wrong, offered, self.trader.heading)

    @property
    def stays(self) -> tuple[Rung, ...]:
        """The days in trouble, kept as they are."""
        return tuple(Rung(each.day, self.today, show_token(each.forecast)) for each in self.wrong)


def ring_about(screen: BaseScreen, task: Task, data: WeekData, job_id: int) -> None:
    """Ask what came of the call, and record it. Raises :class:`NotNow` if it is not needed."""
    line = next(each for each in data.lines if each.job_id == job_id)
    call = Call(line, data, screen.open_book.today)

    async def save(answer: Answer) -> None:
        await screen.open_book.ask(lambda book: _record(book, book.job(job_id), answer))
        screen.undo_of = job_id
        await screen.say_saved(_told(call, answer))

    def book_otherwise(_saved: bool | None) -> None:
        if dialog.goes_to_booking:
            open_job_of(screen, task, job_id, PageName.BOOKING)

    dialog = RingDialog(f"Ring {task.who}", call, save)
    screen.app.push_screen(dialog, book_otherwise)


def _record(book: Book, job: Job, answer: Answer) -> Job:
    if isinstance(answer, DaysMoved):
        return book.move_days(job, answer)
    if isinstance(answer, PutOff):
        return book.ring_again(job, answer)
    return book.keep_days(job, answer)


def _told(call: Call, answer: Answer) -> str:
    """What was recorded, in a sentence."""
    who = call.line.place or call.line.customer
    if isinstance(answer, PutOff):
        return f"{who}: no answer. Back tomorrow, {spoken(answer.until)}."
    if isinstance(answer, DaysMoved):
        moved = next(each for each in call.offered if each.by == answer.by)
        return f"{who}: moved to {_days(moved)}."
    return f"{who}: rung, stays on {' and '.join(spoken(each.day) for each in answer)}."


class RingDialog(FormDialog[Answer], inherit_bindings=False):
    """A digit goes to its day, Enter moves the job there; other keys record what else was said.

    No day is chosen beforehand: Enter pressed once too often must move nobody.
    """

    place: ClassVar[str] = "ring"
    places: ClassVar[tuple[str, ...]] = ("ring",)
    BINDINGS: ClassVar[list[BindingType]] = dialog_bindings("ring")
    DEFAULT_CSS = """
    RingDialog #wrong, RingDialog #instead { padding: 0 2; height: auto; }
    RingDialog #wrong { color: $caution; }
    RingDialog #instead { color: $quiet; margin-top: 1; }
    RingDialog LineList { margin: 0 2; background: $ground; }
    """

    def __init__(self, title: str, call: Call, save: Callable[[Answer], Awaitable[Any]]) -> None:
        super().__init__(title, (), lambda _: self._given(), save)
        self._call = call
        self._answer: Answer | None = None
        self._days = LineList()
        self._days.styles.height = len(call.offered)
        self.goes_to_booking = False
        """Whether another day is to be booked by hand."""

    def below(self) -> Iterable[Widget]:
        """The number, what is wrong, the days."""
        yield PhoneNumber(self._call.line.phone)
        wrong = (*map(_wrong, self._call.wrong), *stands_off(self._call.line))
        yield Static(plain("\n".join(wrong)), id="wrong")
        instead = _INSTEAD if self._call.offered else _NONE_FREE
        yield Static(plain(instead), id="instead")
        yield self._days

    def on_mount(self) -> None:
        """Show the days, the cursor on none of them yet."""
        super().on_mount()
        self._form.display = False  # nothing is typed here
        self._days.show(len(self._call.offered), self._draw)
        self._days.cursor = NO_ROW
        self._days.focus()

    def on_key(self, event: events.Key) -> None:
        """A digit goes to the day it stands before."""
        if event.key.isdecimal() and 0 < int(event.key) <= len(self._call.offered):
            event.stop()
            self._days.cursor = int(event.key) - 1

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Move the job to the day chosen."""
        event.stop()
        if event.row == NO_ROW:
            self.say("Choose the day first, by its digit or ↓.", Tone.CAUTION)
        else:
            self._move_to(event.row)

    def action_open(self) -> None:
        """Move the job to the day chosen."""
        if self._call.offered:
            self._days.action_choose()
        else:
            self.say(_NONE_FREE, Tone.QUIET)

    def action_stays(self) -> None:
        """Record that the days stay as they are."""
        self._save_as(self._call.stays)

    def action_no_answer(self) -> None:
        """Ring again tomorrow."""
        self._save_as(PutOff(TaskKind.RING, self._call.today + timedelta(days=1)))

    def action_copy(self) -> None:
        """Copy what could be texted, and show it."""
        self.run_worker(self._copied(), group=KEYS_WAIT, exit_on_error=False)

    def action_code(self) -> None:
        """Show number and text as a square code."""
        line = self._call.line
        number = international_digits(line.phone)
        if number:
            who = line.customer or line.place
            self.app.push_screen(CodeScreen(who, number, self._call.text(self._asked_for)))
        else:
            self.say("There is no telephone number to text to.", Tone.CAUTION)

    def action_booking(self) -> None:
        """Leave for the booking page."""
        self.goes_to_booking = True
        self.dismiss(False)

    @property
    def _asked_for(self) -> DayOffered | None:
        """The day that a text asks for: the first until one is chosen."""
        offered = self._call.offered
        return offered[max(0, self._days.cursor)] if offered else None

    async def _copied(self) -> None:
        text = one_line(self._call.text(self._asked_for).full)
        path = cast("Program", self.app).open_book.path
        unsure = await copy_or_save(self.app, path, f"Text to {self._call.line.ref}", text)
        told = f"{text} – {unsure}" if unsure else f"Copied: {text}"
        self.say(told, Tone.QUIET if unsure else Tone.GOOD)

    def _move_to(self, row: int) -> None:
        self._save_as(DaysMoved(self._call.days, self._call.offered[row].by))

    def _save_as(self, answer: Answer) -> None:
        self._answer = answer
        self.action_save()

    def _given(self) -> Answer:
        if self._answer is None:
            raise NotNow("Say first what came of the call.")
        return self._answer

    def _draw(self, row: int, width: int) -> Text:
        """A day, its digit before it: the hours it has, and which of them are wanted."""
        offered, p = self._call.offered[row], PALETTES[self.app.theme]
        hours = " and ".join(
            f"{show_hours(booked.hours)} h of {show_hours(found.hours)} h"
            for booked, found in zip(offered.days, offered.windows, strict=True)
        )
        weather = " and ".join(
            found.words if found.verdict is Verdict.GOOD else "no forecast"
            for found in offered.windows
        )
        line = Text(f"{row + 1}  ", style=f"bold {p.verdigris}", end="")
        line.append(f"{_days(offered):<12}  ", style=p.ink)
        line.append(f"{weather:<14}", style=p.moss if offered.is_forecast else p.quiet)
        beside = " and ".join(one_line(each.place) for each in offered.beside)
        line.append(f"{hours}{f', beside {beside}' if beside else ''}", style=p.quiet)
        line.truncate(width)
        return line


def _days(offered: DayOffered) -> str:
    """``Tue 1 Dec``, or ``Tue 1 Dec and Wed 2 Dec``."""
    return " and ".join(dict.fromkeys(spoken(each.day) for each in offered.days))


def stands_off(line: WeekLine) -> tuple[str, ...]:
    """That the old covering is off already, where it is: every day later it stands in the wet."""
    if line.cover is Cover.OPEN:
        return ("The roof is off and the deck open: get it sheeted before you move the day.",)
    if line.cover is Cover.SHEETED and line.laid_on is None:
        return ("The roof is off, under a tarpaulin: see that it is tied down until the new day.",)
    return ()


def _wrong(trouble: Trouble) -> str:
    """A day and what is wrong with it: ``Thu 26 Nov: dry 8½–11, 6 h booked``."""
    only = "only " if trouble.window.verdict is Verdict.GOOD else ""
    return (
        f"{spoken(trouble.day)}: {only}{trouble.window.words}, {show_hours(trouble.hours)} h booked"
    )
