"""Slopes of the same shape, which are laid alike, and the pieces of the rows on each kind."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from domain.coverings.shingle import Shingle
from domain.cutting.lays import Lay, RowClass, classes_of
from domain.setting_out.courses import Row
from domain.setting_out.flat_slopes import Slope


@dataclass(frozen=True, slots=True)
class Wanted:
    """A piece of a row that has an end at the row's end, or both."""

    length: Fraction
    """As laid, mm."""
    tabs: int
    """Whole tabs that it is cut from where it shares none."""
    is_left: bool = False
    """Whether a left part serves it."""
    is_right: bool = False
    """Whether a right part serves it."""


@dataclass(frozen=True, slots=True)
class AlikeRows:
    """Rows of slopes of one shape that are laid in the same ways."""

    slopes: tuple[int, ...]
    """Indexes of the slopes."""
    rows: RowClass
    """Those of the first of the slopes."""
    is_tied: bool = True
    """Whether a course is laid the same way on all the slopes. Only one course need not be."""

    @property
    def courses(self) -> tuple[int, ...]:
        """The courses, from the eaves up."""
        return tuple(row.course for row in self.rows.rows)

    @property
    def times(self) -> int:
        """How many rows are laid the same way whatever is chosen."""
        return len(self.slopes) if self.is_tied else 1

    @property
    def count(self) -> int:
        """How many times a way of laying them is chosen: for each course, or for each slope."""
        return len(self.courses) if self.is_tied else len(self.slopes)

    def laid(self, begun: int, count: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The slopes and the courses of so many choices, after those that were ``begun`` with."""
        chosen = slice(begun, begun + count)
        return (
            (self.slopes, self.courses[chosen])
            if self.is_tied
            else (self.slopes[chosen], self.courses)
        )

    def wanted(self, lay: Lay, shingle: Shingle) -> tuple[Wanted, ...]:
        """The pieces of a lay that are not whole strips: the one, or the left and the right."""
        width = self.rows.rows[0].u1 - self.rows.rows[0].u0
        if lay.row:
            return (Wanted(width, lay.row),)
        left = self.rows.lead + (lay.left - 1) * shingle.tab
        right = width - left - lay.wholes * shingle.width
        return (
            Wanted(left, ceil(left / shingle.tab), is_left=True),
            Wanted(right, ceil(right / shingle.tab), is_right=True),
        )

    def start(self, shingle: Shingle) -> Fraction:
        """How far into its first tab a row in one piece begins."""
        return shingle.tab - self.rows.lead


def alike_rows(
    slopes: Sequence[Slope], rows: Sequence[Row], shingle: Shingle, *, tied: bool
) -> Iterator[AlikeRows]:
    """The rows of one slope of each shape, beside all the slopes that have it.

    If they are not ``tied``, a slope whose rows all differ, as between hips, may be laid otherwise
    than those of its shape course by course; any other is a shape by itself.
    """
    shapes: dict[Slope, list[int]] = {}
    for index, slope in enumerate(slopes):
        shapes.setdefault(slope, []).append(index)
    for indexes in shapes.values():
        classes = classes_of([row for row in rows if row.slope == indexes[0]], shingle)
        differ = all(len(alike.rows) == 1 for alike in classes)
        if tied or differ:
            is_tied = tied or len(indexes) == 1
            yield from (AlikeRows(tuple(indexes), alike, is_tied) for alike in classes)
        else:
            yield from (AlikeRows((index,), alike) for index in indexes for alike in classes)
