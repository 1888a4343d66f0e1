"""What was ordered at a merchant: ordered, part delivered, here."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.estimate.ordering import MerchantList
from domain.estimate.stock import StockMove, named_material
from domain.quantity import show_amount

COLLECTED = "collected"
"""What stands in place of an address where the trader fetches it."""


class State(StrEnum):
    """How far an order has come."""

    ORDERED = "ordered"
    PART = "part delivered"
    HERE = "here"


@dataclass(frozen=True, slots=True)
class Ordered:
    """So many packs of one item, ordered at a merchant."""

    merchant: str
    material: Material
    colour: str
    packs: int
    per_pack: Decimal
    """Units in a pack, as :class:`domain.estimate.stock.Price` has it."""
    ordered_on: date
    expected_on: date
    deliver_to: str
    """An address, or :data:`COLLECTED`."""
    came: int = 0
    """Packs that are here."""
    came_on: date | None = None
    """When the last of them came."""
    id: int | None = None

    @property
    def state(self) -> State:
        """Ordered, part delivered or here."""
        if not self.came:
            return State.ORDERED
        return State.HERE if self.came == self.packs else State.PART

    @property
    def to_come(self) -> int:
        """Packs that are still to come."""
        return self.packs - self.came

    @property
    def words(self) -> str:
        """What was ordered: ``3 packs of square butt shingles, green``."""
        return _amount(self, self.packs)


@dataclass(frozen=True, slots=True)
class Merchant:
    """Who sells materials, by the name that stands with the prices."""

    name: str
    phone: str = ""
    deliver_to: str = ""
    """Where the last list went: an address or :data:`COLLECTED`; empty if it was never said."""
    id: int | None = None


def where_to(place: str) -> str:
    """Where it is delivered, as a word or two in a sentence: ``to 2 Mill Row``."""
    return COLLECTED if place == COLLECTED else f"to {place}"


def moved(ordered: Ordered, expected_on: date) -> Ordered:
    """The order on another day. Raises :class:`Refused` for one before that of the order."""
    if expected_on < ordered.ordered_on:
        raise Refused("expected", expected_on, "Give the day it comes: today or later.")
    return replace(ordered, expected_on=expected_on)


def ordered_lines(
    given: MerchantList, ordered_on: date, expected_on: date, deliver_to: str
) -> tuple[Ordered, ...]:
    """What is kept of a list once it is ordered, a line each.

    Raises :class:`Refused` for a day of delivery before that of the order.
    """
    if expected_on < ordered_on:
        raise Refused("expected", expected_on, "Give the day it comes: today or later.")
    return tuple(
        Ordered(
            given.merchant,
            line.material,
            line.colour,
            line.packs,
            line.price.per_pack,
            ordered_on,
            expected_on,
            deliver_to,
        )
        for line in given.lines
    )


def move_of(ordered: Ordered, packs: int, on: date) -> StockMove:
    """What goes into stock when so many packs come.

    Raises :class:`NotNow` for more than are still to come.
    """
    if packs > ordered.to_come:
        still = _amount(ordered, ordered.to_come) if ordered.to_come else "nothing"
        raise NotNow(f"Still to come: {still}. Put more than that into stock by hand.")
    words = f"from {ordered.merchant}" if ordered.merchant else "from the merchant"
    quantity = packs * ordered.per_pack
    return StockMove(ordered.material, ordered.colour, quantity, on, words)


def _amount(ordered: Ordered, packs: int) -> str:
    material = ordered.material
    amount = show_amount(Decimal(packs), material.pack_word)
    return f"{amount} of {named_material(material, ordered.colour)}"
