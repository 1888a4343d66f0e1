"""Materials, what they cost at the merchant's, and what is left over in stock."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import TypeAlias

from domain.coverings.materials import MATERIALS, Material
from domain.errors import NotNow
from domain.money import Pence, share, show_money
from domain.quantity import show_amount
from domain.tax import vat_in

_NONE = Decimal(0)
_Kind: TypeAlias = tuple[Material, str]
"""A material, and its colour where that matters."""


@dataclass(frozen=True, slots=True)
class Price:
    """What a pack costs from a day on. A new price is a new record; the old one stays."""

    material: Material
    merchant: str
    per_pack: Decimal
    """Units in a pack: 21 strips, 15 m, 900 nails, 1 cartridge, 30 m of lap."""
    net: Pence
    """For a pack, net of VAT; of one typed with it the nearest penny."""
    vat_rate: Decimal
    """Per cent."""
    since: date
    colour: str = ""
    """Empty: whatever the colour."""
    kg: Decimal | None = None
    """Weight of a pack; None: as usual."""
    id: int | None = None
    starting: bool = False
    """A figure to begin with that the trader has not confirmed yet."""
    with_vat: Pence | None = None
    """For a pack, VAT included, where it was typed so; None: it was typed before VAT.

    One in six whole-pence sums with VAT is that of no whole penny before it: computed.
    """

    @property
    def gross(self) -> Pence:
        """What a pack costs, VAT included."""
        if self.with_vat is not None:
            return self.with_vat
        return self.net + share(self.net, self.vat_rate)

    @property
    def typed_words(self) -> str:
        """What was typed: "£8.32", or "£9.99 with VAT"."""
        typed = self.with_vat
        return show_money(self.net) if typed is None else f"{show_money(typed)} with VAT"

    def cost(self, packs: int, *, reclaims_vat: bool) -> Pence:
        """What so many packs cost the trader: VAT is no cost of one who reclaims it."""
        if self.with_vat is None:
            net = packs * self.net
            return net if reclaims_vat else net + share(net, self.vat_rate)
        asked = packs * self.with_vat
        return asked - vat_in(asked, self.vat_rate) if reclaims_vat else asked


@dataclass(frozen=True, slots=True)
class StockMove:
    """In (positive) or out (negative) of stock, in the material's unit."""

    material: Material
    colour: str
    quantity: Decimal
    on: date
    words: str = ""
    """Why: "left over at Birch Lane", "counted", "taken to The Green"."""
    job_id: int | None = None
    id: int | None = None


@dataclass(frozen=True, slots=True)
class StockLine:
    """What stock holds of one material and colour."""

    material: Material
    colour: str
    quantity: Decimal

    def serves(self, material: Material, colour: str) -> bool:
        """Tell whether it can be used for a material, of the very colour where that matters."""
        same = not material.sorted or is_same_colour(self.colour, colour)
        return self.material == material and same


@dataclass(frozen=True, slots=True)
class Held:
    """What stock comes to once its moves are gone through in their order."""

    lines: tuple[StockLine, ...]
    """What is there: never less than nothing, and nothing of what has run out."""
    short: tuple[StockLine, ...]
    """What was to go out beyond what was there: the count had been wrong."""


def is_same_colour(colour: str, other: str) -> bool:
    """Tell whether two colours as typed are the same."""
    return colour.strip().casefold() == other.strip().casefold()


def named_material(material: Material, colour: str) -> str:
    """A material with its colour: ``square butt shingles, slate grey``."""
    return f"{material.words}, {colour}" if colour else material.words


def check_held(move: StockMove, held: Decimal) -> None:
    """Raise :class:`NotNow` if a move takes out more than stock holds of the material."""
    if move.quantity < 0 and held + move.quantity < 0:
        there, wanted = (show_amount(n, move.material.unit) for n in (held, -move.quantity))
        what = named_material(move.material, move.colour)
        raise NotNow(f"In stock: {there} of {what}, not {wanted}. Correct the count first.")


def replay(moves: Iterable[StockMove]) -> Held:
    """Go through the moves of stock in the order in which they were first recorded.

    What a roof took is a fact, so a move out stands as it was recorded: where it is more than was
    there, stock is at nothing after it, and by how much it was short is told. A correction changes
    a move where it stands (:func:`settled`), so that it neither invents nor loses: 8 strips left
    over at one job and taken for another are gone, also when the first 8 are corrected to none
    and back. Colours that are the same however they were typed are one.
    """
    names: dict[_Kind, str] = {}
    held: dict[_Kind, Decimal] = {}
    short: dict[_Kind, Decimal] = {}
    for move in moves:
        kind = _kind(move)
        names.setdefault(kind, move.colour)
        after = held.get(kind, _NONE) + move.quantity
        held[kind] = max(_NONE, after)
        short[kind] = short.get(kind, _NONE) + max(_NONE, -after)
    return Held(_lines(held, names), _lines(short, names))


def settled(recorded: Iterable[StockMove], wanted: Iterable[StockMove]) -> tuple[StockMove, ...]:
    """The moves that a job is to have, each that was recorded before in the place it had.

    A leftover that there is none of any more keeps its place with a quantity of nothing. One
    without an id is new; one recorded whose id is missing has no place any more.
    """
    left, made = list(recorded), []
    for move in wanted:
        there = next((each for each in left if _is_same_way(each, move)), None)
        if there is not None:
            left.remove(there)
            move = replace(there, quantity=move.quantity)  # noqa: PLW2901
        made.append(move)
    emptied = [replace(each, quantity=_NONE) for each in left if each.quantity >= 0]
    return (*made, *emptied)


def newly_short(before: Held, after: Held) -> tuple[StockLine, ...]:
    """By how much stock is short after a change of its moves where it was not before."""
    known = {_kind(line): line.quantity for line in before.short}
    grown = (
        replace(line, quantity=line.quantity - known.get(_kind(line), _NONE))
        for line in after.short
    )
    return tuple(line for line in grown if line.quantity > 0)


def amounts(lines: Iterable[StockLine]) -> str:
    """``2 strips of square butt shingles, green, and 1 cartridge of bitumen mastic``."""
    return " and ".join(
        f"{show_amount(line.quantity, line.material.unit)} of "
        f"{named_material(line.material, line.colour)}{',' if line.colour else ''}"
        for line in lines
    )


def short_words(lines: Iterable[StockLine]) -> str:
    """By how much stock was short, in a sentence; empty if it was not."""
    lacking = amounts(lines)
    return f"Stock was {lacking} short." if lacking else ""


def _kind(of: StockMove | StockLine) -> _Kind:
    return of.material, of.colour.strip().casefold() if of.material.sorted else ""


def _is_same_way(move: StockMove, other: StockMove) -> bool:
    """Tell whether both go in, or both out, of the same."""
    return _kind(move) == _kind(other) and (move.quantity < 0) == (other.quantity < 0)


def _lines(
    quantities: Mapping[_Kind, Decimal], names: Mapping[_Kind, str]
) -> tuple[StockLine, ...]:
    """What there is more than nothing of, in the order of the materials."""
    order = list(MATERIALS)
    listed = sorted(quantities.items(), key=lambda each: (order.index(each[0][0]), names[each[0]]))
    return tuple(StockLine(kind[0], names[kind], amount) for kind, amount in listed if amount)
