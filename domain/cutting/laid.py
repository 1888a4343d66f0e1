"""Where the plan to work by lays each piece, and the name of the pile that each part lies on.

Parts that are equal are one pile, and it has one name: the letter of the first way of cutting that
gives it, and a number. Whole strips have none.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, product
from string import ascii_uppercase

from domain.cutting.cut_list import Piece, PieceKind
from domain.cutting.working import CutPart, PartKind, WayOfLaying, WorkingPlan
from domain.setting_out.courses import Row


@dataclass(frozen=True, slots=True, order=True)
class PartName:
    """What a pile of equal parts is called: A2."""

    way: int
    """The first way of cutting that gives it, from 0."""
    number: int
    """From 1, among those that this way is the first to give, from the left."""

    def __str__(self) -> str:
        return f"{letter_of(self.way)}{self.number}"


@dataclass(frozen=True, slots=True)
class PieceFrom:
    """A piece of a row where it is laid, and the part it is trimmed from."""

    piece: Piece
    part: CutPart


def letter_of(way: int) -> str:
    """The letter of a way of cutting: A to Z, then AA."""
    letters = ("".join(each) for size in count(1) for each in product(ascii_uppercase, repeat=size))
    return next(letter for index, letter in enumerate(letters) if index == way)


def names_of(plan: WorkingPlan) -> Mapping[CutPart, PartName]:
    """The name of every part that strips are cut into; what nothing needs has none."""
    names: dict[CutPart, PartName] = {}
    for index, way in enumerate(plan.cutting):
        numbers = count(1)
        for part in way.parts:
            if part.kind is not PartKind.SPARE and part not in names:
                names[part] = PartName(index, next(numbers))
    return names


def laid_pieces(plan: WorkingPlan, rows: Sequence[Row]) -> tuple[PieceFrom, ...]:
    """Every piece of every row by slope, course and from left to right."""
    found = {(row.slope, row.course): row for row in rows}
    laid = [
        (slope, course, way)
        for way in plan.laying
        for slope in way.slopes
        for course in way.courses
    ]
    return tuple(
        piece
        for slope, course, way in sorted(laid, key=lambda each: each[:2])
        for piece in _row_laid(found[slope, course], way)
    )


def kinds_of(way: WayOfLaying) -> tuple[PieceKind, ...]:
    """What each piece of a row is, from left to right."""
    if len(way.pieces) == 1:
        return (PieceKind.ROW,)
    return (PieceKind.LEFT, *[PieceKind.WHOLE] * (len(way.pieces) - 2), PieceKind.RIGHT)


def _row_laid(row: Row, way: WayOfLaying) -> Iterator[PieceFrom]:
    at = row.u0
    for kind, laid in zip(kinds_of(way), way.pieces, strict=True):
        end = at + laid.length
        tabs = laid.cutouts + 1
        yield PieceFrom(Piece(kind, row.slope, row.course, at, end, tabs), laid.part)
        at = end
