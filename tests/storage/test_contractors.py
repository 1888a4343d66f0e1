"""A contractor's payment, of which CIS was deducted, in the book."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.accounts.invoice import Invoice
from domain.books.purchase import Purchase
from domain.books.quarter import up_to
from domain.customer_record import CustomerRecord
from domain.errors import HeadlapError
from domain.job import (
    CustomerKind,
    DocumentKind,
    EnquiryRecord,
    Job,
    Received,
    SignOff,
    Stage,
    StageMove,
)
from domain.money import show_money
from domain.snapshot import from_json
from domain.tax.years import quarter_of
from domain.trader import CisStanding
from domain.week import TaskKind, plan_week
from storage.book import Book
from storage.week_and_jobs import read_week
from tests import builders
from tests.storage.books import laid, query, read_again
from tui.customer.who import money_lines
from tui.frame.theme import PALETTES
from tui.papers.as_issued import paper_as_issued
from tui.papers.as_text import plain_text


def contractors(book: Book) -> Job:
    """A contractor's job that is laid and invoiced."""
    return book.issue_invoice(_laid_for_them(book), builders.SIGNED)


def _laid_for_them(book: Book) -> Job:
    job = laid(book)
    book.save_trader(replace(book.trader(), utr="1955839661", cis_standing=CisStanding.REGISTERED))
    who = replace(job.customer, kind=CustomerKind.CONTRACTOR, tax_reference="123/AB45678")
    return book.change_enquiry(job, EnquiryRecord(who, job.site, job.enquiry))


def test_what_a_contractor_deducts_is_neither_owed_nor_money_and_still_pays_the_invoice(
    book: Book, path: Path
) -> None:
    job = contractors(book)
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
    assert line.statements == ((builders.DUE, invoice.cis),)
    slip = GivenBack(DocumentKind.MISTAKE, paid.payments[0].id or 0, invoice.gross, late, "a slip")
    again = book.give_back(paid, slip, late)
    assert again.owed == job.owed
    (line,) = read_week(path, late).lines
    assert [bill.owed for bill in line.bills] == [job.owed]
    assert line.statements == ()
    assert query(path, "SELECT pence, cis FROM payment") == [(invoice.gross, invoice.cis)]


def test_a_mistake_speaks_of_the_money_and_not_of_what_was_deducted(book: Book) -> None:
    job = contractors(book)
    assert job.invoice is not None
    came = Received(job.invoice.id or 0, job.owed, builders.DUE, "bank transfer", job.invoice.cis)
    money, deducted = show_money(job.owed), show_money(job.invoice.cis)
    job = book.record_payment(job, came)
    payment = job.payments[0]
    taken = GivenBack(
        DocumentKind.MISTAKE, payment.id or 0, payment.pence, builders.DUE, "typed by mistake"
    )
    job = book.give_back(job, taken, builders.DUE)
    told = plain_text(paper_as_issued(job.documents[-1], job.customer))
    words = " ".join(told.split())
    assert f"The payment of {money} by bank transfer" in words
    assert f"after {deducted} deducted, is cancelled" in words
    assert f"INV-1 {money}" in words
    assert f"Balance due {money}" in words
    happened = [each.words for each in CustomerRecord(job.customer, (job,)).happened]
    assert any(f"{money} received after {deducted} deducted" in each for each in happened)
    assert any("cancelled since" in each for each in happened)


def test_a_statement_is_asked_for_after_the_19th_until_it_is_ticked_off(
    book: Book, path: Path
) -> None:
    job = contractors(book)
    assert job.invoice is not None
    came = Received(job.invoice.id or 0, job.owed, builders.DUE, "cheque", job.invoice.cis)
    job = book.record_payment(job, came)
    signed = book.sign_off(job, SignOff("Mr Rook", builders.DUE))
    job = book.move_stage(signed, StageMove(Stage.SIGNED_OFF, builders.DUE, {}))

    def asked(on: date) -> list[TaskKind]:
        kinds = (task.kind for task in plan_week(read_week(path, on), on).tonight)
        return [kind for kind in kinds if kind is TaskKind.STATEMENT]

    # Received on 9 July: the tax month ends on 5 August, the statement is due on the 19th.
    assert asked(date(2026, 8, 19)) == []
    assert asked(date(2026, 8, 20)) == [TaskKind.STATEMENT]
    job = book.tick_statement(job, job.payments[0].id or 0, date(2026, 8, 20))
    assert job.payments[0].statement_on == date(2026, 8, 20)
    assert asked(date(2026, 8, 20)) == []
    with pytest.raises(HeadlapError, match="No statement"):
        book.tick_statement(job, job.payments[0].id or 0, date(2026, 8, 20))


def test_only_money_that_came_is_paid_back(book: Book, path: Path) -> None:
    job = contractors(book)
    invoice = job.invoice
    assert invoice is not None
    money, late = job.owed, builders.DUE + timedelta(days=1)
    came = Received(invoice.id or 0, money, builders.DUE, "bank transfer", invoice.cis)
    job = book.record_payment(job, came)
    job = book.credit(job, Credited(invoice.id or 0, invoice.gross, "called off"), late)
    (payment,) = job.payments
    assert (payment.unallocated, payment.refundable) == (invoice.gross, money)
    (line,) = read_week(path, late).lines
    assert line.credit == money
    record = book.customer(job.customer.id or 0)
    assert record.refundable == money
    told = [line.plain for line in money_lines(record, PALETTES["evening"])]
    assert any(f"Overpaid (credit) {show_money(money)}" in " ".join(t.split()) for t in told)

    def back(pence: int) -> Job:
        given = GivenBack(DocumentKind.REFUND, payment.id or 0, pence, late, "called off")
        return book.give_back(job, given, late)

    with pytest.raises(HeadlapError, match=f"Give {show_money(money)} or less"):
        back(invoice.gross)
    job = back(money)
    assert job.refundable == 0
    (line,) = read_week(path, late).lines
    assert line.credit == 0
    with pytest.raises(HeadlapError, match="deducted under CIS and never came"):
        back(1)


def test_what_is_deducted_of_an_advance_goes_with_the_invoice_it_settles(
    book: Book, path: Path
) -> None:
    """A contractor deducts of every payment (GOV.UK, CIS: make deductions: read).

    £100.00 of labour ahead at 20 %: £80.00 comes, £20.00 is deducted (derived).
    """
    job = _laid_for_them(book)
    job = book.record_payment(job, Received(None, 80_00, builders.SIGNED, "bank transfer", 20_00))
    (payment,) = job.payments
    assert payment.wants_statement
    assert (job.credit, job.refundable) == (100_00, 80_00)
    job = book.issue_invoice(job, builders.SIGNED)
    invoice = job.invoice
    assert invoice is not None
    assert (invoice.paid, invoice.deducted, invoice.to_deduct) == (
        100_00,
        20_00,
        invoice.cis - 20_00,
    )
    assert job.owed == invoice.gross - 80_00 - invoice.cis
    made = from_json(Invoice, invoice.snapshot)
    assert (made.paid_before, made.to_pay) == (80_00, job.owed)
    told = " ".join(plain_text(paper_as_issued(invoice, job.customer)).split())
    assert f"Less what you have paid already {show_money(-80_00)} CIS deducted" in told
    rest = Received(invoice.id, job.owed, builders.DUE, "bank transfer", invoice.to_deduct)
    job = book.record_payment(job, rest)
    assert (job.owed, job.credit) == (0, 0)
    income = up_to(book.years_books(builders.DUE).books, quarter_of(builders.DUE))
    assert (income.income, income.cis) == (invoice.gross, invoice.cis)
    (line,) = read_week(path, builders.DUE).lines
    assert sum(cis for _, cis in line.statements) == invoice.cis


def test_what_was_bought_for_the_job_is_at_cost_on_its_invoice(book: Book) -> None:
    job = _laid_for_them(book)
    before = book.issue_invoice(job, builders.SIGNED).documents[-1]
    as_quoted = from_json(Invoice, before.snapshot).cis
    book.credit(book.job(1), Credited(before.id or 0, before.gross, "again"), builders.SIGNED)
    hire = Purchase(builders.LAY_DAY, "Hire Co", "hired generator and its fuel", 12_00)
    book.save_purchase(hire, job.ref, builders.SIGNED)
    job = book.issue_invoice(book.job(1), builders.SIGNED)
    cis = from_json(Invoice, job.documents[-1].snapshot).cis
    assert as_quoted is not None
    assert cis is not None
    assert cis.materials - as_quoted.materials == 12_00
    last = job.documents[-1]
    book.credit(job, Credited(last.id or 0, last.gross, "again"), builders.SIGNED)
    job = book.issue_invoice(book.job(1), builders.SIGNED, 50_00)
    told = from_json(Invoice, job.documents[-1].snapshot).cis
    assert told is not None
    assert told.materials == 50_00
