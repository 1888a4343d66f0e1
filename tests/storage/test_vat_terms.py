"""How VAT stands to a price agreed before registering: kept, undone, and frozen once invoiced."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from domain.accounts.vat_since import ASKED_FIRST
from domain.errors import NotNow
from domain.job import VatTerms
from domain.trader import VatStanding
from storage.book import Book
from tests import builders
from tests.storage.books import laid, query, read_again

DAY = date(2026, 6, 20)


def _registers(book: Book) -> None:
    now = {"vat_standing": VatStanding.STANDARD, "vat_number": "980780684"}
    book.save_trader(replace(book.trader(), **now))  # type: ignore[arg-type] # all keys fit


def test_it_is_asked_kept_and_cannot_change_once_it_is_invoiced(book: Book, path: Path) -> None:
    job = laid(book)
    _registers(book)
    with pytest.raises(NotNow, match=ASKED_FIRST):
        book.issue_invoice(job, builders.SIGNED)
    job = book.say_vat_terms(job, VatTerms.INSIDE, None)
    job = book.say_vat_terms(job, VatTerms.ADDED, DAY)
    assert (job.vat_terms, job.vat_agreed_on) == (VatTerms.ADDED, DAY)
    job = book.issue_invoice(job, builders.SIGNED)
    assert read_again(path, job) == job
    with pytest.raises(NotNow, match="invoiced already"):
        book.say_vat_terms(job, VatTerms.INSIDE, None)
    with pytest.raises(AssertionError, match="An invoice says how VAT stands"):
        _forged(path)


def _forged(path: Path) -> None:
    try:
        query(path, "UPDATE job SET vat_terms = 'inside the agreed price'")
    except Exception as error:
        raise AssertionError(str(error)) from error
