"""A job that is called off with its deposit asked for or paid, in the book."""

from datetime import timedelta
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.errors import HeadlapError
from domain.job import Closing, DocumentKind, Ending, Job, Received, Reopening
from domain.week import TaskKind, plan_week
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import DEPOSIT, booked, read_again

TOLD = builders.AGREED + timedelta(days=2)


def _deposit_asked(book: Book) -> Job:
    return book.issue_deposit_invoice(booked(book), builders.AGREED)


def _paid(book: Book, job: Job) -> Job:
    asked = job.documents[-1].id or 0
    return book.record_payment(job, Received(asked, DEPOSIT, builders.AGREED, "cash"))


def _off(book: Book, job: Job, kept: int = 0) -> Job:
    why = "felt cut to size" if kept else ""
    return book.end_job(job, Closing(Ending.CALLED_OFF, "sold it", TOLD, TOLD, kept, why))


def _tonight(path: Path, days: int = 60) -> list[tuple[TaskKind, str, int | None]]:
    today = TOLD + timedelta(days=days)
    return [(t.kind, t.words, t.amount) for t in plan_week(read_week(path, today), today).tonight
            if t.job_id]  # fmt: skip


def test_the_invoice_for_a_deposit_that_nobody_paid_asks_for_nothing_more(
    book: Book, path: Path
) -> None:
    job = _off(book, _deposit_asked(book))
    assert [each.label for each in job.documents] == ["INV-1", "CRN-1"]
    assert (job.owed, job.credit, job.told_on) == (0, 0, TOLD)
    assert read_again(path, job) == job
    assert _tonight(path) == []


def test_a_deposit_that_was_paid_stands_in_tonight_with_its_day_until_it_is_paid_back(
    book: Book, path: Path
) -> None:
    job = _off(book, _paid(book, _deposit_asked(book)), kept=40_00)
    assert (job.owed, job.credit) == (0, 60_00)
    by = TOLD + timedelta(days=14)
    words = f"Pay back by {by.day} {by:%b}"
    assert _tonight(path) == [(TaskKind.PAY_BACK, words, 60_00)]
    with pytest.raises(HeadlapError, match=r"£40\.00 of it was kept"):
        book.reopen(job, Reopening("changed their minds", TOLD))
    back = GivenBack(DocumentKind.REFUND, job.payments[0].id or 0, 60_00, TOLD, "paid back")
    book.give_back(job, back, TOLD)
    assert _tonight(path) == []


def test_a_job_whose_deposit_was_credited_whole_is_taken_up_again(book: Book, path: Path) -> None:
    job = _off(book, _paid(book, _deposit_asked(book)))
    job = book.reopen(job, Reopening("changed their minds", TOLD))
    assert (job.ended, job.told_on, job.kept_why) == (None, None, "")
    again = book.issue_deposit_invoice(job, TOLD)
    assert (again.owed, again.credit) == (0, 0)
    assert read_again(path, again) == again
