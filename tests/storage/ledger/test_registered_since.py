"""Money that came before the trader registered for VAT: that part of the work bears none.

Its tax point is the day of the money (VAT Regulations 1995 reg. 93(1), VAT Act 1994 s. 6(4):
read). £380.00 hold £63.33; £380.00 before VAT bear £76.00: derived.
"""

import csv
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from io import StringIO
from pathlib import Path

import pytest

from domain.accounts import invoice
from domain.accounts.invoice import Invoice
from domain.job import Job, Received, VatTerms
from domain.papers.invoice_paper import invoice_paper
from domain.snapshot import from_json
from domain.trader import VatStanding
from storage.book import Book
from tests import builders
from tests.domain.papers.reading import words_of
from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin, csv_of
from tests.storage.ledger.reckoner import Wrong, reckon
from tests.storage.ledger.tax_reckoner import reckon_tax

CAME = date(2026, 6, 25)
INVOICED = date(2026, 7, 9)
PRICE = Price(net=(480_00,), deposit=150_00)


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with opened(path) as book:
        begin(book, registered=False)
        yield book


def _registered(book: Book, job: Job, terms: VatTerms) -> Job:
    now = replace(book.trader(), vat_standing=VatStanding.STANDARD, vat_number="980780684")
    book.save_trader(now)
    on = builders.AGREED if terms is VatTerms.ADDED else None
    return book.say_vat_terms(book.job(job.id or 0), terms, on)


def _rows(book: Book, kind: str) -> list[tuple[str, str, str]]:
    told = csv_of(book).decode()
    reckon_tax(told)
    rows = csv.DictReader(StringIO(told))
    return [(r["vat_rate"], r["net"], r["vat"]) for r in rows if r["kind"] == kind]


def _ahead(book: Book, pence: int) -> Job:
    job = agreed_job(book, PRICE, "Mrs V", registered=False)
    return book.record_payment(job, Received(None, pence, CAME, "cheque"))


@pytest.mark.parametrize(
    ("terms", "net", "vat"),
    [(VatTerms.INSIDE, "316.67", "63.33"), (VatTerms.ADDED, "380.00", "76.00")],
)
def test_what_was_paid_before_bears_none_and_the_rest_its_vat(
    book: Book, terms: VatTerms, net: str, vat: str
) -> None:
    job = book.issue_invoice(_registered(book, _ahead(book, 100_00), terms), INVOICED)
    assert _rows(book, "invoice") == [("20", net, vat), ("0", "100.00", "0.00")]
    said = words_of(invoice_paper(from_json(Invoice, job.documents[-1].snapshot)))
    assert "paid before we registered for VAT" in said
    assert "tax point of the" not in said


def test_a_deposit_invoice_since_then_asks_for_vat_only_in_what_is_not_paid(book: Book) -> None:
    job = _registered(book, _ahead(book, 90_00), VatTerms.INSIDE)
    job = book.issue_deposit_invoice(job, CAME)
    assert _rows(book, "deposit invoice") == [("20", "50.00", "10.00"), ("0", "90.00", "0.00")]
    book.issue_invoice(job, INVOICED)  # £390.00 with VAT inside in all
    assert _rows(book, "invoice")[0] == ("20", "275.00", "55.00")


def test_all_of_it_paid_before_leaves_nothing_to_tax(book: Book) -> None:
    job = _registered(book, _ahead(book, 500_00), VatTerms.INSIDE)
    job = book.issue_invoice(job, INVOICED)
    assert _rows(book, "invoice") == [("20", "0.00", "0.00"), ("0", "480.00", "0.00")]
    assert job.credit == 20_00


def test_money_that_comes_after_holds_vat_and_is_told_on_the_invoice(book: Book) -> None:
    job = _registered(book, agreed_job(book, PRICE, "Mrs V", registered=False), VatTerms.INSIDE)
    job = book.record_payment(job, Received(None, 100_00, CAME, "cheque"))
    assert _rows(book, "on account") == [("20", "83.33", "16.67")]
    job = book.issue_invoice(job, INVOICED)
    assert _rows(book, "invoice") == [("20", "400.00", "80.00")]
    assert reckon(csv_of(book).decode()) > 3
    said = words_of(invoice_paper(from_json(Invoice, job.documents[-1].snapshot)))
    assert "£100.00 was paid on Thu 25 Jun 2026: that is the tax point of the £16.67 VAT" in said


def test_tax_on_what_came_before_is_found(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(invoice, "untaxed_ahead", lambda *given: 0)
    job = _registered(book, _ahead(book, 100_00), VatTerms.INSIDE)
    book.issue_invoice(job, INVOICED)
    with pytest.raises(Wrong, match="what came before bears no VAT"):
        reckon_tax(csv_of(book).decode())


def test_older_money_for_another_job_that_pays_the_deposit_takes_nothing_off_twice(
    book: Book,
) -> None:
    first = agreed_job(book, PRICE, "Mrs V", registered=False)
    other = agreed_job(book, Price(), first.customer, registered=False)
    book.record_payment(other, Received(None, 100_00, builders.AGREED, "cheque"))
    job = book.record_payment(book.job(first.id or 0), Received(None, 100_00, CAME, "cheque"))
    job = book.issue_deposit_invoice(_registered(book, job, VatTerms.INSIDE), CAME)
    book.issue_invoice(job, INVOICED)
    untaxed = [net for kind in ("deposit invoice", "invoice") for rate, net, _ in _rows(book, kind)]
    assert untaxed == ["41.67", "100.00", "275.00", "0.00"]
