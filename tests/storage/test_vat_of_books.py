"""The spreadsheet of a trader registered for VAT: every item has its rate, net and VAT.

Of £480.00 the net is £400.00, of £60.00 £50.00, of £120.00 £100.00: the VAT fraction, derived.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.books.headings import Heading
from domain.books.items import items_of
from domain.books.purchase import Cost, Purchase
from domain.books.quarter import up_to
from domain.books.quarter_rows import TITLES, quarter_rows
from domain.job import DocumentKind, Job, Received
from domain.tax.years import TaxYear, quarter_of
from storage.book import Book
from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin

DAY = date(2026, 7, 9)
LATER = date(2026, 7, 20)


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with opened(path) as book:
        begin(book, registered=True)
        yield book


def _told(book: Book) -> list[tuple[str, ...]]:
    """Income or expense, rate, net and VAT of each item."""
    quarter, books = quarter_of(DAY), book.books_with_vat(TaxYear(2026))
    items = items_of(books, {}, quarter.year, quarter.last)
    rows = quarter_rows(quarter, items, up_to(books, quarter), by_heading=False, with_vat=True)
    told = [dict(zip(TITLES, row, strict=True)) for row in rows]
    return [
        (row["income"] or row["expense"], row["vat_rate"], row["net"], row["vat"])
        for row in told
        if row["kind"] != "total"
    ]


def _paid(book: Book, price: Price, pence: int) -> Job:
    job = book.issue_invoice(agreed_job(book, price, "Mrs B", registered=True), DAY)
    return book.record_payment(job, Received(job.documents[0].id, pence, DAY, "cheque"))


def _back(book: Book, job: Job, pence: int, on: date = DAY) -> Job:
    back = GivenBack(DocumentKind.REFUND, job.payments[0].id or 0, pence, on, "back")
    return book.give_back(job, back, on)


def test_a_refund_holds_the_vat_of_what_it_came_from(book: Book) -> None:
    job = _paid(book, Price(), 480_00)
    job = book.credit(job, Credited(job.documents[0].id or 0, 60_00, "agreed less"), DAY)
    assert _told(book) == [("480.00", "20", "400.00", "80.00")]
    job = _back(book, job, 20_00)
    _back(book, job, 40_00, LATER)
    assert _told(book) == [
        ("480.00", "20", "400.00", "80.00"),
        ("-20.00", "20", "-16.67", "-3.33"),
        ("-40.00", "20", "-33.33", "-6.67"),
    ]


def test_money_for_no_invoice_holds_what_it_brought_to_tax(book: Book) -> None:
    job = agreed_job(book, Price(deposit=10_00), "Mrs C", registered=True)
    job = book.record_payment(job, Received(None, 120_00, DAY, "cheque"))
    assert _told(book) == [("120.00", "20", "100.00", "20.00")]
    _back(book, job, 60_00)
    assert _told(book)[1:] == [("-60.00", "20", "-50.00", "-10.00")]


def test_what_was_paid_over_the_last_invoice_is_for_no_supply(book: Book) -> None:
    job = _paid(book, Price(), 505_00)
    assert _told(book) == [("480.00", "20", "400.00", "80.00"), ("25.00", "0", "25.00", "0.00")]
    _back(book, job, 25_00)
    assert _told(book)[2:] == [("-25.00", "0", "-25.00", "0.00")]


def test_a_purchase_of_which_no_vat_is_reclaimed_has_its_net_too(book: Book) -> None:
    slip = Purchase(DAY, "Market", "gloves", 5_00, Cost.ORDINARY, Heading.GOODS)
    book.save_purchase(slip, "", DAY)
    book.save_purchase(replace(slip, pence=6_00, vat_rate=Decimal(20)), "", DAY)
    assert sorted(_told(book)) == [("5.00", "0", "5.00", "0.00"), ("6.00", "20", "5.00", "1.00")]
