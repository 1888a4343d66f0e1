"""CIS: what a contractor deducts from what a subcontractor is paid for their labour."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
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
