"""Money that a merchant gave back of a purchase: what it takes off, and what cannot be."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.books.headings import Heading
from domain.books.items import ItemKind, items_of
from domain.books.margin import Paid, bought_for
from domain.books.money_back import MoneyBack
from domain.books.purchase import Purchase, demand_allowed, demand_can_come_back
from domain.books.quarter import Books, of_quarter, up_to
from domain.books.quarter_rows import TITLES, quarter_rows
from domain.errors import Refused
from domain.job import Job
from domain.tax.years import TaxYear
from tests import builders, priced

YEAR = TaxYear(2026)
Q1, Q2 = YEAR.quarters[:2]
BOUGHT = date(2026, 6, 20)
CAME = date(2026, 7, 8)
SLIP = Purchase(
    BOUGHT, "Northfield Merchants", "shingles, 6 packs", 254_82,
    heading=Heading.GOODS, vat_rate=Decimal(20), job_id=5, id=1,
)  # fmt: skip
BACK = MoneyBack(CAME, 42_47, "1 pack too many", 1, id=7)


def with_back(*back: MoneyBack) -> Purchase:
    return replace(SLIP, back=back)


def test_the_expenses_fall_in_the_quarter_of_the_day_the_money_came() -> None:
    # Cash basis: by the day the money came, GOV.UK, cash basis: read; the sums are computed.
    books = Books(purchases=(with_back(BACK),))
    assert of_quarter(books, Q1).by_heading == {Heading.GOODS: 254_82}
    assert of_quarter(books, Q2).by_heading == {Heading.GOODS: -42_47}
    assert up_to(books, Q2).expenses == 212_35


def test_its_row_for_a_spreadsheet_has_heading_job_and_vat_of_the_purchase() -> None:
    books = Books(purchases=(with_back(BACK),))
    items = items_of(books, {5: "0041 Mill Row"}, YEAR, Q2.last)
    assert [each.kind for each in items] == [ItemKind.EXPENSE, ItemKind.BACK]
    rows = quarter_rows(Q2, items, up_to(books, Q2), by_heading=False)
    told = [dict(zip(TITLES, row, strict=True)) for row in rows]
    (row,) = (row for row in told if row["kind"] == "money back")
    assert (row["date"], row["quarter"], row["job"]) == ("2026-07-08", "2026-27 2", "0041 Mill Row")
    assert (row["heading"], row["who"]) == ("materials", "Northfield Merchants")
    # £42.47 holds £7.08 by itself; what falls is £42.47 less the £35.39 in what is left.
    assert (row["expense"], row["net"], row["vat"]) == ("-42.47", "-35.39", "-7.08")
    spent = [row["expense"] for row in told if row["kind"] in ("expense", "money back")]
    (total,) = (row["expense"] for row in told if row["what"] == "all expenses")
    assert sum(map(Decimal, spent)) == Decimal(total)


def test_what_is_not_for_tax_takes_nothing_off_the_expenses() -> None:
    aside = replace(with_back(BACK), heading=Heading.NOT_FOR_TAX)
    assert up_to(Books(purchases=(aside,)), Q2).expenses == 0
    assert items_of(Books(purchases=(aside,)), {}, YEAR, Q2.last) == ()


@given(st.lists(st.integers(1, 50_00), min_size=1, max_size=6))
def test_once_all_came_back_so_did_all_the_vat_to_the_penny(parts: list[int]) -> None:
    back = tuple(replace(BACK, pence=pence, id=at) for at, pence in enumerate(parts))
    bought = replace(SLIP, pence=sum(parts), back=back)
    assert bought.left == 0
    assert sum(each.vat for each in bought.came_back()) == bought.vat


def test_what_a_job_cost_falls_by_what_came_back_of_it() -> None:
    made = priced.accepted(priced.quote(priced.registered()))
    job: Job = replace(priced.laid_job(made, usages=()), id=5)
    boards = replace(SLIP, what="boards", pence=24_00)
    back = replace(boards, back=(replace(BACK, pence=6_00),))
    assert bought_for(job, Paid((boards,))) == 20_00
    assert bought_for(job, Paid((back,))) == 15_00
    unregistered = replace(job, quotes=(priced.accepted(priced.quote(builders.trader())),))
    assert bought_for(unregistered, Paid((back,))) == 18_00


@pytest.mark.parametrize(
    ("back", "words"),
    [
        (replace(BACK, on=CAME + timedelta(days=1)), "today at latest"),
        (replace(BACK, on=BOUGHT - timedelta(days=1)), "It was paid on 20 June 2026"),
        (replace(BACK, pence=254_83), "Give £254.82 at most"),
    ],
)
def test_what_cannot_have_come_back_is_refused(back: MoneyBack, words: str) -> None:
    with pytest.raises(Refused, match=words):
        demand_can_come_back(back, SLIP, CAME)
    demand_can_come_back(replace(BACK, pence=254_82), SLIP, CAME)


def test_no_more_comes_back_than_is_left_and_one_put_right_makes_room_for_itself() -> None:
    bought = with_back(BACK)
    with pytest.raises(Refused, match=r"Give £212\.35 at most"):
        demand_can_come_back(replace(BACK, pence=212_36, id=None), bought, CAME)
    demand_can_come_back(replace(BACK, pence=254_82), bought, CAME)


def test_a_purchase_is_not_put_right_to_less_or_later_than_what_came_back_of_it() -> None:
    bought = with_back(BACK)
    with pytest.raises(Refused, match=r"£42\.47 came back of it"):
        demand_allowed(replace(bought, pence=42_46), CAME, by_the_mile=False)
    with pytest.raises(Refused, match="came back of it on 8 July 2026"):
        demand_allowed(replace(bought, on=CAME + timedelta(days=1)), date(2026, 8, 1),
                       by_the_mile=False)  # fmt: skip
    demand_allowed(replace(bought, pence=42_47, on=CAME), CAME, by_the_mile=False)
