"""Sums of income and of turnover from which something has to be done."""

from dataclasses import dataclass
from datetime import date

from domain.money import Pence
from domain.tax.years import TaxYear


@dataclass(frozen=True, slots=True)
class UpdatesThreshold:
    """Over this income of one tax year, quarterly updates are due from another on."""

    income_of: TaxYear
    over: Pence
    updates_from: TaxYear


UPDATES: tuple[UpdatesThreshold, ...] = (
    UpdatesThreshold(TaxYear(2024), 50_000_00, TaxYear(2026)),
    UpdatesThreshold(TaxYear(2025), 30_000_00, TaxYear(2027)),
    UpdatesThreshold(TaxYear(2026), 20_000_00, TaxYear(2028)),
)
"""Source: GOV.UK, Making Tax Digital for Income Tax: quoted; which year's income: secondary,
quoted. The last holds for the years after it, each for the one two years on (derived)."""


@dataclass(frozen=True, slots=True)
class VatThreshold:
    """The duty to register begins over this turnover of twelve months."""

    since: date
    over: Pence


VAT_THRESHOLDS: tuple[VatThreshold, ...] = (
    VatThreshold(date(2017, 4, 1), 85_000_00),
    VatThreshold(date(2024, 4, 1), 90_000_00),
)
"""Source: GOV.UK, VAT registration: read; since which days: from memory."""


def updates_threshold(income_of: TaxYear) -> UpdatesThreshold | None:
    """What the income of a tax year is held against; None before there were updates."""
    if income_of < UPDATES[0].income_of:
        return None
    by_year = {each.income_of: each for each in UPDATES}
    later = UpdatesThreshold(income_of, UPDATES[-1].over, TaxYear(income_of.begins + 2))
    return by_year.get(income_of, later)


def vat_threshold(day: date) -> Pence:
    """The turnover of twelve months over which to register; before the table begins its first."""
    in_force = [each for each in VAT_THRESHOLDS if each.since <= day]
    return max(in_force or VAT_THRESHOLDS[:1], key=lambda each: each.since).over
