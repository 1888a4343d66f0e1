"""The quarter on paper: what the update asks for, then every item of it."""

from collections.abc import Sequence

from domain.books.headings import THEIR_WORDS
from domain.books.items import Item, ItemKind
from domain.books.quarter import Books, Totals, of_quarter, up_to
from domain.days.calendar import show_date, show_in_full
from domain.money import Pence, show_money
from domain.papers.blocks import Block, Column, Details, Paper, Table, Words
from domain.papers.shared_parts import lines_of, sentence
from domain.quantity import show_quantity
from domain.tax.years import Quarter
from domain.trader import Trader

RECORD_ONLY = (
    "A record of what came in and was paid, by the day it was. It is no tax advice, and nothing "
    "is filed by it: the figures go into an update from the spreadsheet."
)
WITH_VAT = "Sums are with VAT; the spreadsheet has net and VAT of each."
"""Said to a trader who is registered: the books are by money, so VAT is in them."""


def quarter_paper(books: Books, items: Sequence[Item], quarter: Quarter, trader: Trader) -> Paper:
    """The totals of the quarter and of the year so far, then the quarter's items by day.

    ``items`` are those of the tax year up to the quarter's last day.
    """
    here, so_far = of_quarter(books, quarter), up_to(books, quarter)
    blocks: tuple[Block, ...] = (
        Details(
            (
                ("Tax year", str(quarter.year)),
                ("Quarter", f"{show_in_full(quarter.first)} to {show_in_full(quarter.last)}"),
                ("Update due", show_in_full(quarter.due)),
            )
        ),
        Words(f"{RECORD_ONLY} {WITH_VAT}" if trader.vat_registered else RECORD_ONLY),
        _totals(here, so_far, quarter, trader),
        _items([each for each in items if each.on >= quarter.first]),
    )
    head = lines_of(trader.heading, trader.address)
    return Paper(f"Quarter {quarter.number} of {quarter.year}", blocks, head)


def _totals(here: Totals, so_far: Totals, quarter: Quarter, trader: Trader) -> Table:
    rows = [_sums("Income, before any deduction", here.income, so_far.income)]
    if so_far.cis:
        rows.append(_sums("CIS deducted from it", here.cis, so_far.cis))
    if trader.expense_headings:
        parts = here.by_heading
        rows += [
            _sums(f"{sentence(heading)} ({THEIR_WORDS[heading]})", parts.get(heading, 0), pence)
            for heading, pence in so_far.by_heading.items()
        ]
    rows.append(_sums("All expenses", here.expenses, so_far.expenses))
    if so_far.miles:
        rows.append(_sums(_driven(here, so_far), here.miles_worth, so_far.miles_worth))
    year = f"6 Apr to {show_date(quarter.last).split(' ', 1)[1]}"
    return Table((Column(""), Column("Quarter", True), Column(year, True)), tuple(rows), "Totals")


def _driven(here: Totals, so_far: Totals) -> str:
    """The miles of the quarter, and those since 6 April: their sums stand beside them."""
    return f"In it by the mile: {show_quantity(here.miles)}, and {show_quantity(so_far.miles)}"


def _sums(label: str, here: Pence, so_far: Pence) -> tuple[str, ...]:
    return label, show_money(here), show_money(so_far)


def _items(items: Sequence[Item]) -> Block:
    if not items:
        return Words("Nothing came in, was bought or was driven.", "Items")
    columns = (Column("Day"), Column("Who"), Column("What"), Column("Job"))
    return Table(
        (*columns, Column("In", True), Column("Out", True)), tuple(map(_item, items)), "Items"
    )


def _item(item: Item) -> tuple[str, ...]:
    money = show_money(item.pence)
    sums = (money, "") if item.kind is ItemKind.INCOME else ("", money)
    job = item.job.split(" ", 1)[0]
    return show_date(item.on), item.who, item.what, job, *sums
