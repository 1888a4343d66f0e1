"""What a call about the weather makes of a job: its days moved, or kept."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from domain.days.calendar import WEEKDAYS, show_day
from domain.errors import NotNow
from domain.job import BookedDay, DaysMoved, Job, Rung

_CHANGED = "Its days have changed meanwhile: look at the booking."


def moved_words(moved: DaysMoved) -> str:
    """The move in a clause, by its first day: ``moved to Tue 1 Dec``."""
    return f"moved to {_first(day.day for day in days_after(moved))}"


def kept_words(kept: Iterable[Rung]) -> str:
    """The call in a clause, by its first day: ``rung about Thu 26 Nov: it stays``."""
    return f"rung about {_first(rung.day for rung in kept)}: it stays"


def days_after(moved: DaysMoved) -> tuple[BookedDay, ...]:
    """Return the days as they stand once they are moved, in the same order."""
    by = timedelta(days=moved.by)
    return tuple(replace(booked, day=booked.day + by) for booked in moved.days)


def move_days(job: Job, moved: DaysMoved) -> Job:
    """Return a job with days moved on, all by as much: their order and spacing stay.

    Raises :class:`NotNow` for a job that has ended or is laid, and if one of the days is no longer
    booked as it was.
    """
    _refuse_over(job)
    if not moved.days or not set(moved.days) <= set(job.days):
        raise NotNow(_CHANGED)
    after = {booked.id: booked for booked in days_after(moved)}
    days = (after.get(booked.id, booked) for booked in job.days)
    return replace(job, days=tuple(sorted(days, key=lambda booked: booked.day)))


def demand_booked(job: Job, kept: Iterable[Rung]) -> None:
    """Demand that days which are to stay are booked, of a job that goes on.

    Raises :class:`NotNow` for a job that has ended or is laid, and if one of the days is no longer
    booked, or none is given.
    """
    _refuse_over(job)
    staying = {rung.day for rung in kept}
    if not staying or not staying <= {booked.day for booked in job.days}:
        raise NotNow(_CHANGED)


def _refuse_over(job: Job) -> None:
    if job.ended is not None:
        raise NotNow(f"The job was {job.ended}: reopen it first.")
    if job.laying is not None:
        raise NotNow("The laying is recorded already.")


def _first(days: Iterable[date]) -> str:
    """The first of some days, as it is spoken of; nothing for none, which are refused."""
    day = min(days, default=None)
    if day is None:
        return ""
    return f"{WEEKDAYS[day.weekday()][:3]} {show_day(day)}"
