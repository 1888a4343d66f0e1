"""Prices as a list to read: what is in force, what comes, what was before, what has none."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.stock import Price
from domain.estimate.supplies import PricesAndStock


class Force(StrEnum):
    """How a price stands today: quoted from, current, future, old, or missing."""

    QUOTED = "quoted"
    """The next quote is made from it."""
    IN_FORCE = "current"
    COMING = "future"
    BEFORE = "old"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One price as the list of prices shows it."""

    material: Material
    price: Price | None
    force: Force

    @property
    def words(self) -> str:
        """The material, its colour first if the price is of one."""
        colour = self.price.colour if self.price else ""
        return f"{colour}, {self.material.words}" if colour else self.material.words


def price_lines(prices: Iterable[Price], today: date) -> tuple[PriceLine, ...]:
    """Return a line a price: the materials in order, and of each what is in force first.

    What comes follows, then what was before. A material without a price has a line that says so.
    """
    known = sorted(prices, key=lambda price: (price.since, price.id or 0), reverse=True)
    lines: list[PriceLine] = []
    for material in MATERIALS:
        found = [_line(price, known, today) for price in known if price.material == material]
        order = list(Force)
        lines += sorted(found, key=lambda line: order.index(line.force))
        if not found:
            lines.append(PriceLine(material, None, Force.NONE))
    return tuple(lines)


def _line(price: Price, known: list[Price], today: date) -> PriceLine:
    """How one price stands among those known, the newest first."""
    if price.since > today:
        return PriceLine(price.material, price, Force.COMING)
    if price is PricesAndStock(known, (), today).price(price.material, price.colour):
        return PriceLine(price.material, price, Force.QUOTED)
    newest = next(p for p in known if p.since <= today and _same_pack(p, price))
    force = Force.IN_FORCE if newest is price else Force.BEFORE
    return PriceLine(price.material, price, force)


def _same_pack(one: Price, other: Price) -> bool:
    key = (other.material, other.merchant.casefold(), other.colour.casefold())
    return (one.material, one.merchant.casefold(), one.colour.casefold()) == key
