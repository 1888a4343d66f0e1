"""The quarter as rows for a spreadsheet or another program: every item, then the totals.

Nothing has to be typed again on the way to an update: any transfer between programs must be
digital, HMRC software notice under reg. 3 (draft of December 2023): read. Of each item there is
what it is, its amount and its day (SI 2021/1076 reg. 6 as amended: read).
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal

from domain.books.headings import THEIR_WORDS, Heading
from domain.books.items import Item, ItemKind
from domain.books.money_in import MoneyIn
from domain.books.purchase import CameBack, Purchase
from domain.books.quarter import Totals
from domain.days.calendar import show_in_full
from domain.money import Pence, plain_pounds
from domain.quantity import show_quantity
from domain.tax.years import Quarter, quarter_of

TITLES = (
    "quarter", "date", "kind", "who", "what", "job", "heading", "heading_of_update",
    "income", "cis", "expense", "miles", "vat_rate", "net", "vat",
)  # fmt: skip
"""Sums in pounds with two decimals; income counts what was deducted under CIS.

What a merchant gave back of an expense is an expense below 0, so that the column adds up.
"""


def quarter_rows(
    quarter: Quarter,
    items: Iterable[Item],
    totals: Totals,
    *,
    by_heading: bool,
    with_vat: bool = False,
) -> Iterator[tuple[str, ...]]:
    """The items of the tax year up to the quarter's last day, by day, then its totals.

    ``totals`` are those of the same days; ``with_vat`` each has its rate, net and VAT, at 0 where
    none is reclaimed.
    """
    for item in items:
        yield from _item_rows(item, with_vat=with_vat)
    name, last = so_far_name(quarter), quarter.last.isoformat()
    yield _total(name, last, "income", income=totals.income, cis=totals.cis)
    if by_heading:
        for heading, pence in totals.by_heading.items():
            yield _total(name, last, "expenses", expense=pence, heading=heading)
    yield _total(name, last, "all expenses", expense=totals.expenses, miles=totals.miles)


def so_far_name(quarter: Quarter) -> str:
    """What an update is of: the tax year so far, never the quarter alone."""
    return f"{show_in_full(quarter.year.first)} to {show_in_full(quarter.last)}"


def _item_rows(item: Item, *, with_vat: bool) -> Iterator[tuple[str, ...]]:
    """One row; of money that holds VAT one a rate."""
    sums = item.of.vat if isinstance(item.of, MoneyIn) else ()
    cis = item.cis
    for each in sums:
        part = replace(item, pence=each.net + each.vat, cis=cis)
        yield (*_row(part)[:-3], f"{each.rate:f}", plain_pounds(each.net), plain_pounds(each.vat))
        cis = 0
    if not sums:
        yield _row(item, with_vat=with_vat)


def _row(item: Item, *, with_vat: bool = False) -> tuple[str, ...]:
    is_income = item.kind is ItemKind.INCOME
    name = f"{quarter_of(item.on).year} {quarter_of(item.on).number}"
    return (
        name,
        item.on.isoformat(),
        item.kind,
        item.who,
        item.what,
        item.job,
        *_headings(item.heading),
        plain_pounds(item.pence) if is_income else "",
        plain_pounds(item.cis) if is_income else "",
        "" if is_income else plain_pounds(item.pence),
        _miles(item.miles),
        *_vat(item, with_vat=with_vat),
    )


def _total(
    name: str,
    last: str,
    what: str,
    *,
    income: Pence | None = None,
    cis: Pence | None = None,
    expense: Pence | None = None,
    miles: Decimal = Decimal(0),
    heading: Heading | None = None,
) -> tuple[str, ...]:
    sums = ("" if pence is None else plain_pounds(pence) for pence in (income, cis, expense))
    vat = ("", "", "")
    return (name, last, "total", "", what, "", *_headings(heading), *sums, _miles(miles), *vat)


def _headings(heading: Heading | None) -> tuple[str, str]:
    return ("", "") if heading is None else (heading, THEIR_WORDS[heading])


def _vat(item: Item, *, with_vat: bool) -> tuple[str, str, str]:
    """Rate, net and VAT of a purchase, or of what came back of it; at 0 where none is reclaimed."""
    of = item.of
    if not isinstance(of, Purchase | CameBack):
        return ("", "", "")
    rate, vat = (of.vat_rate, of.vat) if isinstance(of, Purchase) else (of.bought.vat_rate, -of.vat)
    if rate is None:
        return ("0", plain_pounds(item.pence), plain_pounds(0)) if with_vat else ("", "", "")
    return f"{rate:f}", plain_pounds(item.pence - vat), plain_pounds(vat)


def _miles(miles: Decimal) -> str:
    return show_quantity(miles).replace(",", "") if miles else ""
