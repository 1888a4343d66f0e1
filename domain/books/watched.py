"""Thresholds that come near, said while something can still be done about them."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from domain.books.quarter import Books, year_to
from domain.days.calendar import months_after, show_in_full
from domain.money import Pence, share, show_money
from domain.tax.thresholds import updates_threshold, vat_threshold
from domain.tax.years import TaxYear, tax_year_of

_EARLY = (Decimal(90), Decimal(80))
"""Per cent of the VAT threshold at which it is said."""
_TO_REGISTER = timedelta(days=30)
_TWELVE = 12


class Nearness(StrEnum):
    """How near a threshold is."""

    NEAR = "near"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class Watched:
    """One thing to be said."""

    nearness: Nearness
    words: str
    """A sentence."""


@dataclass(frozen=True, slots=True)
class Supply:
    """A sum of turnover for VAT on the day of its tax point."""

    on: date
    pence: Pence


@dataclass(frozen=True, slots=True)
class VatDuty:
    """When the threshold was passed, and what follows."""

    passed_in: date
    """The last day of the month at whose end twelve months came to more."""
    turnover: Pence
    register_by: date
    registered_from: date


def watched(
    books: Books, supplied: Iterable[Supply], today: date, *, registered: bool
) -> tuple[Watched, ...]:
    """All that is to be said: of quarterly updates, and of VAT to who is not registered."""
    vat = None if registered else vat_warning(supplied, today)
    return tuple(each for each in (updates_warning(books, today), vat) if each is not None)


def vat_duty(supplies: Iterable[Supply], until: date) -> VatDuty | None:
    """The first month whose end saw over the threshold in twelve; None while there is none.

    Register within 30 days of the end of that month, registered from the first of the second month
    after: GOV.UK, VAT registration: read. Months that are over by the day ``until`` are looked at.
    """
    by_month = _by_month(supplies)
    month = min(by_month, default=until)
    while (ends := _end_of(month)) < until:
        turnover = _turnover(by_month, month)
        if turnover > vat_threshold(ends):
            return VatDuty(ends, turnover, ends + _TO_REGISTER, months_after(month, 2))
        month = months_after(month, 1)
    return None


def vat_warning(supplies: Iterable[Supply], today: date) -> Watched | None:
    """What is to be said of VAT to a trader who is not registered; None while it is far away."""
    given = tuple(supplies)
    duty = vat_duty(given, today)
    if duty is not None:
        return Watched(
            Nearness.OVER,
            f"VAT: {show_money(duty.turnover)} in the twelve months to "
            f"{show_in_full(duty.passed_in)}. Register by {show_in_full(duty.register_by)}; "
            f"you are registered from {show_in_full(duty.registered_from)}.",
        )
    so_far = _turnover(_by_month(given), today.replace(day=1))
    limit = vat_threshold(today)
    for percent in _EARLY:
        if so_far >= share(limit, percent):
            return Watched(
                Nearness.NEAR,
                f"VAT: {show_money(so_far)} in twelve months, over {percent} % of the "
                f"{show_money(limit)} at which you must register.",
            )
    return None


def updates_warning(books: Books, today: date) -> Watched | None:
    """From when quarterly updates are due, by the income of the last tax years; the earliest.

    An income that is only near its sum is said from 80 per cent on; once updates are due, nothing.
    """
    now = tax_year_of(today)
    near = None
    for begins in range(now.begins - 2, now.begins + 1):
        year = TaxYear(begins)
        threshold = updates_threshold(year)
        if threshold is None or threshold.updates_from.first <= today:
            continue  # by then they are being sent
        income = year_to(books, year, today).income
        if income > threshold.over:
            return Watched(
                Nearness.OVER,
                f"Quarterly updates: income of {show_money(income)} in {year} is over "
                f"{show_money(threshold.over)}, so they are due from "
                f"{show_in_full(threshold.updates_from.first)}.",
            )
        if year == now and income >= share(threshold.over, _EARLY[-1]):
            near = Watched(
                Nearness.NEAR,
                f"Quarterly updates: income of {show_money(income)} so far in {year}; over "
                f"{show_money(threshold.over)} they are due from "
                f"{show_in_full(threshold.updates_from.first)}.",
            )
    return near


def _by_month(supplies: Iterable[Supply]) -> Counter[date]:
    """What was supplied in each month, by its first day."""
    sums: Counter[date] = Counter()
    for supply in supplies:
        sums[supply.on.replace(day=1)] += supply.pence
    return sums


def _turnover(by_month: Counter[date], month: date) -> Pence:
    """Of twelve whole months, that of a day the last of them."""
    return sum(by_month[months_after(month, -back)] for back in range(_TWELVE))


def _end_of(month: date) -> date:
    return months_after(month.replace(day=1), 1) - timedelta(days=1)
