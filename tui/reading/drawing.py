"""What is told beside a drawn roof: the cut list row by row, and what a piece is."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from domain.cutting.plan import CutPlan, Part, PieceKind
from domain.drawing.marks import lettered
from domain.drawing.values import DrawnPiece
from domain.exact import half_up
from domain.quantity import show_amount

_KINDS = {
    PieceKind.LEFT: "left piece",
    PieceKind.RIGHT: "right piece",
    PieceKind.ROW: "course in one piece",
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
    words += f" of {half_up(piece.length):,} mm"
    if drawn.mark is None:
        return f"{words}, not cut"
    return f"{words}, part {drawn.mark.letter} of strip {drawn.mark.strip}"


def part_words(row: CutRow) -> str:
    """What a part is that lies in no course, in one line."""
    start, end = half_up(row.part.start), half_up(row.part.end)
    return f"Strip {row.strip}, from {start:,} to {end:,} mm: {where_to(row.part)}"
