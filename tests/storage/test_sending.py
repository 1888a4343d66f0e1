"""A quote and an invoice are final first, then marked as sent; what is sent never changes."""

from datetime import timedelta
from pathlib import Path

import pytest

from domain.checks.sending import waiting, went_out_on
from domain.errors import NotNow
from domain.job import Job, Outgoing, Sending
from domain.week import TaskKind, WeekLine, plan_week
from domain.week.tasks import Task
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import laid, one_option, surveyed, undo

SENT, LATER = builders.SENT, builders.SENT + timedelta(days=3)


def _final(book: Book) -> Job:
    job = surveyed(book)
    job = book.save_quote(job, one_option(job))
    return book.make_final(job, Sending(SENT, builders.VALID_UNTIL, {}))


def _sends(path: Path, job: Job, day: object = SENT) -> list[Task]:
    today = SENT if day is SENT else LATER
    tasks = plan_week(read_week(path, today), today).tonight
    return [each for each in tasks if each.job_id == job.id and each.to_send is not None]


def _line(path: Path, job: Job) -> WeekLine:
    return next(each for each in read_week(path, SENT).lines if each.job_id == job.id)


def test_a_final_quote_stands_in_tonight_until_it_is_marked_as_sent(book: Book, path: Path) -> None:
    job = _final(book)
    (task,) = _sends(path, job)
    assert (task.kind, task.words, task.amount) == (
        TaskKind.QUOTE,
        "Mark as sent: quote",
        _line(path, job).quote_gross,
    )
    assert (job.quotes[0].sent_on, went_out_on(job, job.quotes[0])) == (SENT, None)
    frozen = job.quotes[0]
    job = book.mark_sent(job, Outgoing.QUOTE, 1, LATER)
    assert (job.quotes[0], went_out_on(job, frozen)) == (frozen, LATER)
    assert _sends(path, job) == []
    with pytest.raises(NotNow, match="This quote is marked as sent already"):
        book.mark_sent(job, Outgoing.QUOTE, 1, LATER)


def test_it_is_sent_no_sooner_than_it_is_dated(book: Book) -> None:
    job = book.mark_sent(_final(book), Outgoing.QUOTE, 1, SENT - timedelta(days=2))
    assert went_out_on(job, job.quotes[0]) == SENT


def test_marked_as_sent_is_undone_and_the_paper_stays(book: Book, path: Path) -> None:
    before = _final(book)
    book.mark_sent(before, Outgoing.QUOTE, 1, SENT)
    key = before.id or 0
    undo(book, key)
    job = book.job(key)
    assert job.quotes == before.quotes
    assert waiting(job, Outgoing.QUOTE, 1) is not None
    assert len(_sends(path, job)) == 1


def test_a_quote_marked_as_sent_at_once_waits_for_nothing(book: Book, path: Path) -> None:
    job = surveyed(book)
    job = book.save_quote(job, one_option(job))
    job = book.send_quote(job, Sending(SENT, builders.VALID_UNTIL, {}))
    assert (went_out_on(job, job.quotes[0]), _sends(path, job)) == (SENT, [])


def test_a_quote_that_ran_out_before_it_went_is_to_be_priced_again(book: Book, path: Path) -> None:
    job = _final(book)
    after = builders.VALID_UNTIL + timedelta(days=1)
    tasks = plan_week(read_week(path, after), after).tonight
    own = [(task.words, task.to_send) for task in tasks if task.job_id == job.id]
    assert own == [("Price it again: ran out", None)]


def test_an_invoice_waits_and_is_not_overdue_before_it_went(book: Book, path: Path) -> None:
    job = book.issue_invoice(laid(book), builders.SIGNED)
    late = job.documents[0].due_on + timedelta(days=9)

    def money() -> list[str]:
        tasks = plan_week(read_week(path, late), late).tonight
        kinds = (TaskKind.INVOICE, TaskKind.OVERDUE)
        return [task.words for task in tasks if task.job_id == job.id and task.kind in kinds]

    assert money() == ["Mark as sent: INV-1"]
    job = book.mark_sent(job, Outgoing.INVOICE, 1, builders.SIGNED)
    assert money() == ["Overdue 9 days"]
