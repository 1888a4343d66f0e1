"""A contractor's payment, of which CIS was deducted, in the book."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from domain.accounts.counter_entries import GivenBack
from domain.job import CustomerKind, DocumentKind, EnquiryRecord, Received
from domain.trader import CisStanding
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import laid, query, read_again


def test_what_a_contractor_deducts_is_neither_owed_nor_money_and_still_pays_the_invoice(
    book: Book, path: Path
) -> None:
    who = replace(
        builders.customer(kind=CustomerKind.CONTRACTOR, tax_reference="123/AB45678"),
        end_user_on=builders.RECEIVED,
    )
    job = laid(book)
    book.save_trader(replace(book.trader(), utr="1955839661", cis_standing=CisStanding.REGISTERED))
    told = replace(job.customer, **{f: getattr(who, f) for f in ("kind", "tax_reference")})
    job = book.change_enquiry(job, EnquiryRecord(told, job.site, job.enquiry))
    job = book.issue_invoice(job, builders.SIGNED)
    invoice = job.invoice
    assert invoice is not None
    assert 0 < invoice.cis < invoice.gross
    assert job.owed == invoice.gross - invoice.cis
    late = builders.DUE + timedelta(days=1)
    (line,) = read_week(path, late).lines
    assert [bill.owed for bill in line.bills] == [job.owed]
    came = Received(invoice.id or 0, job.owed, builders.DUE, "bank transfer", invoice.cis)
    paid = book.record_payment(job, came)
    assert (paid.owed, paid.credit, paid.payments[0].money) == (0, 0, job.owed)
    assert read_again(path, paid) == paid
    (line,) = read_week(path, late).lines
    assert ([bill.owed for bill in line.bills], line.paid) == ([0], ((builders.DUE, job.owed),))
    slip = GivenBack(DocumentKind.MISTAKE, paid.payments[0].id or 0, invoice.gross, late, "a slip")
    again = book.give_back(paid, slip, late)
    assert again.owed == job.owed
    (line,) = read_week(path, late).lines
    assert [bill.owed for bill in line.bills] == [job.owed]
    assert query(path, "SELECT pence, cis FROM payment") == [(invoice.gross, invoice.cis)]
