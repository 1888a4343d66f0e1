"""What is told of the stock of leftovers."""

from collections.abc import Iterable
from decimal import Decimal

from domain.estimate.reserved import Reservation, is_of
from domain.estimate.stock import StockLine
from tui.widgets.field_values import number_typed


def reserved_words(line: StockLine, reservations: Iterable[Reservation]) -> str:
    """How much of a line is reserved, and to which jobs; empty if nothing is."""
    kept = [reservation for reservation in reservations if is_of(reservation, line)]
    if not kept:
        return ""
    whole = sum((reservation.quantity for reservation in kept), Decimal(0))
    jobs = ", ".join(reservation.place for reservation in kept)
    return f"{number_typed(whole)} reserved: {jobs}"
