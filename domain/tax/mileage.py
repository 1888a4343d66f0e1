"""What a business mile of a car or van comes to, by tax year."""

from dataclasses import dataclass
from decimal import Decimal

from domain.money import Pence, whole_pence
from domain.tax.years import TaxYear


@dataclass(frozen=True, slots=True)
class MileageRates:
    """Rates from a tax year on, in pence a mile."""

    since: TaxYear
    first: Pence
    """For the first miles of a tax year."""
    first_miles: int
    """How many miles those are."""
    then: Pence
    """For every mile after them."""


MILEAGE_RATES: tuple[MileageRates, ...] = (
    MileageRates(TaxYear(2011), 45, 10_000, 25),
    MileageRates(TaxYear(2026), 55, 10_000, 25),
)
"""Source: GOV.UK's own calculator code for 2022-23 to 2026-27 (alphagov/smart-answers,
simplified_expenses_checker_calculator.rb): read. That 45p began in 2011-12: from memory."""


def mileage_rates(year: TaxYear) -> MileageRates:
    """The rates of a tax year; of one before the table begins its first."""
    in_force = [rates for rates in MILEAGE_RATES if rates.since <= year]
    return max(in_force or MILEAGE_RATES[:1], key=lambda rates: rates.since)


def worth_of_miles(year: TaxYear, miles: Decimal) -> Pence:
    """What all the miles of a tax year so far come to: one sum, rounded once."""
    rates = mileage_rates(year)
    at_first = min(miles, Decimal(rates.first_miles))
    return whole_pence(at_first * rates.first + (miles - at_first) * rates.then)
