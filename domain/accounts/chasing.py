"""When an invoice is chased, and what is recorded of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.job.account import Document
from domain.job.chase import Chase
from domain.job.job import Job

CHASED_AFTER = 7
"""Days after the due day, or after a reminder, before a customer is reminded; common practice."""
SECOND_AFTER = 21
"""Days after the due day before the second reminder goes out; common practice."""
FURTHER_FOR = 30
"""Days for which Tonight leaves an invoice alone that was taken further: so long a customer has to
reply (Pre-Action Protocol for Debt Claims: quoted)."""


class NextThing(StrEnum):
    """What is to be done next about an invoice on which something is owed."""

    WAIT = "not due"
    FIRST = "reminder"
    SECOND = "second reminder"
    DECIDE = "decide"
    """They promise a day, it is written off, or taken further."""
    PROMISED = "will pay"
    FURTHER = "taken further"


@dataclass(frozen=True, slots=True)
class Next:
    """What comes next, and from which day."""

    what: NextThing
    on: date


def next_thing(due_on: date, chased: Sequence[Chase], today: date) -> Next:
    """Tell what comes next of an invoice; ``chased`` is how often it was, the last one last.

    A reminder counts as the second only from :data:`SECOND_AFTER` days after the due day on.
    """
    if chased and chased[-1].further:
        return Next(NextThing.FURTHER, chased[-1].on)
    if chased and chased[-1].promised and chased[-1].until > today:
        return Next(NextThing.PROMISED, chased[-1].until)
    if today <= due_on:
        return Next(NextThing.WAIT, due_on)
    made = [each for each in chased if each.is_reminder]
    if not made:
        return Next(NextThing.FIRST, due_on + timedelta(days=CHASED_AFTER))
    second_from = due_on + timedelta(days=SECOND_AFTER)
    second = [each for each in made[1:] if each.on >= second_from]
    if not second:
        return Next(NextThing.SECOND, max(second_from, made[0].until))
    return Next(NextThing.DECIDE, second[-1].until)


def goes_second(job: Job, invoice: Document, today: date) -> bool:
    """Whether a reminder of an invoice made today is the second, or one more after it."""
    chased = [each for each in job.chased if each.document_id == invoice.id]
    comes = next_thing(invoice.due_on, chased, today).what
    return comes in (NextThing.SECOND, NextThing.DECIDE) and is_second_due(invoice.due_on, today)


def goes_out_again(job: Job, today: date) -> Document:
    """The invoice of a job that the second reminder is of, that due first.

    Raises :class:`NotNow` where it is due for none.
    """
    late = [each for each in job.documents if each.owed > 0 and goes_second(job, each, today)]
    if not late:
        raise NotNow(f"Job {job.ref} has no second reminder yet: the first, then 21 days overdue.")
    return min(late, key=lambda each: (each.due_on, each.number))


def is_second_due(due_on: date, today: date) -> bool:
    """Whether a reminder made on a day is the second."""
    return (today - due_on).days >= SECOND_AFTER


def taken_further(document_id: int, today: date) -> Chase:
    """An invoice handed on today, to whoever gets it paid for the trader."""
    until = today + timedelta(days=FURTHER_FOR)
    return Chase(document_id, today, until, promised=False, further=True)


def is_chased(due_on: date, today: date) -> bool:
    """Whether an invoice that was due on a day is so long overdue that a reminder goes out."""
    return (today - due_on).days >= CHASED_AFTER


def back_on(today: date) -> date:
    """The day on which an invoice is back after a reminder of today."""
    return today + timedelta(days=CHASED_AFTER)


def chase_words(job: Job, chase: Chase) -> str:
    """What was done, in a clause."""
    label = next((each.label for each in job.documents if each.id == chase.document_id), "")
    if chase.promised:
        return f"promise to pay {label} on {show_date(chase.until)} recorded"
    return f"{label} taken further" if chase.further else f"reminder of {label} recorded"


def demand_owed(job: Job, chase: Chase) -> None:
    """Raise :class:`NotNow` unless it is of an invoice of the job on which something is owed."""
    if all(each.id != chase.document_id or each.owed <= 0 for each in job.documents):
        raise NotNow("Nothing is owed on that invoice any more.")
