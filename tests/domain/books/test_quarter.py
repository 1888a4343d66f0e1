"""The quarter on the cash basis, held to the worked example and to what must always be so."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from domain.books.headings import EXPENSE_HEADINGS, THEIR_WORDS, Heading
from domain.books.items import ItemKind, items_of
from domain.books.miles import Miles
from domain.books.money_back import MoneyBack
from domain.books.money_in import MoneyIn, money_in
from domain.books.purchase import Purchase
from domain.books.quarter import Books, of_quarter, up_to, year_to
from domain.books.quarter_rows import TITLES, quarter_rows
from domain.job import Allocation, CounterEntry, DocumentKind, Payment
from domain.papers.quarter_paper import WITH_VAT, quarter_paper
from domain.tax.years import TaxYear
from tests import builders, priced
from tui.papers.as_text import plain_text

YEAR = TaxYear(2026)
Q1, Q2, Q3, Q4 = YEAR.quarters


def came(on: date, pence: int, cis: int = 0) -> MoneyIn:
    return MoneyIn(on, pence, "bank transfer", "Mrs Alder", "0041", cis)


def paid(on: date, pence: int, heading: Heading = Heading.GOODS) -> Purchase:
    return Purchase(on, "Northfield Merchants", "shingles", pence, heading=heading)


def drove(on: date, miles: int) -> Miles:
    return Miles(on, Decimal(miles), "Mill Row")


EXAMPLE = Books(
    money=(
        came(date(2026, 4, 20), 486_00),
        came(date(2026, 7, 3), 606_38),
        came(date(2026, 7, 10), 758_32, cis=125_88),
    ),
    purchases=(
        paid(date(2026, 5, 15), 254_82),
        paid(date(2026, 7, 6), 33_00, Heading.REPAIRS),
    ),
    miles=(drove(date(2026, 6, 1), 1_200), drove(date(2026, 8, 1), 900)),
)


def test_the_example_of_the_first_quarter_on_the_cash_basis() -> None:
    # Cumulative example 2026-27: computed from the published rules.
    totals = up_to(EXAMPLE, Q1)
    assert (totals.income, totals.cis) == (1_092_38, 0)
    assert (totals.purchases, totals.miles_worth) == (254_82, 660_00)
    assert totals.expenses == 914_82
    assert Q1.due == date(2026, 8, 7)


def test_the_example_of_the_second_quarter_adds_back_what_was_deducted_under_cis() -> None:
    # Cumulative example 2026-27: computed; turnover is before deductions (HMRC help: read).
    totals = up_to(EXAMPLE, Q2)
    assert (totals.income, totals.cis) == (1_976_58, 125_88)
    assert (totals.purchases, totals.miles_worth) == (287_82, 1_155_00)
    assert totals.expenses == 1_442_82
    assert totals.by_heading == {
        Heading.GOODS: 254_82,
        Heading.TRAVEL: 1_155_00,
        Heading.REPAIRS: 33_00,
    }
    assert Q2.due == date(2026, 11, 7)


def test_the_third_quarter_of_many_miles_is_the_difference_of_two_sums() -> None:
    # 6,000 miles to 5 October, then 5,200 to 5 January: £2,500.00 (computed from the rates).
    books = Books(miles=(drove(date(2026, 10, 5), 6_000), drove(date(2026, 10, 6), 5_200)))
    assert of_quarter(books, Q3).miles_worth == 2_500_00
    assert of_quarter(books, Q3).miles == 5_200


def test_money_received_in_april_counts_in_the_year_in_which_it_came() -> None:
    # GOV.UK, cash basis: invoiced 15 March 2024, received 30 April 2024 → 2024-25 (quoted).
    books = Books(money=(came(date(2024, 4, 30), 100_00),))
    assert year_to(books, TaxYear(2024), date(2025, 4, 5)).income == 100_00
    assert year_to(books, TaxYear(2023), date(2024, 4, 5)).income == 0


def test_what_is_marked_as_not_for_tax_is_in_no_sum() -> None:
    books = Books(purchases=(paid(date(2026, 5, 1), 50_00, Heading.NOT_FOR_TAX),))
    assert up_to(books, Q1).expenses == 0
    assert up_to(books, Q1).by_heading == {}


def test_the_update_has_thirteen_headings_each_with_its_own_words() -> None:
    # HMRC update notice of 22 February 2024: read.
    assert len(EXPENSE_HEADINGS) == 13
    assert set(THEIR_WORDS) == set(Heading)


def test_a_mistake_leaves_the_quarter_in_which_it_stood_and_a_refund_counts_when_paid() -> None:
    stood = Payment(date(2026, 7, 1), 600_00, "cheque", (Allocation(1, 600_00),), id=1)
    note = CounterEntry(DocumentKind.MISTAKE, date(2026, 9, 1), 600_00, "returned", 7)
    back = replace(note, kind=DocumentKind.REFUND, pence=50_00)
    for entry, first, second in ((None, 600_00, 0), (note, 0, 0), (back, 600_00, -50_00)):
        entries = () if entry is None else (entry,)
        payment = replace(stood, counter_entries=entries)
        books = Books(money=tuple(money_in([payment], "Mrs Alder", "0041")))
        assert of_quarter(books, Q1).income == first
        assert of_quarter(books, Q2).income == second


def test_what_a_contractor_deducted_is_income_and_tax_suffered() -> None:
    # Invoice £884.20, deducted £125.88, paid £758.32: derived, computed (CIS).
    payment = Payment(date(2026, 7, 10), 884_20, "bank transfer", cis=125_88)
    (money,) = money_in([payment], "Builder", "0041")
    assert (money.pence, money.cis, money.income) == (758_32, 125_88, 884_20)


DAYS = st.dates(YEAR.first - timedelta(days=20), YEAR.last + timedelta(days=20))
BACK = st.builds(MoneyBack, DAYS, st.integers(0, 10**5), st.just("returned"), st.just(1))
BOUGHT = st.builds(
    lambda bought, back: replace(bought, back=back),
    st.builds(paid, DAYS, st.integers(1, 10**6), st.sampled_from(Heading)),
    st.lists(BACK, max_size=2).map(tuple),
)
BOOKS = st.builds(
    Books,
    money=st.lists(st.builds(came, DAYS, st.integers(1, 10**6), st.integers(0, 10**5))).map(tuple),
    purchases=st.lists(BOUGHT).map(tuple),
    miles=st.lists(st.builds(drove, DAYS, st.integers(0, 4_000))).map(tuple),
)


@given(BOOKS)
def test_the_quarters_add_up_to_the_year_to_the_penny(books: Books) -> None:
    parts, whole = [of_quarter(books, q) for q in YEAR.quarters], up_to(books, Q4)
    assert sum(part.income for part in parts) == whole.income
    assert sum(part.cis for part in parts) == whole.cis
    assert sum(part.expenses for part in parts) == whole.expenses
    assert sum(part.miles_worth for part in parts) == whole.miles_worth
    assert sum(whole.by_heading.values()) == whole.expenses
    inside = [each for each in books.money if each.on in YEAR]
    assert whole.income == sum(each.pence + each.cis for each in inside)


JOBS = {5: "0041 Mill Row"}


def test_the_items_of_the_example_add_up_to_its_totals_to_the_penny() -> None:
    items = items_of(EXAMPLE, JOBS, YEAR, Q2.last)
    totals = up_to(EXAMPLE, Q2)
    income = [each for each in items if each.kind is ItemKind.INCOME]
    assert sum(each.pence for each in income) == totals.income
    assert sum(each.cis for each in income) == totals.cis
    assert sum(each.pence for each in items) - totals.income == totals.expenses
    assert [each.on for each in items] == sorted(each.on for each in items)


@given(BOOKS)
def test_the_items_add_up_to_the_year_whatever_was_driven(books: Books) -> None:
    items, totals = items_of(books, JOBS, YEAR, YEAR.last), up_to(books, Q4)
    assert sum(each.pence for each in items if each.kind is ItemKind.MILES) == totals.miles_worth
    assert sum(each.miles for each in items) == totals.miles
    spent = [each for each in items if each.kind is not ItemKind.INCOME]
    assert sum(each.pence for each in spent) == totals.expenses


def test_the_rows_for_a_spreadsheet_hold_every_item_and_the_totals() -> None:
    bought = replace(EXAMPLE.purchases[0], vat_rate=Decimal(20), job_id=5)
    books = replace(EXAMPLE, purchases=(bought, *EXAMPLE.purchases[1:]))
    items, totals = items_of(books, JOBS, YEAR, Q2.last), up_to(books, Q2)
    rows = list(quarter_rows(Q2, items, totals, by_heading=True))
    assert {len(row) for row in rows} == {len(TITLES)}
    told = [dict(zip(TITLES, row, strict=True)) for row in rows]
    slip = next(row for row in told if row["net"])
    assert (slip["vat_rate"], slip["net"], slip["vat"]) == ("20", "212.35", "42.47")
    assert (slip["job"], slip["quarter"]) == ("0041 Mill Row", "2026-27 1")
    deducted = next(row for row in told if row["cis"] == "125.88")
    assert deducted["income"] == "884.20"
    ends = {row["what"]: row for row in told if row["kind"] == "total"}
    assert ends["income"]["income"] == "1976.58"
    assert ends["income"]["quarter"] == "6 April 2026 to 5 October 2026"  # cumulative: read
    assert ends["all expenses"]["expense"] == "1442.82"
    by_heading = [row for row in told if row["what"] == "expenses"]
    assert sum(Decimal(row["expense"]) for row in by_heading) == Decimal("1442.82")
    assert rows == list(quarter_rows(Q2, items, totals, by_heading=True))


def test_the_paper_says_that_it_is_a_record_and_when_the_update_is_due() -> None:
    items = items_of(EXAMPLE, JOBS, YEAR, Q2.last)
    paper = quarter_paper(EXAMPLE, items, Q2, builders.trader())
    told = plain_text(paper)
    assert "no tax advice" in " ".join(told.split())
    for words in ("7 November 2026", "£884.20", "£1,976.58", "£1,442.82", "£125.88"):
        assert words in told
    assert "In it by the mile: 900, and 2,100" in told
    registered = plain_text(quarter_paper(EXAMPLE, items, Q2, priced.registered()))
    assert WITH_VAT in " ".join(registered.split())
    assert WITH_VAT not in " ".join(told.split())
