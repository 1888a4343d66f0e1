"""Where the materials come from: stock first, then whole packs at the trader's prices."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor
from typing import Protocol, TypeAlias

from domain.coverings.materials import Material
from domain.coverings.registry import COVERINGS
from domain.cutting.offcuts import Offcut
from domain.errors import NotNow
from domain.estimate.basis import Supply
from domain.estimate.stock import Price, StockLine, is_same_colour
from domain.quantity import to_decimal
from domain.setting_out.flat_slopes import Roof
from domain.takeoff.felt_takeoff import FeltTakeOff, lay_felt
from domain.takeoff.fixings import SHINGLE_NAIL
from domain.takeoff.packing import Packing
from domain.takeoff.rolls import UNDERLAY, lay_rolls
from domain.takeoff.roof_takeoff import TakeOff
from domain.trader import Nailing


class CutFromRolls(Protocol):
    """What lengths cut from rolls come to."""

    @property
    def rolls(self) -> int:
        """How many rolls are begun."""

    @property
    def laid(self) -> Fraction:
        """Millimetres off the rolls."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """Need of a material of which any part serves: strips, nails, cartridges, metres of lap."""

    material: Material
    needed: Decimal
    """In the material's unit."""
    offcuts: tuple[Offcut, ...] = ()
    """Of strips: what their cutting leaves."""


@dataclass(frozen=True, slots=True)
class Rolls:
    """Need of a material that is cut from rolls."""

    material: Material
    lay: Callable[[Fraction], CutFromRolls]
    """Lays it from rolls of so many millimetres."""


_LENGTH = Decimal(3)
"""Metres of a length of trim, board or gutter as usually sold; common practice."""

Need: TypeAlias = Pieces | Rolls


class Unpriced(NotNow):
    """Materials have no price; ``lacking`` says so in a clause that names them, without remedy."""

    def __init__(self, materials: Sequence[Material]) -> None:
        *others, last = (material.words for material in materials)
        named = f"{', '.join(others)} and {last}" if others else last
        self.lacking = f"No price for {named} yet"
        super().__init__(f"{self.lacking}: add {'them' if others else 'it'} in Prices.")


@dataclass(frozen=True, slots=True)
class PricesAndStock:
    """The merchants' prices, and the stock of leftovers, as they stand on a day."""

    prices: Sequence[Price]
    stock: Sequence[StockLine]
    today: date
    nailing: Nailing = field(default_factory=Nailing)
    """How the trader nails, and with what."""
    nail_on_roof: int | None = None
    """Length of the shingle nails chosen for a roof, mm; None for the usual ones."""

    def sort_of(self, material: Material, colour: str) -> str:
        """What tells a roof's material from others: its colour; of nails a length not usual."""
        if material.coloured:
            return colour
        nail = self.nail_on_roof
        other = material == Material.SHINGLE_NAILS and nail and nail != self.nailing.shingle_nail
        return f"{nail} mm" if other else ""

    def price(self, material: Material, colour: str) -> Price | None:
        """The newest price in force, one of the very colour before one of any colour.

        Where the colour does not matter or is not chosen, the newest of all; of one day the one
        that was saved last. None if there is none. A box of shingle nails of another length than
        the usual (``colour`` says which, as "25 mm") weighs as much and so holds fewer or more.
        """
        wanted = colour if material.coloured else ""
        fitting = [
            price
            for price in self.prices
            if price.material == material
            and price.since <= self.today
            and (not wanted or not price.colour or is_same_colour(price.colour, wanted))
        ]
        found = max(
            fitting,
            key=lambda p: (bool(wanted and p.colour), p.since, p.id or 0),
            default=None,
        )
        length = colour.removesuffix(" mm")
        if found is None or material != Material.SHINGLE_NAILS or not length.isdecimal():
            return found
        return replace(found, per_pack=self._of_length(found.per_pack, Fraction(length)))

    def _of_length(self, usual: Decimal, length: Fraction) -> Decimal:
        """How many nails of another length weigh as much as so many usual ones; 1 at least."""
        of_usual = replace(SHINGLE_NAIL, length=Fraction(self.nailing.shingle_nail)).grams
        other = replace(SHINGLE_NAIL, length=length).grams
        return Decimal(max(1, floor(Fraction(usual) * of_usual / other)))

    def held(self, material: Material, colour: str) -> Decimal:
        """What stock holds, of the very colour where that matters."""
        lines = (line.quantity for line in self.stock if line.serves(material, colour))
        return max(sum(lines, Decimal(0)), Decimal(0))


def needs_of(takeoff: TakeOff) -> tuple[Need, ...]:
    """What a roof needs of each material; the covering is the first, breakage counted in."""
    roof, covering = takeoff.roof, takeoff.covering
    if isinstance(takeoff, FeltTakeOff):
        return (
            Rolls(Material(covering.key), lambda roll: lay_felt(roof, takeoff.covering, roll)),
            Pieces(Material.FELT_NAILS, Decimal(takeoff.fixings.nails)),
            Pieces(Material.ADHESIVE, to_decimal(takeoff.fixings.adhesive / 1000)),
        )
    strips = takeoff.covering.with_breakage(takeoff.strips.laid)
    fixings = takeoff.fixings
    return shingle_needs(
        roof,
        Material(covering.key),
        strips,
        fixings.through_strips,
        fixings.underlay_nails,
        fixings.cartridges,
        takeoff.offcuts,
    )


def shingle_needs(
    roof: Roof,
    shingles: Material,
    strips: int,
    shingle_nails: int,
    felt_nails: int,
    cartridges: int,
    offcuts: tuple[Offcut, ...] = (),
) -> tuple[Need, ...]:
    """What a roof in shingles needs of each material; of strips, the breakage is counted in."""
    return (
        Pieces(shingles, Decimal(strips), offcuts),
        Rolls(Material.UNDERLAY, lambda roll: lay_rolls(roof, replace(UNDERLAY, roll=roll))),
        Pieces(Material.SHINGLE_NAILS, Decimal(shingle_nails)),
        Pieces(Material.FELT_NAILS, Decimal(felt_nails)),
        Pieces(Material.MASTIC, Decimal(cartridges)),
    )


def supplies_for(needs: Sequence[Need], colour: str, sources: PricesAndStock) -> tuple[Supply, ...]:
    """Return what to take from the stock and what to buy for a roof, in the order of its needs.

    Raises :class:`Unpriced` naming every material that has no price.
    """
    prices = _all_priced([need.material for need in needs], colour, sources)
    return tuple(_supply(need, prices[need.material], colour, sources) for need in needs)


def supplies_as_packed(
    needs: Sequence[Need], colour: str, sources: PricesAndStock
) -> tuple[Supply, ...]:
    """Return what to take from the stock and what to buy, whether or not it has a price.

    What has none is packed as usual, and the money of such a supply is not to be read.
    """
    return tuple(
        _supply(need, price or _as_usual(need.material, sources.today), colour, sources)
        for need in needs
        for price in (sources.price(need.material, sources.sort_of(need.material, colour)),)
    )


def known_supplies(
    needs: Sequence[Need], colour: str, sources: PricesAndStock
) -> Mapping[Material, Supply]:
    """Return what to take from the stock and what to buy, of the materials that have a price."""
    priced = (
        (need, sources.price(need.material, sources.sort_of(need.material, colour)))
        for need in needs
    )
    return {need.material: _supply(need, price, colour, sources) for need, price in priced if price}


def _all_priced(
    materials: Sequence[Material], colour: str, sources: PricesAndStock
) -> Mapping[Material, Price]:
    """The price of every material; raises Unpriced naming those that have none."""
    found = {m: sources.price(m, sources.sort_of(m, colour)) for m in materials}
    lacking = [m for m, price in found.items() if price is None]
    if lacking:
        raise Unpriced(lacking)
    return {material: price for material, price in found.items() if price is not None}


def _as_usual(material: Material, today: date) -> Price:
    """Stand in for a price that is not recorded: how the material is usually packed."""
    return Price(material, "", usual_pack(material), net=0, vat_rate=Decimal(0), since=today)


def usual_pack(material: Material) -> Decimal:
    """Units in a pack of a material as it is usually sold."""
    if material.is_covering:
        return to_decimal(Fraction(COVERINGS[material].per_pack))
    usual = Packing()
    return {
        Material.UNDERLAY: to_decimal(usual.underlay.roll / 1000),
        Material.SHINGLE_NAILS: Decimal(usual.nail_boxes.shingle),
        Material.FELT_NAILS: Decimal(usual.nail_boxes.felt),
        Material.MASTIC: Decimal(1),
        Material.ADHESIVE: to_decimal(usual.adhesive_tin / 1000),
        Material.DRIP_TRIM: _LENGTH,
        Material.FASCIA: _LENGTH,
        Material.BARGE_BOARDS: _LENGTH,
        Material.GUTTER: _LENGTH,
    }[material]


def _supply(need: Need, price: Price, colour: str, sources: PricesAndStock) -> Supply:
    """One material at its price, stock first."""
    colour = sources.sort_of(need.material, colour)
    held = sources.held(need.material, colour)
    if isinstance(need, Rolls):
        return _by_the_roll(need, price, colour, held)
    from_stock = min(held, need.needed)
    packs = ceil(Fraction(need.needed - from_stock) / Fraction(price.per_pack))
    return Supply(need.material, colour, need.needed, from_stock, packs, price, need.offcuts)


def _by_the_roll(need: Rolls, price: Price, colour: str, held: Decimal) -> Supply:
    """Lengths, cut at the roll's own length.

    Leftovers are pieces of a length that is not known, so less than the whole need saves only
    whole rolls.
    """
    cut = need.lay(Fraction(price.per_pack) * 1000)
    needed = to_decimal(cut.laid / 1000)
    if held >= needed:
        return Supply(need.material, colour, needed, needed, 0, price)
    whole_rolls = min(int(held // price.per_pack), cut.rolls)
    from_stock = whole_rolls * price.per_pack
    return Supply(need.material, colour, needed, from_stock, cut.rolls - whole_rolls, price)
