"""Leftovers that an agreed job will take out of stock: no other job can count on them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.estimate.stock import StockLine


@dataclass(frozen=True, slots=True)
class Reservation:
    """What one job takes of one material, once its use is recorded."""

    job_id: int
    ref: str
    place: str
    material: Material
    colour: str
    quantity: Decimal
    """In the material's unit."""


def reservations_of(
    job_id: int, ref: str, place: str, supplies: Iterable[Supply], *, whole: bool = False
) -> tuple[Reservation, ...]:
    """What stock gives to the supplies of the quote that a job is done by.

    All that it needs if its order goes into stock: the ``whole`` of it comes from there.
    """
    given = ((each, each.needed if whole else each.from_stock) for each in supplies)
    return tuple(
        Reservation(job_id, ref, place, each.material, each.colour, quantity)
        for each, quantity in given
        if quantity
    )


def is_of(reservation: Reservation, line: StockLine) -> bool:
    """Tell whether a reservation is to be kept from a line of stock."""
    return line.serves(reservation.material, reservation.colour)


def not_reserved(
    stock: Iterable[StockLine], reservations: Sequence[Reservation]
) -> tuple[StockLine, ...]:
    """What is left of stock when every reservation is kept; never less than nothing."""
    left = list(reservations)
    free = []
    for line in stock:
        quantity = line.quantity
        for at, reservation in enumerate(left):
            if is_of(reservation, line):
                kept = max(Decimal(0), min(quantity, reservation.quantity))
                quantity -= kept
                left[at] = replace(reservation, quantity=reservation.quantity - kept)
        free.append(replace(line, quantity=quantity))
    return tuple(line for line in free if line.quantity)
