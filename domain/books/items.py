"""Every item of a stretch of days, by day: the list on screen, the paper and the spreadsheet."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.books.headings import Heading
from domain.books.miles import Miles
from domain.books.money_in import MoneyIn
from domain.books.purchase import CameBack, Purchase
from domain.books.quarter import Books
from domain.money import Pence
from domain.quantity import show_quantity
from domain.tax.mileage import worth_of_miles
from domain.tax.years import TaxYear


class ItemKind(StrEnum):
    """What an item is."""

    INCOME = "income"
    EXPENSE = "expense"
    BACK = "money back"
    """An expense that a merchant gave back."""
    MILES = "miles"


@dataclass(frozen=True, slots=True)
class Item:
    """One sum of the books."""

    on: date
    kind: ItemKind
    who: str
    """The customer or the merchant; nothing of miles."""
    what: str
    job: str
    """Reference and place of its job, "stock", or nothing."""
    pence: Pence
    """What counts: income with what was deducted, an expense with its VAT, what the miles add.

    Of what came back of an expense it is less than 0: by so much the expenses fall.
    """
    of: MoneyIn | Purchase | CameBack | Miles
    cis: Pence = 0
    heading: Heading | None = None
    miles: Decimal = Decimal(0)


def items_of(books: Books, jobs: Mapping[int, str], year: TaxYear, last: date) -> tuple[Item, ...]:
    """Every item from 6 April to a day of a tax year, by day; their sums are the year's so far.

    ``jobs`` are references and places by number. What is not for tax is not among them.
    """
    until = min(last, year.last)
    found = [
        *(_income(each) for each in books.money if year.first <= each.on <= until),
        *(
            _expense(each, jobs)
            for each in books.purchases
            if each.counts and year.first <= each.on <= until
        ),
        *(
            _back(each, jobs)
            for bought in books.purchases
            for each in bought.came_back()
            if bought.counts and year.first <= each.back.on <= until
        ),
        *_miles(books, jobs, year, until),
    ]
    order = list(ItemKind)
    return tuple(sorted(found, key=lambda each: (each.on, order.index(each.kind))))


def _income(money: MoneyIn) -> Item:
    return Item(
        money.on, ItemKind.INCOME, money.customer, money.words, money.ref, money.income, money,
        cis=money.cis,
    )  # fmt: skip


def _expense(bought: Purchase, jobs: Mapping[int, str]) -> Item:
    return Item(
        bought.on, ItemKind.EXPENSE, bought.merchant, bought.what, _for(bought, jobs),
        bought.pence, bought, heading=bought.heading,
    )  # fmt: skip


def _back(came: CameBack, jobs: Mapping[int, str]) -> Item:
    bought, back = came.bought, came.back
    return Item(
        back.on, ItemKind.BACK, bought.merchant, f"{bought.what}: {back.reason}",
        _for(bought, jobs), -back.pence, came, heading=bought.heading,
    )  # fmt: skip


def _for(bought: Purchase, jobs: Mapping[int, str]) -> str:
    return "stock" if bought.for_stock else jobs.get(bought.job_id or 0, "")


def _miles(books: Books, jobs: Mapping[int, str], year: TaxYear, until: date) -> Iterator[Item]:
    """Each trip adds what the sum of the year grows by: the items add up to it to the penny."""
    so_far = Decimal(0)
    for trip in sorted(books.miles, key=lambda each: (each.on, each.id or 0)):
        if trip.miles and year.first <= trip.on <= until:
            added = worth_of_miles(year, so_far + trip.miles) - worth_of_miles(year, so_far)
            so_far += trip.miles
            job = jobs.get(trip.job_id or 0, "")
            what = f"{trip.words}, {show_quantity(trip.miles)} miles"
            yield Item(
                trip.on, ItemKind.MILES, "", what, job, added, trip,
                heading=Heading.TRAVEL, miles=trip.miles,
            )  # fmt: skip
