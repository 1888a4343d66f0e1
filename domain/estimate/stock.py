"""Materials, what they cost at the merchant's, and what is left over in stock."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from domain.coverings.materials import Material
from domain.errors import NotNow
from domain.money import Pence
from domain.quantity import show_amount


@dataclass(frozen=True, slots=True)
class Price:
    """What a pack costs from a day on. A new price is a new record; the old one stays."""

    material: Material
    merchant: str
    per_pack: Decimal
    """Units in a pack: 21 strips, 15 m, 900 nails, 1 cartridge, 30 m of lap."""
    net: Pence
    """For a pack, net of VAT."""
    vat_rate: Decimal
    """Per cent."""
    since: date
    colour: str = ""
    """Empty: whatever the colour."""
    kg: Decimal | None = None
    """Weight of a pack; None: as usual."""
    id: int | None = None


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
        same = not material.coloured or is_same_colour(self.colour, colour)
        return self.material == material and same


@dataclass(frozen=True, slots=True)
class Drawn:
    """The moves that stock allows, and what was to go out beyond what it holds."""

    moves: tuple[StockMove, ...]
    short: tuple[StockMove, ...]
    """What was to go out beyond what stock held."""

    @property
    def words(self) -> str:
        """By how much stock fell short, in a sentence; empty if it held enough."""
        if not self.short:
            return ""
        lacking = " and ".join(
            f"{show_amount(-move.quantity, move.material.unit)} of "
            f"{named_material(move.material, move.colour)}{',' if move.colour else ''}"
            for move in self.short
        )
        return f"Stock was {lacking} short."


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


def draw_from_stock(moves: Iterable[StockMove], stock: Iterable[StockLine]) -> Drawn:
    """Make moves one after another, each out of the lines that serve it, none below nothing.

    What a roof took is a fact: where it is more than was held, the count had been wrong.
    """
    lines, made, short = list(stock), [], []
    for move in moves:
        if move.quantity > 0:
            made.append(move)
            lines.append(StockLine(move.material, move.colour, move.quantity))
            continue
        wanted = -move.quantity
        for at, line in enumerate(lines):
            part = min(wanted, line.quantity)
            if part > 0 and line.serves(move.material, move.colour):
                made.append(replace(move, colour=line.colour, quantity=-part))
                lines[at] = replace(line, quantity=line.quantity - part)
                wanted -= part
        if wanted:
            short.append(replace(move, quantity=-wanted))
    return Drawn(tuple(made), tuple(short))
