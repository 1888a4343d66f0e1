"""The VAT threshold of a trader who is not registered goes by tax point, not by invoice."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.books.watched import Supply, vat_warning
from domain.job import DocumentKind, Received
from storage.book import Book
from tests.storage.books import opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin

CAME = date(2026, 6, 30)
INVOICED = date(2026, 8, 3)
DONE = date(2026, 6, 24)
LARGE = Price(net=(95_000_00,), deposit=1_00)


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with opened(path) as book:
        begin(book, registered=False)
        yield book


def _said(book: Book, today: date) -> str:
    warning = vat_warning(book.years_books(today).supplied, today)
    return warning.words if warning else ""


def test_money_on_account_passes_the_threshold_in_the_month_in_which_it_came(book: Book) -> None:
    # £95,000.00 on 30 June: over £90,000.00, register within 30 days of the end of that month,
    # from the first of the second month after (GOV.UK, VAT registration: read; days derived).
    job = agreed_job(book, LARGE, "Mrs T", registered=False)
    job = book.record_payment(job, Received(None, 95_000_00, CAME, "cheque"))
    wanted = "Register by 30 July 2026; you are registered from 1 August 2026."
    assert _said(book, date(2026, 7, 20)).endswith(wanted)
    book.issue_invoice(job, INVOICED)
    assert book.years_books(INVOICED).supplied == (Supply(CAME, 95_000_00),)
    assert _said(book, date(2026, 9, 2)).endswith(wanted)


def test_with_a_deposit_asked_what_is_only_invoiced_does_not_count_yet(book: Book) -> None:
    job = book.issue_invoice(agreed_job(book, LARGE, "Mrs T", registered=False), INVOICED)
    assert book.years_books(INVOICED).supplied == ()
    book.record_payment(job, Received(job.documents[0].id, 40_000_00, INVOICED, "cheque"))
    assert book.years_books(INVOICED).supplied == (Supply(INVOICED, 40_000_00),)


def test_without_one_the_day_of_the_work_counts_less_what_is_credited(book: Book) -> None:
    job = book.issue_invoice(agreed_job(book, Price(), "Mrs T", registered=False), INVOICED)
    asked = job.documents[0].id or 0
    job = book.record_payment(job, Received(asked, 425_00, INVOICED, "cheque"))  # £25.00 over
    assert book.years_books(INVOICED).supplied == (Supply(DONE, 400_00),)
    book.credit(job, Credited(asked, 60_00, "less"), INVOICED)
    assert book.years_books(INVOICED).supplied == (Supply(DONE, 340_00),)


def test_money_that_never_came_or_went_back_does_not_count(book: Book) -> None:
    job = agreed_job(book, LARGE, "Mrs T", registered=False)
    for kind in (DocumentKind.MISTAKE, DocumentKind.REFUND):
        job = book.record_payment(job, Received(None, 500_00, CAME, "cheque"))
        assert book.years_books(INVOICED).supplied == (Supply(CAME, 500_00),)
        back = GivenBack(kind, job.payments[-1].id or 0, 500_00, CAME, "back")
        job = book.give_back(job, back, CAME)
        assert book.years_books(INVOICED).supplied == ()
