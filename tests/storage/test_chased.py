"""An invoice is chased in one action: told in the history, undone like any other."""

from datetime import timedelta

import pytest

from domain.errors import NotNow
from domain.job import Chase
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import laid, undo

ON, DAY = builders.SIGNED, builders.SIGNED + timedelta(days=9)


def test_a_promise_is_kept_told_and_undone(book: Book) -> None:
    job = book.issue_invoice(laid(book), ON)
    bill = job.documents[0].id or 0
    after = book.chase(job, Chase(bill, ON, DAY, promised=True))
    assert after == book.job(job.id or 0)
    told = [(each.document_id, each.on, each.until, each.promised) for each in after.chased]
    assert told == [(bill, ON, DAY, True)]
    (line,) = read_week(book._path, ON).lines
    assert line.chased == after.chased
    clause = f"promise to pay {job.documents[0].label} on Sat 4 Jul 2026 recorded"
    assert book.history(job.id or 0)[0].words == clause
    assert undo(book, job.id or 0) == clause
    assert book.job(job.id or 0).chased == ()


def test_what_is_not_owed_is_not_chased(book: Book) -> None:
    job = book.issue_invoice(laid(book), ON)
    with pytest.raises(NotNow, match="Nothing is owed"):
        book.chase(job, Chase(99, ON, DAY, promised=False))
