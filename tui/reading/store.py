"""What is told of the store of left-overs."""

from collections.abc import Iterable
from decimal import Decimal

from domain.estimate.reserved import Promise, is_of
from domain.estimate.stock import StockLine
from tui.reading.plain import shown


def promised_words(line: StockLine, promises: Iterable[Promise]) -> str:
    """How much of a line is promised, and to which jobs; empty if nothing is."""
    kept = [promise for promise in promises if is_of(promise, line)]
    if not kept:
        return ""
    whole = sum((promise.quantity for promise in kept), Decimal(0))
    jobs = ", ".join(promise.place for promise in kept)
    return f"{shown(whole)} promised: {jobs}"
