"""Business miles, day by day: proposed from days booked and visited, accepted in the evening."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from domain.books.purchase import Purchase
from domain.days.calendar import show_date, show_in_full
from domain.errors import NotNow, Refused
from domain.quantity import show_quantity
from domain.typing_slips import Slip

ASKED_OVER, REFUSED_OVER = Decimal(400), Decimal(1000)
"""Miles a day that are asked about, and that are refused: our own limits."""


@dataclass(frozen=True, slots=True)
class Miles:
    """What was driven on one day for one job, or for something else."""

    on: date
    miles: Decimal
    """There and back; 0: nothing was driven that day, or of miles proposed: nobody knows yet."""
    words: str
    """Where to, and what for."""
    job_id: int | None = None
    id: int | None = None
    version: int = 0


@dataclass(frozen=True, slots=True)
class Trip:
    """A day at a job, as the book knows it."""

    on: date
    job_id: int
    place: str
    task: str
    """What for: "strip, lay", "survey"."""
    miles: Decimal
    """There and back, as its quote has them; 0: not known."""


def proposed(trips: Iterable[Trip], known: Iterable[Miles], today: date) -> tuple[Miles, ...]:
    """The miles of the days that are over or are today and have none yet, the earliest first.

    Two tasks of one job on one day are one trip. Several jobs on one day are one round, as long as
    the way to the farthest at the least: so much is proposed, since no more is known, and the
    trader says what was driven. To a place without a quote the way is not known: 0 is proposed, to
    be asked for. A day with miles for one of its jobs is answered.
    """
    answered = {(each.on, each.job_id) for each in known}
    days: dict[date, dict[int, Trip]] = {}
    for trip in sorted(trips, key=lambda each: (each.on, each.job_id)):
        if trip.on <= today:
            days.setdefault(trip.on, {}).setdefault(trip.job_id, trip)
    return tuple(
        _round(tuple(of_day.values()))
        for on, of_day in days.items()
        if not any((on, job_id) in answered for job_id in of_day)
    )


def _round(trips: tuple[Trip, ...]) -> Miles:
    """What was driven to these jobs on one day, kept with the farthest."""
    farthest = max(trips, key=lambda trip: trip.miles)
    words = "; ".join(f"{trip.place}, {trip.task}" for trip in trips)
    begins = "one round: " if len(trips) > 1 else ""
    return Miles(farthest.on, farthest.miles, begins + words, farthest.job_id)


def acceptable(found: Iterable[Miles]) -> tuple[Miles, ...]:
    """Of those proposed what one key accepts: the miles that are known."""
    return tuple(each for each in found if each.miles)


def driven(known: Iterable[Miles], first: date, last: date) -> Decimal:
    """All the miles from a day to another, both included."""
    return sum((each.miles for each in known if first <= each.on <= last), Decimal(0))


def demand_drivable(new: Miles, known: Iterable[Miles], today: date) -> None:
    """Raise :class:`Refused` for a day to come, and for over 1,000 miles on one day."""
    if new.on > today:
        raise Refused("on", show_in_full(new.on), "Give the day it was driven, today at latest.")
    whole = _of_the_day(new, known)
    if whole > REFUSED_OVER:
        raise Refused(
            "miles",
            show_quantity(new.miles),
            f"That makes {show_quantity(whole)} miles on {show_date(new.on)}: give 1,000 at most.",
        )


def far_driven(new: Miles, known: Iterable[Miles]) -> Slip | None:
    """Over 400 miles on one day: asked about."""
    whole = _of_the_day(new, known)
    if whole <= ASKED_OVER:
        return None
    return Slip("miles", f"{show_quantity(whole)} miles on {show_date(new.on)} is a long way")


def demand_by_the_mile(purchases: Iterable[Purchase]) -> None:
    """Raise :class:`NotNow` while costs of the vehicle stand as expenses: one or the other.

    GOV.UK, simplified expenses: read.
    """
    of_vehicle = [each for each in purchases if each.counts and each.cost.is_of_the_vehicle]
    if of_vehicle:
        first = of_vehicle[0]
        raise NotNow(
            f"{first.what[:1].upper()}{first.what[1:]} of {show_date(first.on)} is recorded as an "
            "expense: a van goes by the mile or by its costs. Mark it as not for tax first."
        )


def _of_the_day(new: Miles, known: Iterable[Miles]) -> Decimal:
    others = (e.miles for e in known if e.on == new.on and (e.id is None or e.id != new.id))
    return sum(others, new.miles)
