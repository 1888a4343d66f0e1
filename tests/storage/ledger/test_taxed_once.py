"""Each part of the work is brought to tax once: on the earlier of its money and its VAT invoice.

VAT Regulations 1995 reg. 93(1), VAT Act 1994 s. 6(4): read. £100.00 hold £16.67, £480.00 £80.00:
the VAT fraction, derived.
"""

import csv
from collections import Counter
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from io import StringIO
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.job import DocumentKind, Job, Received
from storage.book import Book
from tests import builders
from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin, csv_of

CAME = date(2026, 7, 8)
INVOICED = date(2026, 7, 9)
BACK = date(2026, 7, 20)
TAKES_OFF = ("use", "refund", "mistake", "write-off")


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with opened(path) as book:
        begin(book, registered=True)
        yield book


def _brought(book: Book) -> dict[str, Decimal]:
    """The VAT brought to tax at each tax point."""
    sums: Counter[str] = Counter()
    for row in csv.DictReader(StringIO(csv_of(book).decode())):
        if row["tax_point"]:
            sign = -1 if row["kind"] in TAKES_OFF else 1
            sums[row["tax_point"]] += sign * int(row["vat"].replace(".", ""))
    return {day: Decimal(pence) / 100 for day, pence in sums.items() if pence}


def _ahead(book: Book, job: Job, pence: int = 100_00, on: date = CAME) -> Job:
    return book.record_payment(job, Received(None, pence, on, "cheque"))


def _gone(book: Book, job: Job, kind: DocumentKind, pence: int) -> Job:
    back = GivenBack(kind, job.payments[0].id or 0, pence, BACK, "came back")
    return book.give_back(job, back, BACK)


def test_money_ahead_and_the_invoice_come_to_the_vat_of_the_whole(book: Book) -> None:
    job = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    assert _brought(book) == {"2026-07-08": Decimal("16.67")}
    book.issue_invoice(job, INVOICED)
    assert _brought(book) == {"2026-07-08": Decimal("16.67"), "2026-07-09": Decimal("63.33")}


def test_money_that_never_came_leaves_all_of_the_tax_with_the_invoice(book: Book) -> None:
    job = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    job = book.issue_invoice(job, INVOICED)
    _gone(book, job, DocumentKind.MISTAKE, 100_00)
    assert _brought(book) == {"2026-07-09": Decimal("80.00")}


def test_money_that_never_came_before_the_invoice_brings_nothing(book: Book) -> None:
    job = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    _gone(book, job, DocumentKind.MISTAKE, 100_00)
    assert _brought(book) == {}


def test_what_is_paid_back_of_it_takes_its_vat_back_on_that_day(book: Book) -> None:
    job = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    job = _gone(book, job, DocumentKind.REFUND, 60_00)
    assert _brought(book) == {"2026-07-08": Decimal("16.67"), "2026-07-20": Decimal("-10.00")}
    book.issue_invoice(job, date(2026, 7, 21))
    assert sum(_brought(book).values()) == Decimal("80.00")


def test_what_is_paid_over_a_deposit_invoice_has_its_own_tax_point(book: Book) -> None:
    job = agreed_job(book, Price(deposit=100_00), "Mrs L", registered=True)
    job = book.issue_deposit_invoice(job, builders.SIGNED)
    job = book.record_payment(job, Received(job.documents[0].id, 300_00, CAME, "cheque"))
    assert _brought(book) == {"2026-06-25": Decimal("16.67"), "2026-07-08": Decimal("33.33")}
    book.issue_invoice(job, INVOICED)
    assert _brought(book)["2026-07-09"] == Decimal("30.00")
    assert sum(_brought(book).values()) == Decimal("80.00")


def test_an_invoice_of_an_earlier_day_is_the_tax_point_of_all_of_it(book: Book) -> None:
    job = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    book.issue_invoice(job, builders.SIGNED)
    assert _brought(book) == {"2026-06-25": Decimal("80.00")}


def test_money_before_the_work_keeps_its_day_and_the_rest_has_that_of_the_work(book: Book) -> None:
    job = agreed_job(book, Price(), "Mrs A", registered=True)
    job = _ahead(book, job, on=date(2026, 6, 20))
    book.issue_invoice(job, date(2026, 7, 31))
    assert _brought(book) == {"2026-06-20": Decimal("16.67"), "2026-06-24": Decimal("63.33")}


def test_money_for_one_job_that_pays_another_is_taxed_with_the_other(book: Book) -> None:
    first = _ahead(book, agreed_job(book, Price(deposit=50_00), "Mrs A", registered=True))
    other = agreed_job(book, Price(), first.customer, registered=True)
    book.issue_invoice(other, date(2026, 7, 31))
    brought = _brought(book)
    assert brought.pop("2026-06-24") == Decimal("80.00")
    assert brought == {"2026-07-08": Decimal("16.67"), "2026-07-31": Decimal("-16.67")}


def test_what_a_credit_note_freed_goes_before_what_was_taxed_as_it_came(book: Book) -> None:
    job = agreed_job(book, Price(deposit=60_00), "Mrs A", registered=True)
    job = book.issue_deposit_invoice(job, builders.SIGNED)
    job = book.record_payment(job, Received(job.documents[0].id, 100_00, CAME, "cheque"))
    job = book.credit(job, Credited(job.documents[0].id or 0, 30_00, "less"), INVOICED)
    book.issue_invoice(job, INVOICED)
    rows = list(csv.DictReader(StringIO(csv_of(book).decode())))
    used = [(row["gross"], row["vat"]) for row in rows if row["kind"] == "use"]
    assert used == [("60.00", "0.00"), ("30.00", "5.00"), ("40.00", "6.67")]
    assert sum(_brought(book).values()) == Decimal("80.00")
