"""Prices that a quote was made from long after they were asked for."""

from collections.abc import Iterable
from datetime import date, timedelta

from domain.estimate.basis import Supply

OLD_AFTER = timedelta(days=90)
"""Our own limit: merchants change their prices about every quarter (common practice)."""


def old_prices(supplies: Iterable[Supply], drafted_on: date) -> tuple[Supply, ...]:
    """The materials to buy whose price was over 90 days old when the quote was made."""
    return tuple(s for s in supplies if s.packs and drafted_on - s.price.since > OLD_AFTER)
