"""CIS: what a contractor deducts from what a subcontractor is paid for their labour."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from types import MappingProxyType

from domain.trader import CisStanding


@dataclass(frozen=True, slots=True)
class CisRates:
    """The rates from a day on, per cent by how the subcontractor stands."""

    since: date
    percent: Mapping[CisStanding, Decimal]


CIS_RATES: tuple[CisRates, ...] = (
    CisRates(
        date(2007, 4, 6),
        MappingProxyType(
            {
                CisStanding.GROSS: Decimal(0),
                CisStanding.REGISTERED: Decimal(20),
                CisStanding.NOT_MATCHED: Decimal(30),
            }
        ),
    ),
)
"""In force. Source: GOV.UK, "CIS: make deductions and pay subcontractors" (read); the day is from
memory. A new rate is a new row; the old one stays."""


def cis_rate(standing: CisStanding, day: date) -> Decimal:
    """Per cent deducted on a day of who stands so. Raises :class:`ValueError` before the table."""
    in_force = [rates for rates in CIS_RATES if rates.since <= day]
    return max(in_force, key=lambda rates: rates.since).percent[standing]


_MONTH_ENDS, _DUE = 5, 19
"""A tax month ends on the 5th; its statements are due 14 days later."""


def statement_due(paid_on: date) -> date:
    """The day by which the contractor gives a statement of what was deducted on a day.

    Source: SI 2005/2045 reg. 4(8), HMRC CISR12160: read.
    """
    due = paid_on.replace(day=_DUE)
    return due if paid_on.day <= _MONTH_ENDS else _month_after(due)


def _month_after(day: date) -> date:
    return (day.replace(day=1) + timedelta(days=31)).replace(day=day.day)
