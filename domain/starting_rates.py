"""Which of the trader's rates are still figures to begin with: neither changed nor confirmed."""

from collections.abc import Iterable, Mapping
from dataclasses import fields, replace

from domain.trader import LabourRates, Rates

_GROUPED = frozenset({"labour", "confirmed"})
CHARGES = tuple(each.name for each in fields(Rates) if each.name not in _GROUPED)
"""What is charged, by name: an hour, a mile, the markup."""
WORK_RATES = tuple(each.name for each in fields(LabourRates))
"""Hours a unit of work, by name."""


def starting_rates(rates: Rates) -> frozenset[str]:
    """Return the names of the rates that stand as they began and were not confirmed."""
    began = _by_name(Rates())
    return frozenset(
        name
        for name, value in _by_name(rates).items()
        if value == began[name] and name not in rates.confirmed
    )


def with_confirmed(rates: Rates, names: Iterable[str]) -> Rates:
    """Return the rates, these of them said to be right as they stand."""
    return replace(rates, confirmed=tuple(sorted({*rates.confirmed, *names})))


def changed(before: Rates, after: Rates) -> frozenset[str]:
    """Return the names of the rates that differ."""
    old, new = _by_name(before), _by_name(after)
    return frozenset(name for name in old if old[name] != new[name])


def _by_name(rates: Rates) -> Mapping[str, object]:
    charges = {name: getattr(rates, name) for name in CHARGES}
    return charges | {name: getattr(rates.labour, name) for name in WORK_RATES}
