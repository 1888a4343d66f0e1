"""Slopes that are laid alike are drawn once."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from domain.drawing.drawing_parts import DrawnSlope


@dataclass(frozen=True, slots=True)
class LikeSlopes:
    """Slopes of one shape that are laid alike."""

    numbers: tuple[int, ...]
    """From 1, in the roof's order."""
    drawn: DrawnSlope
    """The first of them."""


def like_slopes(slopes: Sequence[DrawnSlope]) -> tuple[LikeSlopes, ...]:
    """The slopes of a roof, those that look the same told together."""
    alike: dict[Hashable, list[DrawnSlope]] = {}
    for slope in slopes:
        alike.setdefault(_looks(slope), []).append(slope)
    return tuple(LikeSlopes(tuple(s.number for s in same), same[0]) for same in alike.values())


def _looks(slope: DrawnSlope) -> Hashable:
    """What a slope shows: its shape, and every piece on it with its mark."""
    laid = tuple(
        (course.number, piece.piece.u0, piece.piece.u1, str(piece.mark or ""))
        for course in slope.courses
        for piece in course.pieces
    )
    return slope.slope, laid
