"""The hours of a job: those that its quote was priced with against those booked for it."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from math import ceil

from domain.days.calendar import show_hours
from domain.estimate.quoting import basis_of
from domain.job import BookedDay, Job
from domain.quantity import to_quarter

_NEAR = Decimal("0.9")
"""Booked hours may fall short of the quote's by a tenth; common practice."""


def hours_quoted(job: Job) -> Decimal:
    """Hours that the quote that counts was priced with, boards included; 0 without one."""
    basis = basis_of(job.quote) if job.quote else None
    return basis.hours.whole if basis else Decimal(0)


def hours_booked(days: Iterable[BookedDay]) -> Decimal:
    """Hours of all the days together."""
    return sum((booked.hours for booked in days), Decimal(0))


def falls_short(booked: Decimal, quoted: Decimal) -> bool:
    """Tell whether the hours booked fall short of the quote's by more than a tenth."""
    return booked < quoted * _NEAR


def hours_words(booked: Decimal, quoted: Decimal) -> str:
    """The two figures in a sentence, the quote's to the quarter of an hour."""
    return f"{show_hours(booked)} hours booked; quote allows {show_hours(to_quarter(quoted))}."


def hours_for_a_day(left: Decimal, whole_day: Decimal) -> Decimal:
    """Hours to put to one day more when ``left`` of the quote's are not booked yet.

    Up to the half hour, a whole day at most; a whole day where nothing is left or known.
    """
    if left <= 0:
        return whole_day
    return min(Decimal(ceil(left * 2)) / 2, whole_day)


def hours_given(
    left: Decimal, whole_day: Decimal, days: Mapping[int, Decimal | None]
) -> dict[int, Decimal]:
    """Give each day for which no hours are said its share of the hours that are left.

    ``days`` says by number how many hours there is room for on the day, None if it has no date:
    then it is told what it would be given, and takes nothing from the others.
    """
    given = {}
    for number, room in days.items():
        most = whole_day if room is None else min(whole_day, room)
        given[number] = hours_for_a_day(left, most)
        left -= given[number] if room is not None else 0
    return given
