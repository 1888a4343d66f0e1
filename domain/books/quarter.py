"""What a quarterly update tells: the tax year so far, and each quarter as a difference of two.

Cash basis: money counts on the day it is received or paid (GOV.UK, cash basis: read). Expenses as
one sum are allowed under the VAT threshold (secondary, quoted); the miles are in it.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from domain.books.headings import EXPENSE_HEADINGS, Heading
from domain.books.miles import Miles, driven
from domain.books.money_in import MoneyIn
from domain.books.purchase import Purchase
from domain.money import Pence
from domain.tax.mileage import worth_of_miles
from domain.tax.years import Quarter, TaxYear


@dataclass(frozen=True, slots=True)
class Books:
    """All that came in, was bought and was driven."""

    money: tuple[MoneyIn, ...] = ()
    purchases: tuple[Purchase, ...] = ()
    miles: tuple[Miles, ...] = ()


@dataclass(frozen=True, slots=True)
class Totals:
    """What a stretch of days comes to."""

    income: Pence = 0
    """Deductions under CIS included."""
    cis: Pence = 0
    """Suffered: tax paid already."""
    bought: Mapping[Heading, Pence] | None = None
    """By heading, less what came back, without the miles; under 0 if more came back."""
    miles: Decimal = Decimal(0)
    miles_worth: Pence = 0

    @property
    def by_heading(self) -> dict[Heading, Pence]:
        """The expenses by heading, those with nothing left out; miles are travel."""
        sums = Counter(dict(self.bought or {}))
        sums[Heading.TRAVEL] += self.miles_worth
        return {heading: sums[heading] for heading in EXPENSE_HEADINGS if sums[heading]}

    @property
    def purchases(self) -> Pence:
        """All that was bought less what came back of it, without the miles."""
        return sum((self.bought or {}).values())

    @property
    def expenses(self) -> Pence:
        """As one sum, the miles included."""
        return self.purchases + self.miles_worth

    def less(self, before: "Totals") -> "Totals":
        """What came on top of what stood before."""
        sums, gone = dict(self.bought or {}), before.bought or {}
        return Totals(
            income=self.income - before.income,
            cis=self.cis - before.cis,
            bought={heading: sums.get(heading, 0) - gone.get(heading, 0) for heading in sums},
            miles=self.miles - before.miles,
            miles_worth=self.miles_worth - before.miles_worth,
        )


def year_to(books: Books, year: TaxYear, last: date) -> Totals:
    """The totals from 6 April to a day of the tax year, that day included."""
    days = (year.first, min(last, year.last))
    received = [each for each in books.money if days[0] <= each.on <= days[1]]
    bought: Counter[Heading] = Counter()
    for purchase in books.purchases:
        if purchase.counts and days[0] <= purchase.on <= days[1]:
            bought[purchase.heading] += purchase.pence
        for each in purchase.back if purchase.counts else ():
            if days[0] <= each.on <= days[1]:
                bought[purchase.heading] -= each.pence
    miles = driven(books.miles, *days)
    return Totals(
        income=sum(each.income for each in received),
        cis=sum(each.cis for each in received),
        bought=dict(bought),
        miles=miles,
        miles_worth=worth_of_miles(year, miles),
    )


def up_to(books: Books, quarter: Quarter) -> Totals:
    """What the update of a quarter tells: from 6 April to its last day."""
    return year_to(books, quarter.year, quarter.last)


def of_quarter(books: Books, quarter: Quarter) -> Totals:
    """What a quarter by itself comes to: the four of a year add up to it, to the penny."""
    whole = up_to(books, quarter)
    if quarter.number == 1:
        return whole
    return whole.less(up_to(books, quarter.year.quarters[quarter.number - 2]))
