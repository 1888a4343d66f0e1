"""The year's books in the book: purchases and miles saved, put right, undone, and read by day."""

from contextlib import closing
from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.invoice import Invoice
from domain.books.headings import Heading
from domain.books.items import items_of
from domain.books.miles import Miles
from domain.books.money_back import MoneyBack
from domain.books.purchase import Cost, Purchase
from domain.books.quarter import up_to
from domain.books.quarter_rows import TITLES, quarter_rows
from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.job import DocumentKind, EnquiryRecord, Received, Sending
from domain.scope import ListName
from domain.snapshot import from_json
from domain.tax.years import TaxYear, quarter_of
from storage.book import Book
from storage.errors import Changed
from tests import builders, priced
from tests.storage.all_sorts import NOTES
from tests.storage.books import NOW, booked, enquired, laid, opened, redo, surveyed, undo

TODAY = NOW.date()
SLIP = Purchase(TODAY, "Northfield Merchants", "mastic, 6", 33_00)
TRIP = Miles(TODAY, Decimal("24.5"), "Mill Row, lay")


def test_a_purchase_comes_back_as_it_was_saved_and_goes_and_comes_by_undo_and_redo(
    book: Book,
) -> None:
    job = booked(book, "Mill Row")
    full = replace(
        SLIP, cost=Cost.VAN, heading=Heading.REPAIRS, vat_rate=Decimal(20),
        material=Material.MASTIC, packs=Decimal(6),
    )  # fmt: skip
    saved = book.save_purchase(full, job.ref.lstrip("0"), TODAY)
    assert saved == replace(full, job_id=job.id, id=saved.id, version=saved.version)
    years = book.years_books(TODAY)
    assert years.books.purchases == (saved,)
    assert years.jobs[job.id or 0] == f"{job.ref} Mill Row"
    undo(book, ListName.BOOKS)
    assert book.years_books(TODAY).books.purchases == ()
    redo(book, ListName.BOOKS)
    assert book.years_books(TODAY).books.purchases == (saved,)


def test_what_is_in_a_year_that_was_told_is_not_undone(path: Path) -> None:
    with opened(path) as book:
        saved = book.save_purchase(SLIP, "", TODAY)
        book.save_miles([TRIP], TODAY)
    due = datetime.combine(TaxYear(2026).quarters[-1].due, NOW.time())
    with closing(Book.open(path, lambda: due)) as book:
        assert book.undoable(ListName.BOOKS)
    after = due + timedelta(days=1)
    with closing(Book.open(path, lambda: after)) as book:
        with pytest.raises(NotNow, match="25 June 2026 is in 2026-27"):
            book.undoable(ListName.BOOKS)
        right = book.save_purchase(replace(saved, pence=3_30), "", after.date())
        assert right.pence == 3_30  # asked about on the screen


def test_an_enquiry_that_something_was_bought_for_stays(book: Book) -> None:
    job = surveyed(book)
    saved = book.save_purchase(SLIP, job.ref, TODAY)
    with pytest.raises(NotNow, match=r"£33\.00 at Northfield Merchants of 25 June 2026") as refused:
        book.delete_enquiry(job)
    assert "kept until 31 January 2033: put it to no job" in str(refused.value)
    book.save_purchase(saved, "", TODAY)
    book.delete_enquiry(book.job(job.id or 0))


def test_a_visit_without_a_quote_is_proposed_without_its_miles(book: Book) -> None:
    job = enquired(book)
    asked = replace(job.enquiry, visit_on=TODAY)
    book.change_enquiry(job, EnquiryRecord(job.customer, job.site, asked))
    (found,) = book.years_books(TODAY).proposed
    assert (found.words, found.miles) == ("Birch Lane, survey", Decimal(0))


def test_what_is_put_right_of_a_purchase_is_one_row_and_an_older_reading_is_refused(
    book: Book,
) -> None:
    saved = book.save_purchase(SLIP, "", TODAY)
    right = book.save_purchase(replace(saved, pence=330_00), "", TODAY)
    assert [each.pence for each in book.years_books(TODAY).books.purchases] == [330_00]
    with pytest.raises(Changed):
        book.save_purchase(replace(saved, pence=3_30), "", TODAY)
    assert book.years_books(TODAY).books.purchases == (right,)


def test_a_job_that_is_not_in_the_book_and_a_day_ahead_are_refused_and_nothing_is_saved(
    book: Book,
) -> None:
    for purchase, ref in ((SLIP, "9999"), (replace(SLIP, on=TODAY + timedelta(days=1)), "")):
        with pytest.raises(Refused):
            book.save_purchase(purchase, ref, TODAY)
    assert book.years_books(TODAY).books.purchases == ()


def test_once_by_the_mile_fuel_is_refused_and_once_fuel_is_an_expense_miles_are(book: Book) -> None:
    fuel = replace(SLIP, what="diesel", cost=Cost.RUNNING, heading=Heading.TRAVEL)
    saved = book.save_purchase(fuel, "", TODAY)
    with pytest.raises(NotNow, match="Diesel of"):
        book.save_miles([TRIP], TODAY)
    book.save_purchase(replace(saved, heading=Heading.NOT_FOR_TAX), "", TODAY)
    book.save_miles([TRIP], TODAY)
    with pytest.raises(Refused, match="by the mile"):
        book.save_purchase(fuel, "", TODAY)


def test_days_that_are_over_propose_the_miles_of_the_quote_until_they_are_accepted(
    book: Book,
) -> None:
    job = booked(book, "Mill Row")
    on = job.days[-1].day
    found = book.years_books(on).proposed
    basis_miles = {each.miles for each in found if each.job_id == job.id}
    assert len(basis_miles) == 1
    assert all(each.on <= on for each in found)
    book.save_miles(found, on)
    assert book.years_books(on).proposed == ()
    assert book.years_books(on).books.miles == tuple(
        replace(each, id=kept.id, version=kept.version)
        for each, kept in zip(found, book.years_books(on).books.miles, strict=True)
    )


def test_two_saves_of_one_evening_together_stay_within_a_thousand_miles_a_day(book: Book) -> None:
    far = replace(TRIP, miles=Decimal(600))
    with pytest.raises(Refused, match="1,200 miles"):
        book.save_miles([far, replace(far, words="again")], TODAY)
    assert book.years_books(TODAY).books.miles == ()


def test_a_mistake_is_no_income_and_what_was_paid_back_is_taken_off_it(book: Book) -> None:
    job = book.issue_invoice(laid(book, "Mill Row"), builders.SIGNED)
    key, on = job.documents[0].id or 0, builders.SIGNED
    for pence in (50_00, 60_00, 900_00):
        job = book.record_payment(job, Received(key, pence, on, "cash"))
    quarter = quarter_of(on)
    assert up_to(book.years_books(on).books, quarter).income == 1_010_00
    second, third = job.payments[1], job.payments[2]
    wrong = GivenBack(DocumentKind.MISTAKE, second.id or 0, second.pence, on, "returned")
    job = book.give_back(job, wrong, on)
    back = GivenBack(DocumentKind.REFUND, third.id or 0, 10_00, on, "paid too much")
    job = book.give_back(job, back, on)
    assert up_to(book.years_books(on).books, quarter).income == 940_00
    assert up_to(book.years_books(on).books, quarter).cis == 0


def test_headings_are_switched_on_and_off_and_undone(book: Book) -> None:
    assert not book.trader().expense_headings
    book.switch_headings(on=True)
    assert book.trader().expense_headings
    undo(book, ListName.BOOKS)
    assert not book.trader().expense_headings


def test_the_vat_of_the_parts_of_an_invoice_adds_up_to_that_of_the_invoice(book: Book) -> None:
    trader = priced.registered()
    book.save_trader(replace(trader, version=book.trader().version))
    job = surveyed(book, "Mill Row")
    job = book.save_quote(job, replace(priced.quote(trader, job=job), deposit=100_00))
    job = book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, NOTES))
    option = job.quotes[0].options[0].id or 0
    job = book.accept_quote(job, builders.acceptance(option_id=option))
    job = book.issue_deposit_invoice(job, TODAY)
    first = job.documents[0]
    for pence in (33_33, 33_33, first.gross - 66_66 + 5_00):  # £5.00 is paid over
        job = book.record_payment(job, Received(first.id or 0, pence, TODAY, "cash"))
    year = quarter_of(TODAY).year
    books = book.books_with_vat(year)
    sums = [each for money in books.money for each in money.vat]
    whole = from_json(Invoice, first.snapshot).totals
    assert sum(each.vat for each in sums) == whole.vat_whole + 83  # £5.00 hold £0.83
    assert sum(each.net for each in sums) == whole.net + 4_17
    assert [len(money.vat) for money in books.money] == [1, 1, 1]
    quarter = quarter_of(TODAY)
    items, totals = items_of(books, {}, year, quarter.last), up_to(books, quarter)
    rows = list(quarter_rows(quarter, items, totals, by_heading=False))
    told = [dict(zip(TITLES, row, strict=True)) for row in rows]
    income = [row for row in told if row["kind"] == "income"]
    assert sum(Decimal(row["income"]) for row in income) == Decimal(totals.income) / 100
    assert [row["vat_rate"] for row in income] == ["20", "20", "20"]


def test_money_back_stands_with_its_purchase_and_goes_and_comes_by_undo_and_redo(
    book: Book,
) -> None:
    bought = book.save_purchase(SLIP, "", TODAY)
    saved = book.save_money_back(MoneyBack(TODAY, 5_50, "1 returned", bought.id or 0), TODAY)
    assert (saved.left, [each.reason for each in saved.back]) == (27_50, ["1 returned"])
    assert book.years_books(TODAY).books.purchases == (saved,)
    assert book.history(ListName.BOOKS)[0].words == "£5.50 back from the merchant saved"
    undo(book, ListName.BOOKS)
    assert book.years_books(TODAY).books.purchases == (bought,)
    redo(book, ListName.BOOKS)
    assert book.years_books(TODAY).books.purchases == (saved,)
    (back,) = saved.back
    right = book.save_money_back(replace(back, pence=0), TODAY)
    assert (right.left, list(right.came_back())) == (33_00, [])
    with pytest.raises(Changed):
        book.save_money_back(back, TODAY)


def test_money_back_is_refused_ahead_before_the_purchase_and_over_what_is_left(book: Book) -> None:
    bought = book.save_purchase(SLIP, "", TODAY)
    there = book.save_money_back(MoneyBack(TODAY, 30_00, "returned", bought.id or 0), TODAY)
    day = timedelta(days=1)
    for on, pence in ((TODAY + day, 1), (TODAY - day, 1), (TODAY, 3_01)):
        with pytest.raises(Refused):
            book.save_money_back(MoneyBack(on, pence, "returned", bought.id or 0), TODAY)
    with pytest.raises(Refused, match=r"£30\.00 came back of it"):
        book.save_purchase(replace(bought, pence=29_99), "", TODAY)
    assert book.years_books(TODAY).books.purchases == (there,)


def test_money_back_in_a_tax_year_after_the_purchase_is_read_with_it(book: Book) -> None:
    job = booked(book, "Mill Row")
    old = date(2022, 4, 5)
    bought = book.save_purchase(replace(SLIP, on=old), job.ref, TODAY)
    there = book.save_money_back(MoneyBack(TODAY, 5_50, "returned", bought.id or 0), TODAY)
    years = book.years_books(TODAY)
    assert years.books.purchases == (there,)
    assert up_to(years.books, quarter_of(TODAY)).expenses == -5_50
    (item,) = items_of(years.books, years.jobs, quarter_of(TODAY).year, TODAY)
    assert item.job == f"{job.ref} Mill Row"
    assert book.bought_for(job.id).purchases == (there,)
