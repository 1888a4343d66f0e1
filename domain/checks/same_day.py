"""Two jobs on one day: named where the second is booked, their hours and loads held together."""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from domain.checks.check import Check, OtherWork, Part, Severity, Situation
from domain.days.calendar import show_date, show_hours
from domain.estimate.weights import load_words, van_load
from domain.job import BookedDay, Stage
from domain.page_names import PageName
from domain.takeoff.loads import Load


def others_on(situation: Situation, day: date) -> tuple[OtherWork, ...]:
    """Return what is booked for other jobs on a day still to come."""
    return tuple(other for other in situation.others if other.day == day >= situation.today)


def _days_shared(situation: Situation) -> Iterator[tuple[BookedDay, tuple[OtherWork, ...]]]:
    """The booked days that other jobs have too; none once the roof is stripped or laid."""
    job = situation.job
    if job.stripping is None and job.laying is None:
        for booked in job.days:
            others = others_on(situation, booked.day)
            if others:
                yield booked, others


def _words(situation: Situation) -> str:
    return " ".join(_day_words(situation, *shared) for shared in _days_shared(situation))


def _day_words(situation: Situation, booked: BookedDay, others: tuple[OtherWork, ...]) -> str:
    """Name the jobs beside this one on a day, and what they come to with it."""
    named = ", ".join(f"{other.ref} {other.place}".rstrip() for other in others)
    together = booked.hours + sum(other.hours for other in others)
    whole = show_hours(situation.trader.hours_a_day)
    words = f"{show_date(booked.day)}: {named} too, {show_hours(together)} of {whole} h together."
    loads = [other.kg for other in others if other.kg is not None]
    own = van_load(situation.job, situation.trader.van)
    if own is None or not loads:
        return words
    return f"{words} {load_words(Load(own.kg + sum(loads, Fraction(0)), own.limit), 'to load')}"


ANOTHER_JOB = Check(
    id="another-job",
    part=Part.DAY,
    stage=Stage.BOOKED,
    severity=Severity.CAUTION,
    holds=lambda situation: not any(_days_shared(situation)),
    words="No other job on the day?",
    remedy="Move one of them, or say how both are done.",
    page=PageName.BOOKING,
    figures=_words,
)
"""Before a job is marked as booked: each day is its own, or the trader says how both are done."""
