"""A roof drawn from a survey as typed, and the cut list beside it, row by row.

Pure, but the cut plan takes a solver's time: not to be asked for on the thread that draws.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from domain.cutting.plan import CutPlan, Part, PieceKind
from domain.drawing.draw import draw_roof
from domain.drawing.marks import lettered
from domain.drawing.values import Drawing, DrawnPiece
from domain.errors import Refused
from domain.exact import half_up
from domain.quantity import show_amount
from domain.setting_out.coverings import SHINGLES
from domain.setting_out.roof import build_roof
from domain.takeoff.take_off import take_off
from domain.units import show_mm
from tui.reading.survey import read_covering, read_measures

_KINDS = {
    PieceKind.LEFT: "left piece",
    PieceKind.RIGHT: "right piece",
    PieceKind.ROW: "whole course in one piece",
    PieceKind.WHOLE: "whole strip",
}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One part of a strip that is cut."""

    strip: int
    """Its number in the cut list, from 1."""
    letter: str
    """Empty for ridge pieces and what is spare."""
    part: Part


def drawing_of(values: Mapping[str, str]) -> Drawing:
    """Draw the roof of a survey as typed. Raises :class:`Refused` for what cannot be drawn."""
    roof = build_roof(read_measures(values))
    covering = read_covering(values)
    if covering is None:
        raise Refused("Covering", "", "Choose it: the drawing shows how it is laid.")
    return draw_roof(take_off(roof, SHINGLES[covering.key]))


def cut_rows(plan: CutPlan) -> Iterator[CutRow]:
    """Give every part of every strip that is cut, in the order of the cut list."""
    for number, strip in enumerate(plan.cut_list, start=1):
        for letter, part in lettered(strip):
            yield CutRow(number, letter, part)


def where_to(part: Part) -> str:
    """Where a part goes: slope, course and side, or what else becomes of it."""
    if part.piece:
        return f"{part.piece.slope + 1}, {part.piece.course:>2} {part.kind.value}"
    if part.ridge_pieces:
        return show_amount(Decimal(part.ridge_pieces), "ridge piece")
    return part.kind.value


def piece_words(drawn: DrawnPiece) -> str:
    """What a piece is, in one line."""
    piece = drawn.piece
    words = f"Slope {piece.slope + 1}, course {piece.course}: {_KINDS[piece.kind]}"
    words += f" of {show_mm(piece.length)}"
    if drawn.mark is None:
        return f"{words}, not cut"
    return f"{words}, part {drawn.mark.letter} of strip {drawn.mark.strip}"


def part_words(row: CutRow) -> str:
    """What a part is that lies in no course, in one line."""
    start, end = half_up(row.part.start), half_up(row.part.end)
    return f"Strip {row.strip}, from {start:,} to {end:,} mm: {where_to(row.part)}"
