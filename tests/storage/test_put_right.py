"""Money that was recorded wrongly, and what puts it right in the book."""

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from domain.accounts.counter_entries import CounterNote, GivenBack
from domain.accounts.credit_note import Credited
from domain.errors import HeadlapError
from domain.job import DocumentKind, Job, Received
from domain.snapshot import from_json
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import DOCUMENT, laid, query, read_again
from tests.storage.ledger.agreed_jobs import Price, agreed_job

PAID_TEN_TIMES = 4_860_00


def _invoiced(book: Book) -> Job:
    return book.issue_invoice(laid(book), builders.SIGNED)


def _paid(book: Book, job: Job, pence: int) -> Job:
    assert job.invoice is not None
    return book.record_payment(
        job, Received(job.invoice.id or 0, pence, builders.SIGNED, "bank transfer")
    )


def _mistake(job: Job) -> GivenBack:
    payment = job.payments[-1]
    why = "typed by mistake"
    return GivenBack(DocumentKind.MISTAKE, payment.id or 0, payment.pence, builders.SIGNED, why)


def test_a_payment_of_ten_times_too_much_is_taken_back_and_the_invoice_owed_again(
    book: Book, path: Path
) -> None:
    job = _invoiced(book)
    asked = job.owed
    job = _paid(book, job, PAID_TEN_TIMES)
    assert job.owed == 0
    job = book.give_back(job, _mistake(job), builders.DUE)
    assert (job.owed, job.credit, job.payments[0].is_mistake) == (asked, 0, True)
    assert read_again(path, job) == job
    (line,) = read_week(path, builders.DUE).lines
    assert [bill.owed for bill in line.bills] == [asked]
    assert sum(pence for _, pence in line.paid) == 0
    assert query(path, "SELECT kind, number FROM document ORDER BY id")[-1] == ("mistake", 1)
    right = _paid(book, job, asked)
    assert right.owed == 0
    assert [each.label for each in right.documents] == ["INV-1", "REC-1", "MIS-1", "REC-2"]
    with pytest.raises(HeadlapError, match="already"):
        book.give_back(right, replace(_mistake(job)), builders.DUE)


def test_a_wrong_invoice_is_credited_and_the_next_one_takes_what_was_paid(
    book: Book, path: Path
) -> None:
    job = _invoiced(book)
    wrong = job.invoice
    assert wrong is not None
    job = _paid(book, job, 100_00)
    job = book.credit(job, Credited(wrong.id or 0, wrong.gross, "wrong address"), builders.DUE)
    assert (job.invoice, job.owed, job.credit) == (None, 0, 100_00)
    (line,) = read_week(path, builders.DUE).lines
    assert line.bills == ()
    job = book.issue_invoice(job, builders.DUE)
    assert (job.owed, job.credit) == (wrong.gross - 100_00, 0)
    assert job.invoice is not None
    assert job.invoice.label == "INV-2"
    assert read_again(path, job) == job


def test_what_was_paid_over_is_paid_back_and_no_more(book: Book, path: Path) -> None:
    job = _invoiced(book)
    job = _paid(book, job, job.owed + 25_00)
    back = replace(_mistake(job), kind=DocumentKind.REFUND, pence=25_00, reason="paid twice")
    with pytest.raises(HeadlapError, match=r"£25\.00 or less"):
        book.give_back(job, replace(back, pence=25_01), builders.DUE)
    job = book.give_back(job, back, builders.DUE)
    assert (job.credit, job.owed) == (0, 0)
    assert query(path, "SELECT kind, pence, reason FROM counter_entry") == [
        ("refund", 25_00, "paid twice")
    ]


def test_credit_is_used_on_the_customers_next_invoice_whatever_the_job_and_freed_again(
    book: Book, path: Path
) -> None:
    first = _invoiced(book)
    first = _paid(book, first, first.owed + 60_00)
    other = agreed_job(book, Price(), first.customer, registered=False)
    assert [each.pence for each in other.credit_elsewhere] == [60_00]
    other = book.issue_invoice(other, builders.SIGNED)
    assert (other.owed, other.credit, other.credit_elsewhere) == (340_00, 0, ())
    first = book.job(first.id or 0)
    assert (first.credit, first.owed) == (0, 0)
    lines = {line.job_id: line for line in read_week(path, builders.DUE).lines}
    assert [bill.owed for bill in lines[other.id or 0].bills] == [340_00]
    whole = other.documents[0]
    other = book.credit(other, Credited(whole.id or 0, 350_00, "half of it"), builders.DUE)
    assert (other.owed, book.job(first.id or 0).credit) == (0, 10_00)
    first = book.give_back(book.job(first.id or 0), _mistake(first), builders.DUE)
    assert first.owed == first.payments[0].pence - 60_00
    assert book.job(other.id or 0).owed == 50_00
    note = from_json(CounterNote, first.documents[-1].snapshot)
    assert [(each.label, each.pence) for each in note.owed_again][1] == ("INV-2", 50_00)


@pytest.mark.parametrize(
    "wrong",
    [
        "INSERT INTO freed VALUES (NULL, 1, 1, 1000001, 0)",
        "INSERT INTO write_off VALUES (NULL, 1, 1, '2026-07-09', 1, 0, 'x', NULL)",
        "INSERT INTO counter_entry VALUES (NULL, 1, 1, 'refund', '2026-07-09', 1, 'x', 1)",
        f"INSERT INTO document ({DOCUMENT}) VALUES (NULL, 1, 'credit note', 1, 'credit note',"  # noqa: S608 -- ours
        " '2026-07-09', '2026-07-09', '2026-07-09', 1, '{}', 1)",
        f"INSERT INTO document ({DOCUMENT}) VALUES (NULL, 1, 'credit note', 1, 'credit note',"  # noqa: S608 -- ours
        " '2026-07-09', '2026-07-09', '2026-07-09', 1, '{}', NULL)",
    ],
    ids=[
        "freed-too-much",
        "written-off-too-much",
        "back-too-much",
        "credited-too-much",
        "credits-nothing",
    ],
)
def test_the_database_refuses_sums_that_are_more_than_what_they_are_taken_from(
    book: Book, path: Path, wrong: str
) -> None:
    job = _invoiced(book)
    _paid(book, job, job.owed)
    book.close()
    with sqlite3.connect(path) as connection, pytest.raises(sqlite3.IntegrityError):
        connection.execute(wrong)
