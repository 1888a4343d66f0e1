"""What the answer to “did it go ahead?” makes of a job."""

from dataclasses import replace
from datetime import date

from domain.days.calendar import WEEKDAYS, show_day
from domain.errors import NotNow
from domain.job import LAY, Cover, DayAnswer, Job, Stripping, WentAhead

_OTHER_REASONS = frozenset(WentAhead) - {
    WentAhead.DONE,
    WentAhead.RAINED_OFF,
    WentAhead.PART_DONE,
}


def answer_words(answer: DayAnswer) -> str:
    """The answer in a clause: ``Tue 23 Jun rained off``, or why else it did not go ahead."""
    day = f"{WEEKDAYS[answer.day.weekday()][:3]} {show_day(answer.day)}"
    if answer.went in _OTHER_REASONS:
        return f"{day} did not go ahead: {answer.went}"
    return f"{day} {answer.went}"


def answer_day(job: Job, answer: DayAnswer) -> Job:
    """Return a job as the answer leaves it.

    A day that was rained off, or did not go ahead for another reason, is no longer booked, and
    materials that did not come are no longer in hand. One that was part done is the day of the
    stripping, sheeted; where that is recorded already the day is no longer booked, and the roof is
    sheeted again. One that was done leaves the roof as the day was booked for: laid, or sheeted
    until the day of the laying; what is looked at while laying is recorded on its page. Raises
    :class:`NotNow` for a job that has ended or is laid, and for a day that is not booked.
    """
    if job.ended is not None:
        raise NotNow(f"The job was {job.ended}: reopen it first.")
    if job.laying is not None:
        raise NotNow("The laying is recorded already: correct it on its page.")
    left = tuple(booked for booked in job.days if booked.day != answer.day)
    if left == job.days:
        raise NotNow("The day is no longer booked: look at the booking.")
    if answer.went is WentAhead.DONE:
        return _covered(job, answer, cover_after(job, answer.day))
    if answer.went is not WentAhead.PART_DONE:
        in_hand = job.materials_in_hand and answer.went is not WentAhead.NO_MATERIALS
        return replace(job, days=left, materials_in_hand=in_hand)
    if job.stripping is not None:
        return replace(job, days=left, stripping=replace(job.stripping, cover=Cover.SHEETED))
    return _covered(job, answer, Cover.SHEETED)


def cover_after(job: Job, day: date) -> Cover:
    """Return what lies on the roof after a booked day that went as planned."""
    if job.stripping is not None:
        return Cover.LAID
    tasks = " ".join(booked.task for booked in job.days if booked.day == day)
    return Cover.LAID if LAY in tasks.replace(",", " ").split() else Cover.SHEETED


def _covered(job: Job, answer: DayAnswer, cover: Cover) -> Job:
    """The job with its roof covered so; the day is that of the stripping if none is known."""
    known = job.stripping or Stripping(on=answer.day, found=answer.found, cover=cover)
    return replace(job, stripping=replace(known, cover=cover))
