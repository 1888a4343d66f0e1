"""When an invoice is chased, and what is recorded of it."""

from datetime import date, timedelta

from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.job.chase import Chase
from domain.job.job import Job

CHASED_AFTER = 7
"""Days after the due day, or after a reminder, before a customer is reminded; common practice."""


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
    return f"reminder of {label} recorded"


def demand_owed(job: Job, chase: Chase) -> None:
    """Raise :class:`NotNow` unless it is of an invoice of the job on which something is owed."""
    if all(each.id != chase.document_id or each.owed <= 0 for each in job.documents):
        raise NotNow("Nothing is owed on that invoice any more.")
