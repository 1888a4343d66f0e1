"""What is still to do on the roof, and for its day: from the yes to the customer's word."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, timedelta

from domain.days.calendar import show_day, show_near
from domain.job.on_the_roof import Cover, Sample
from domain.job.stage import Stage
from domain.page_names import PageName
from domain.week.days import lies_ahead
from domain.week.tasks import Task, task_of
from domain.week.tonight_order import TaskKind
from domain.week.week_data import WeekLine

SOON = 7  # days ahead of a booked day; common practice


def _days_ahead(line: WeekLine, today: date) -> list[date]:
    """The booked days on which something is still to be done, the earliest first."""
    return sorted({b.day for b in line.days if lies_ahead(line, b.day, today)})


def _is_agreed(line: WeekLine) -> bool:
    """Whether the work is agreed and not yet marked as laid."""
    agreed = line.accepted_on is not None or line.stage.rank >= Stage.BOOKED.rank
    return agreed and line.stage.rank < Stage.LAID.rank


def deck_open(line: WeekLine, _today: date) -> Task | None:
    """Speak of an open deck; a job that was called off leaves it open all the same."""
    if line.cover is not Cover.OPEN or line.stripped_on is None or line.laid_on is not None:
        return None
    task = task_of(TaskKind.SHEET, line, "Sheet it: roof left open", line.stripped_on)
    return replace(task, field="cover")


def _deck_unchecked(line: WeekLine, today: date) -> Task | None:
    """Ask about the deck on the evening of a day on which it was to be stripped."""
    if not _is_agreed(line) or line.stripped_on or line.laid_on:
        return None
    if all(booked.day != today for booked in line.days):
        return None
    return task_of(TaskKind.CLOSED, line, "Is the deck closed?", today)


_ASBESTOS: Mapping[Sample | None, tuple[str, str]] = {
    None: ("Get it tested: asbestos?", "sample"),
    Sample.CLEAR: ("Record sample: asbestos?", "cleared_by"),
    Sample.FOUND: ("Record removal: asbestos", "removed_by"),
}
"""What is to be done of it, by what the laboratory found, and the first field that says so."""


def _untested(line: WeekLine, _today: date) -> Task | None:
    """Speak of an old covering that may hold asbestos for as long as it is on the roof."""
    if not line.to_be_tested:
        return None
    old, since = line.old_covering, line.visit_on or date.min
    words, field = _ASBESTOS[old.sample if old is not None else None]
    is_said = old is not None and old.suspicion is not None
    task = task_of(TaskKind.TEST, line, words, since, line.quote_gross)
    return replace(task, field=field if is_said else "suspicion")


def _no_order(line: WeekLine, today: date) -> Task | None:
    ahead = _days_ahead(line, today)
    soon = today + timedelta(days=SOON)
    if line.materials_in_hand or line.stripped_on or not ahead or ahead[0] > soon:
        return None
    return task_of(TaskKind.ORDER, line, f"Order for {show_near(ahead[0], today)}", ahead[0])


def _no_request(line: WeekLine, today: date) -> Task | None:
    """Speak of work inside the right to cancel for which the customer did not ask.

    Without the request, and their word that the right then ends with the work, what is done in that
    time cannot be charged (Consumer Contracts Regulations 2013, reg. 36).
    """
    ends, asked = line.service_ends, line.early_request_on
    if not _is_agreed(line) or ends is None or ends < today:
        return None
    begun = (on for on in (line.stripped_on, line.laid_on) if on is not None)
    inside = sorted(on for on in (*begun, *_days_ahead(line, today)) if on <= ends)
    if not inside or (asked is not None and asked <= inside[0] and line.knows_right_ends):
        return None
    early = asked is not None and asked <= inside[0]
    words = "Ask: right ends when done" if early else "Get request in writing"
    task = task_of(TaskKind.REQUEST, line, words, inside[0])
    near = show_near(line.right_ends or ends, today)
    about = f"or move the day: they can cancel until {near}, and work before then is not paid for"
    return replace(task, about=about)


def _not_called_laid(line: WeekLine, _today: date) -> Task | None:
    """Speak of a roof that is laid: its invoice waits until it is marked as laid."""
    if line.stage.rank >= Stage.LAID.rank:
        return None
    if line.laid_on is not None and line.usage_recorded:
        return task_of(TaskKind.LAID, line, "Mark as laid", line.laid_on, line.quote_gross)
    if line.laid_on is None and line.cover is Cover.LAID and line.stripped_on is not None:
        words = "Record the laying"
        return task_of(TaskKind.LAID, line, words, line.stripped_on, line.quote_gross)
    return None


def _went_ahead(line: WeekLine, today: date) -> Task | None:
    """Ask about a day that has come, or gone by, of which nothing is recorded."""
    if not _is_agreed(line) or line.laid_on or line.cover in (Cover.OPEN, Cover.LAID):
        return None
    stripped = line.stripped_on
    if stripped is None and any(booked.day == today for booked in line.days):
        return None  # whether the deck is closed is asked first
    gone = [
        booked.day
        for booked in line.days
        if (booked.day < today if stripped is None else stripped < booked.day <= today)
    ]
    if not gone:
        return None
    day = min(gone)
    words, page = ("Did it go ahead?", PageName.STRIP)
    if stripped is not None:
        words, page = ("Did the laying go ahead?", PageName.LAYING)
    task = task_of(TaskKind.WENT_AHEAD, line, words, day)
    return replace(task, about=f"booked for {show_day(day)}", page_there=page)


def _not_recorded(line: WeekLine, _today: date) -> Task | None:
    """Ask for what was used once the laying is on record."""
    if line.usage_recorded or line.laid_on is None:
        return None
    return task_of(TaskKind.USED, line, "Record materials used", line.laid_on)


def _not_called_booked(line: WeekLine, today: date) -> Task | None:
    """Speak of a job that is agreed, and has a day, and is still called quoted."""
    if not _is_agreed(line) or line.stage.rank >= Stage.BOOKED.rank or not _days_ahead(line, today):
        return None
    return task_of(TaskKind.BOOKED, line, "Mark as booked", line.accepted_on or today)


def _no_day(line: WeekLine, _today: date) -> Task | None:
    """Speak of a job without a day, or with none but for laying what is not stripped yet."""
    if not _is_agreed(line) or line.stripped_on or line.laid_on:
        return None
    if any(booked.task.strip().casefold() != "lay" for booked in line.days):
        return None
    since = line.accepted_on or date.min
    words = "Book the stripping" if line.days else "Book a day"
    task = task_of(TaskKind.BOOK, line, words, since, line.quote_gross)
    return replace(task, field=_next_day(line))


def _no_laying(line: WeekLine, _today: date) -> Task | None:
    """Speak of a roof under a sheet for whose laying no day is kept."""
    since = line.stripped_on
    if not _is_agreed(line) or since is None or line.laid_on or line.cover is not Cover.SHEETED:
        return None
    if any(booked.day > since for booked in line.days):
        return None
    about = f"sheeted since {show_day(since)}"
    task = task_of(TaskKind.LAYING, line, "Book the laying", since)
    return replace(task, about=about, field=_next_day(line))


def _next_day(line: WeekLine) -> str:
    """The field of the booking in which one more day is typed."""
    return f"day{len(line.days) + 1}"


def _not_signed_off(line: WeekLine, _today: date) -> Task | None:
    """Ask for the customer's word once the work is invoiced: the invoice comes first."""
    if line.stage is not Stage.LAID or all(bill.deposit for bill in line.bills):
        return None
    return task_of(TaskKind.SIGN_OFF, line, "Get it signed off", line.laid_on or date.min)


WORK_RULES: tuple[Callable[[WeekLine, date], Task | None], ...] = (
    deck_open,
    _deck_unchecked,
    _untested,
    _no_order,
    _no_request,
    _not_called_laid,
    _went_ahead,
    _not_recorded,
    _not_called_booked,
    _no_day,
    _no_laying,
    _not_signed_off,
)
"""What is asked of the work of every job that has not ended."""
