"""Where the materials come from: the store first, then whole packs at the trader's prices."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from math import ceil

from domain.errors import NotNow
from domain.estimate.basis import Supply
from domain.estimate.stock import Material, Price, StockLine
from domain.quantity import to_decimal
from domain.setting_out.roof import Roof
from domain.takeoff.underlay import Underlay, lay_underlay


@dataclass(frozen=True, slots=True)
class Counts:
    """The materials of a roof that are counted in pieces."""

    strips: int
    """Of shingles, breakage included."""
    nails: int
    cartridges: int
    """Of mastic."""


class Unpriced(NotNow):
    """Materials have no price; ``lacking`` says so in a clause that names them, without remedy."""

    def __init__(self, materials: Sequence[Material]) -> None:
        *others, last = (material.words for material in materials)
        named = f"{', '.join(others)} and {last}" if others else last
        self.lacking = f"No price on record for {named}"
        super().__init__(f"{self.lacking}: give {'them' if others else 'it'} under Prices (F4).")


@dataclass(frozen=True, slots=True)
class Sources:
    """The prices and the store as they stand on a day."""

    prices: Sequence[Price]
    stock: Sequence[StockLine]
    today: date

    def price(self, material: Material, colour: str) -> Price | None:
        """The newest price in force, one of the very colour before one of any colour.

        Where the colour does not matter or is not chosen, the newest of all. None if there is none.
        """
        wanted = colour if material.coloured else ""
        fitting = [
            price
            for price in self.prices
            if price.material is material
            and price.since <= self.today
            and (not wanted or not price.colour or _same(price.colour, wanted))
        ]
        newest = sorted(fitting, key=lambda p: (p.since, p.id or 0))
        return max(newest, key=lambda p: (bool(wanted and p.colour), p.since), default=None)

    def held(self, material: Material, colour: str) -> Decimal:
        """What the store holds, of the very colour where that matters."""
        lines = (
            line.quantity
            for line in self.stock
            if line.material is material and (not material.coloured or _same(line.colour, colour))
        )
        return max(sum(lines, Decimal(0)), Decimal(0))


def supplies_for(
    covering: Material, colour: str, counts: Counts, roof: Roof, sources: Sources
) -> tuple[Supply, ...]:
    """What to take from the store and what to buy for a roof.

    Raises :class:`Unpriced` naming every material that has no price.
    """
    needed = {covering: counts.strips, Material.NAILS: counts.nails}
    needed[Material.MASTIC] = counts.cartridges
    prices = _all_priced((covering, Material.UNDERLAY, *list(needed)[1:]), colour, sources)
    pieces = tuple(
        _by_the_piece(prices[m], colour if m.coloured else "", Decimal(number), sources)
        for m, number in needed.items()
    )
    return (*pieces[:1], _by_the_roll(prices[Material.UNDERLAY], roof, sources), *pieces[1:])


def _all_priced(
    materials: Sequence[Material], colour: str, sources: Sources
) -> Mapping[Material, Price]:
    """The price of every material; raises Unpriced naming those that have none."""
    found = {material: sources.price(material, colour) for material in materials}
    lacking = [m for m, price in found.items() if price is None]
    if lacking:
        raise Unpriced(lacking)
    return {material: price for material, price in found.items() if price is not None}


def _by_the_piece(price: Price, colour: str, needed: Decimal, sources: Sources) -> Supply:
    """Loose strips, nails and cartridges: every one that the store holds serves."""
    from_store = min(sources.held(price.material, colour), needed)
    packs = ceil(Fraction(needed - from_store) / Fraction(price.per_pack))
    return Supply(price.material, colour, needed, from_store, packs, price)


def _by_the_roll(price: Price, roof: Roof, sources: Sources) -> Supply:
    """Underlay, cut at the roll's own length.

    Left-overs are pieces of a length that is not known, so less than the whole need saves only
    whole rolls.
    """
    lay = lay_underlay(roof, Underlay(roll=Fraction(price.per_pack) * 1000))
    needed, held = to_decimal(lay.laid / 1000), sources.held(price.material, "")
    if held >= needed:
        return Supply(price.material, "", needed, needed, 0, price)
    whole_rolls = min(int(held // price.per_pack), lay.rolls)
    from_store = whole_rolls * price.per_pack
    return Supply(price.material, "", needed, from_store, lay.rolls - whole_rolls, price)


def _same(colour: str, other: str) -> bool:
    """Tell whether two colours as typed are the same."""
    return colour.strip().casefold() == other.strip().casefold()
