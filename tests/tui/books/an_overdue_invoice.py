"""A book with one invoice that nobody has paid."""

from datetime import datetime, time, timedelta
from pathlib import Path

from domain.job import Job, Outgoing, Stage
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import by_another_hand, carried_to
from tests.tui.hands import Clock


def _invoiced(book: Book, job: Job) -> Job:
    job = book.issue_invoice(job, builders.SIGNED)
    return book.mark_sent(job, Outgoing.INVOICE, 1, builders.SIGNED)


def overdue(path: Path, days: int) -> Clock:
    """A book with one invoice, on the evening so many days after it was due."""
    carried_to(path, Stage.LAID)
    job = by_another_hand(path, _invoiced)
    due = job.documents[0].due_on
    return Clock(datetime.combine(due + timedelta(days=days), time(19)))
