"""The ledger as it is printed, held against one worked out by hand."""

import csv
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from io import StringIO
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.accounts.write_off import GivenUp
from domain.job import CustomerKind, DocumentKind, EnquiryRecord, Job, Received
from domain.trader import VatStanding
from storage.book import Book
from tests import builders
from tests.storage.books import NOW, opened
from tests.storage.ledger.agreed_jobs import Price, agreed_job, begin, csv_of
from tests.storage.ledger.reckoner import reckon
from tui.shell.command_line import main

BY_HAND = """\
row|date|kind|number|job|vat_rate|terms|net|vat|gross|tax_point|refers|allocated_to|owed_after|credit_after|reason
1|2026-06-25|deposit invoice|INV-1|0001|20|100.00|83.33|16.67|100.00|2026-06-25|||100.00|0.00|
2|2026-07-09|payment|REC-1|0001|20||41.67|8.33|150.00|2026-07-09||||150.00|
3|2026-07-09|use||0001|||0.00|0.00|100.00||REC-1|INV-1|0.00|50.00|
4|2026-06-25|invoice|INV-2|0001|20|480.00+3x17.20-100.00|359.67|71.93|431.60|2026-06-25|INV-1||431.60|50.00|
5|2026-06-25|use||0001|||41.67|8.33|50.00|2026-07-09|REC-1|INV-2|381.60|0.00|
6|2026-07-09|credit note|CRN-1|0001|20||50.00|10.00|60.00||INV-2||321.60|0.00|'=1 m too many
7|2026-07-09|payment|REC-2|0001|||0.00|0.00|346.60|||||346.60|
8|2026-07-09|use||0001|||0.00|0.00|321.60||REC-2|INV-2|0.00|25.00|
9|2026-07-09|refund|RFD-1|0001|||0.00|0.00|25.00||REC-2|||0.00|paid twice
10|2026-07-09|free||0001|||0.00|0.00|100.00||REC-1|INV-1|100.00|100.00|
11|2026-07-09|free||0001|||41.67|8.33|50.00|2026-07-09|REC-1|INV-2|50.00|150.00|
12|2026-07-09|mistake|MIS-1|0001|||41.67|8.33|150.00|2026-07-09|REC-1|||0.00|cheque returned
13|2026-07-05|quarter|||||0.00|0.00|0.00||||||
14|2026-10-05|quarter|||||0.00|0.00|321.60||||||
"""
"""£480.00 and 3 m at £17.20 are £531.60, VAT £88.60 (published check); £100.00 holds £16.67."""


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with opened(path) as book:
        begin(book, registered=True)
        yield book


def _paid(book: Book, job: Job, document: int, pence: int) -> Job:
    of = job.documents[document].id or 0
    return book.record_payment(job, Received(of, pence, builders.DUE, "cheque"))


def _back(book: Book, job: Job, kind: DocumentKind, at: int, pence: int, why: str) -> Job:
    payment = job.payments[at].id or 0
    return book.give_back(job, GivenBack(kind, payment, pence, builders.DUE, why), builders.DUE)


def test_the_ledger_of_a_job_is_the_one_by_hand(book: Book) -> None:
    price = Price(deposit=100_00, metres="3")
    job = agreed_job(book, price, "=Adeyemi", registered=True)
    job = book.issue_deposit_invoice(job, builders.SIGNED)
    job = _paid(book, job, 0, 150_00)
    job = book.issue_invoice(job, builders.SIGNED)
    asked = job.invoice
    assert asked is not None
    job = book.credit(job, Credited(asked.id or 0, 60_00, "=1 m too many"), builders.DUE)
    job = _paid(book, job, 2, job.owed + 25_00)
    job = _back(book, job, DocumentKind.REFUND, 1, 25_00, "paid twice")
    job = _back(book, job, DocumentKind.MISTAKE, 0, 150_00, "cheque returned")
    wanted = list(csv.DictReader(StringIO(BY_HAND), delimiter="|"))
    found = csv_of(book)
    rows = list(csv.DictReader(StringIO(found.decode(), newline="")))
    assert [{name: row[name] for name in wanted[0]} for row in rows] == wanted
    assert {row["customer"] for row in rows[:12]} == {"'=Adeyemi"}
    assert {row["customer_kind"] for row in rows[:12]} == {"householder"}
    assert {(row["deposit_asked"], row["done"]) for row in rows[:12]} == {("yes", "2026-06-24")}
    assert csv_of(book) == found
    assert b"\r" not in found
    assert not found.startswith(b"\xef\xbb\xbf")


def test_a_business_is_told_before_vat_and_a_trader_not_registered_has_none(book: Book) -> None:
    price = Price(deposit=99_99, metres="2.5", extra=12_34, kind=CustomerKind.BUSINESS)
    job = book.issue_deposit_invoice(
        agreed_job(book, price, "A Ltd", registered=True), builders.SIGNED
    )
    book.issue_invoice(job, builders.SIGNED)
    book.save_trader(replace(book.trader(), vat_standing=VatStanding.NOT_REGISTERED))
    job = agreed_job(book, Price(), "Mrs B", registered=False)
    book.issue_invoice(job, builders.SIGNED)
    rows = csv.DictReader(StringIO(csv_of(book).decode()))
    assert [(row["terms"], row["net"], row["vat"], row["vat_rate"]) for row in rows][:3] == [
        ("83.32", "83.32", "16.67", "20"),
        ("400.00+2.5x14.33+12.34-83.32", "364.85", "72.96", "20"),  # 448.17 × 20 % less 16.67
        ("400.00", "400.00", "0.00", ""),
    ]


def test_the_command_prints_this_tax_year_or_all_of_it(
    path: Path,
    book: Book,
    capsysbinary: pytest.CaptureFixture[bytes],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("tui.shell.keeping.wall_clock", lambda: NOW)
    book.issue_invoice(agreed_job(book, Price(), "Mrs B", registered=True), builders.SIGNED)
    book.close()
    assert main(["ledger", "--csv", "--all", "--book", str(path)]) == 0
    whole = capsysbinary.readouterr().out.splitlines()
    assert whole[1].startswith(b"1,2026-06-25,invoice,INV-1,0001,Mrs B,householder,20,480.00,")
    assert main(["ledger", "--csv", "--book", str(path)]) == 0
    assert capsysbinary.readouterr().out.splitlines() == whole
    monkeypatch.setattr("tui.shell.keeping.wall_clock", lambda: NOW.replace(year=2027))
    assert main(["ledger", "--csv", "--book", str(path)]) == 0
    assert [line.split(b",")[2] for line in capsysbinary.readouterr().out.splitlines()] == [
        b"kind",
        b"quarter",
    ]


def test_vat_falls_back_on_the_day_the_money_is_paid_back_not_with_the_note(book: Book) -> None:
    """VAT Regulations 1995 reg. 24A to 24C: read. £60.00 holds £10.00; £45.00 of it £7.50."""
    job = book.issue_invoice(agreed_job(book, Price(), "Mrs B", registered=True), builders.SIGNED)
    job = _paid(book, job, 0, job.owed)
    asked = job.documents[0].id or 0
    job = book.credit(job, Credited(asked, 60_00, "too many boards"), builders.DUE)
    later = builders.DUE + timedelta(days=90)
    back = GivenBack(DocumentKind.REFUND, job.payments[0].id or 0, 45_00, later, "as agreed")
    book.give_back(job, back, later)
    rows = list(csv.DictReader(StringIO(csv_of(book).decode())))
    told = {row["kind"]: (row["net"], row["vat"], row["tax_point"]) for row in rows}
    assert told["credit note"] == ("50.00", "10.00", "")
    assert told["refund"] == ("37.50", "7.50", later.isoformat())


def test_a_customer_who_is_of_another_kind_later_changes_no_row(book: Book) -> None:
    job = book.issue_invoice(
        agreed_job(book, Price(metres="3"), "Mrs B", registered=True), builders.SIGNED
    )
    asked = job.documents[0].id or 0
    job = _paid(book, job, 0, 100_00)
    job = book.credit(job, Credited(asked, 60_00, "too many boards"), builders.DUE)
    job = _back(book, job, DocumentKind.MISTAKE, 0, 100_00, "cheque returned")
    job = book.write_off(job, GivenUp(asked, builders.DUE, "moved away"))
    before = csv_of(book)
    job = book.change_enquiry(
        job,
        EnquiryRecord(replace(job.customer, kind=CustomerKind.BUSINESS), job.site, job.enquiry),
    )
    assert csv_of(book) == before
    reckon(before.decode())
    # What is issued from then on is theirs as they are now.
    book.take_back_write_off(job, GivenUp(asked, builders.DUE, "paid after all"))
    paid = book.record_payment(book.job(job.id or 0), Received(asked, 1_00, builders.DUE, "cash"))
    kinds = [row["customer_kind"] for row in csv.DictReader(StringIO(csv_of(book).decode()))]
    assert kinds[-4:-2] == ["business", "business"]
    assert reckon(csv_of(book).decode()) == len(kinds)
    assert paid.customer.kind is CustomerKind.BUSINESS
