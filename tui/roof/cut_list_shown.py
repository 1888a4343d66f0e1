"""What is told beside a drawn roof: its cut list row by row, and what a piece is."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby

from domain.cutting.plan import CutPlan, Part, PieceKind
from domain.drawing.drawing_parts import Drawing, DrawnPiece
from domain.drawing.marks import Mark, lettered
from domain.exact import half_up
from domain.quantity import show_amount
from domain.takeoff.felt_takeoff import FeltTakeOff

_KINDS = {
    PieceKind.LEFT: "left piece",
    PieceKind.RIGHT: "right piece",
    PieceKind.ROW: "course in one piece",
    PieceKind.WHOLE: "whole strip",
}


@dataclass(frozen=True, slots=True)
class CutRow:
    """One part of a strip or roll that is cut, as it stands in the list."""

    mark: Mark
    """Its letter is empty for ridge pieces and what is spare."""
    cut: str
    goes: str
    """Slope, course and side, or what else becomes of it."""
    told: str
    """All of it in one line."""


@dataclass(frozen=True, slots=True)
class CutList:
    """What stands beside a drawing."""

    titles: str
    rows: tuple[CutRow, ...]
    signs: str
    """What the signs in the drawing mean."""
    by_strip: bool
    """Whether a strip is shown with all its pieces; a roll is most of a roof."""


def cut_list_shown(drawing: Drawing) -> CutList:
    """Return the cut list of a roof in shingles, or the rolls of one in felt."""
    if isinstance(drawing.takeoff, FeltTakeOff):
        return CutList(
            titles=" part      length  slope, row",
            rows=tuple(_off_rolls(drawing, drawing.takeoff)),
            signs="2a length a of roll 2   ╌ chalk line, mm up from the eaves",
            by_strip=False,
        )
    return CutList(
        titles=" part  from    to  slope, course",
        rows=tuple(_off_strips(drawing, drawing.takeoff.plan)),
        signs="╱ left piece   ╲ right piece   ╳ course in one piece   12a strip 12, part a",
        by_strip=True,
    )


def piece_words(drawn: DrawnPiece) -> str:
    """What a piece or length is, in one line."""
    piece, mark = drawn.piece, drawn.mark
    length = f"of {half_up(piece.length):,} mm"
    if piece.kind is None and mark:
        row = f"Slope {piece.slope + 1}, row {piece.course}"
        return f"{row}: length {length} with its laps, part {mark.letter} of roll {mark.strip}"
    words = f"Slope {piece.slope + 1}, course {piece.course}: "
    words += f"{_KINDS[piece.kind or PieceKind.WHOLE]} {length}"
    return f"{words}, part {mark.letter} of strip {mark.strip}" if mark else f"{words}, not cut"


def _off_strips(drawing: Drawing, plan: CutPlan) -> Iterator[CutRow]:
    """Give every part of every strip that is cut, in the order of the cut list."""
    pieces = {drawn.mark: drawn for drawn in drawing.pieces}
    for number, strip in enumerate(plan.cut_list, start=1):
        for letter, part in lettered(strip):
            mark, goes = Mark(number, letter), _where_to(part)
            start, end = half_up(part.start), half_up(part.end)
            drawn = pieces.get(mark)
            told = f"Strip {number}, from {start:,} to {end:,} mm: {goes}"
            yield CutRow(
                mark, f"{start:>5,} {end:>5,}", goes, piece_words(drawn) if drawn else told
            )


def _where_to(part: Part) -> str:
    if part.piece:
        return f"{part.piece.slope + 1}, {part.piece.course:>2} {part.kind.value}"
    if part.ridge_pieces:
        return show_amount(Decimal(part.ridge_pieces), "ridge piece")
    return part.kind.value


def _off_rolls(drawing: Drawing, takeoff: FeltTakeOff) -> Iterator[CutRow]:
    """Give every length in the order of cutting, and what is left of each roll behind its own."""
    roll = takeoff.packing.felt_roll
    for number, material in groupby(drawing.pieces, key=lambda each: each.mark and each.mark.strip):
        left = roll
        for drawn in material:
            piece, mark = drawn.piece, drawn.mark
            left -= piece.length
            if mark:
                goes = f"{piece.slope + 1}, {piece.course}"
                yield CutRow(mark, f"{half_up(piece.length):>11,}", goes, piece_words(drawn))
        if left and number:
            told = f"Roll {number}: {half_up(left):,} mm of {half_up(roll):,} are left"
            yield CutRow(Mark(number, ""), f"{half_up(left):>11,}", "left over", told)
