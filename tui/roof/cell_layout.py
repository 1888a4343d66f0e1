"""Where the slopes and pieces of a drawing fall in terminal cells, at one scale.

A cell is taken for twice as high as it is wide, as in most terminals.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import ceil, floor

from domain.drawing.drawing_parts import Drawing, DrawnCourse, DrawnPiece, DrawnSlope
from domain.drawing.side_by_side import shelve
from domain.exact import half_up

MARGIN = 7
"""Cells left of a slope, for the measures of its chalk lines."""
GAP = 2
"""Cells right of a slope: its edge, and some ground before the next."""
HEAD, FOOT = 1, 2
"""Lines above a slope and below it: its name, its eaves and some ground."""

_COURSE = 150
"""About what a course of shingles shows, mm."""


@dataclass(frozen=True, slots=True)
class Span:
    """The cells of one line that a piece takes."""

    start: int
    end: int
    """One past its last cell."""
    drawn: DrawnPiece


@dataclass(frozen=True)
class SlopePlate:
    """One slope in cells; lines count from its top edge, columns from its left end."""

    drawn: DrawnSlope
    mm: Fraction
    """Of the slope to a line; half as much to a cell."""
    x: int = 0
    """Column of the plate at which the slope itself begins."""
    y: int = 0
    """Line of the plate at which it begins."""

    @cached_property
    def lines(self) -> int:
        """How many lines of the screen the slope takes."""
        return max(1, half_up(self.drawn.slope.length / self.mm))

    @cached_property
    def columns(self) -> int:
        """How many cells of the screen the slope takes at its widest."""
        reaches = [u for u, _ in self.drawn.outline]
        return max(1, half_up((max(reaches) - min(reaches)) / self.mm * 2))

    @cached_property
    def chalk(self) -> dict[int, str]:
        """The measures of the chalk lines, line by line; -1 is the line of the heading.

        Each stands in the line it lies in, that of a row beside the first line of the row. Only the
        uppermost can lie less than a course over another: it makes room, and goes a line up. None
        is told where courses are thinner than a line.
        """
        begun = {course.butt for course in self.drawn.courses}
        labels: dict[int, str] = {}
        for chalk in () if self.is_small else self.drawn.chalk_lines:
            lies = self.lines - 1 - floor(chalk.height / self.mm)
            line = self.foot(chalk.height) if chalk.height in begun else lies
            labels[line - 1 if line in labels else line] = f"{half_up(chalk.height):,}"
        return labels

    @property
    def box(self) -> tuple[int, int]:
        """Columns and lines with what is written round it."""
        return MARGIN + max(self.columns, 2 * MARGIN) + GAP, HEAD + self.lines + FOOT

    def height(self, line: int, share: Fraction = Fraction(1, 2)) -> Fraction:
        """Return how far up from the eaves a line is, at a share of it from its foot."""
        return min((self.lines - line - 1 + share) * self.mm, self.drawn.slope.length)

    def line(self, height: Fraction) -> int:
        """Return the line in which a height lies."""
        return min(max(self.lines - 1 - floor(height / self.mm), 0), self.lines - 1)

    def foot(self, height: Fraction) -> int:
        """Return the lowest line that shows what begins at a height, be it in the line below."""
        return self.line(ceil(height / self.mm - Fraction(1, 2)) * self.mm)

    @property
    def is_small(self) -> bool:
        """Whether its courses are thinner than a line."""
        return self.mm > self.drawn.exposure

    def course(self, height: Fraction) -> DrawnCourse | None:
        """Return the course that shows at a height; None where the finish covers it."""
        return next((c for c in self.drawn.courses if c.butt <= height < c.top), None)

    def spans(self, height: Fraction) -> Iterator[Span]:
        """Give the cells of the pieces that show at a height, from left to right."""
        course, slope = self.course(height), self.drawn.slope
        for drawn in course.pieces if course else ():
            start = self.column(max(drawn.piece.u0, slope.left(height)))
            end = min(self.column(drawn.piece.u1), self._last(slope.right(height)))
            if start < end:
                yield Span(start, end, drawn)

    def reach(self, height: Fraction) -> tuple[int, int]:
        """Return from which to which half cell the slope reaches; whole ones at an upright edge."""
        slope = self.drawn.slope
        left, right = slope.left(height), slope.right(height)
        upright = slope.inset + slope.top == slope.eaves
        return (
            self._half_cell(left) if slope.inset else 2 * self.column(left),
            2 * self._last(right) if upright else self._half_cell(right),
        )

    def filled(self, line: int) -> tuple[int, int]:
        """Return from which to which cell the slope fills a line wholly."""
        upper, lower = self._halves(line)
        return -(-max(upper[0], lower[0]) // 2), min(upper[1], lower[1]) // 2

    def ragged(self, line: int) -> Iterator[tuple[int, int]]:
        """Give the cells of a line that the slope fills in part, each with the quarters it fills.

        Upper left counts 1, upper right 2, lower left 4 and lower right 8.
        """
        halves = self._halves(line)
        start, end = self.filled(line)
        first, last = min(low for low, _ in halves) // 2, -(-max(high for _, high in halves) // 2)
        for column in (*range(first, min(start, last)), *range(max(end, start), last)):
            quarters = (low <= 2 * column + half < high for low, high in halves for half in (0, 1))
            yield column, sum(1 << place for place, filled in enumerate(quarters) if filled)

    def column(self, u: Fraction) -> int:
        """Return the cell whose left side is nearest to a place along the eaves."""
        return half_up((u - self._left) / self.mm * 2)

    def _last(self, u: Fraction) -> int:
        """As :meth:`column`, at a right end: both ends of a line lose alike what is half a cell."""
        return -half_up((self._left - u) / self.mm * 2)

    @cached_property
    def _left(self) -> Fraction:
        return min(u for u, _ in self.drawn.outline)

    def _half_cell(self, u: Fraction) -> int:
        return half_up((u - self._left) / self.mm * 4)

    def _halves(self, line: int) -> tuple[tuple[int, int], tuple[int, int]]:
        """Return how far the slope reaches in the upper and in the lower half of a line."""
        upper, lower = (self.reach(self.height(line, Fraction(n, 4))) for n in (3, 1))
        return upper, lower


@dataclass(frozen=True)
class Plate:
    """A whole drawing in cells."""

    slopes: tuple[SlopePlate, ...]

    @property
    def size(self) -> tuple[int, int]:
        """Columns and lines."""
        corners = [
            (s.x - MARGIN + s.box[0], s.y - HEAD + s.box[1])  # right and lower corner of its box
            for s in self.slopes
        ]
        return max(x for x, _ in corners), max(y for _, y in corners)

    @property
    def is_small(self) -> bool:
        """Whether nothing can be written on its courses."""
        return self.slopes[0].is_small

    def piece(self, x: int, y: int) -> DrawnPiece | None:
        """Return the piece that shows in a cell."""
        for slope in self.slopes:
            if 0 <= y - slope.y < slope.lines:
                for span in slope.spans(slope.height(y - slope.y)):
                    if span.start <= x - slope.x < span.end:
                        return span.drawn
        return None

    def cells(self, drawn: DrawnPiece) -> tuple[int, int, int, int] | None:
        """Return column, line, columns and lines of a piece; None if the scale swallows it."""
        slope = self.slopes[drawn.piece.slope]
        course = slope.drawn.courses[drawn.piece.course - 1]
        lines = [
            (line, span)
            for line in range(slope.line(course.top), slope.foot(course.butt) + 1)
            for span in slope.spans(slope.height(line))
            if span.drawn.piece == drawn.piece
        ]
        if not lines:
            return None
        start, end = min(s.start for _, s in lines), max(s.end for _, s in lines)
        top, foot = lines[0][0], lines[-1][0]
        return slope.x + start, slope.y + top, end - start, foot + 1 - top


def line_of(slope: DrawnSlope) -> Fraction:
    """Return what a line shows where marks can be read: a course, or an even share of a row.

    A row of felt is as wide as several courses, and one line would not tell where it laps.
    """
    return slope.exposure / max(1, round(slope.exposure / _COURSE))


def plate(drawing: Drawing, mm: Fraction, width: int) -> Plate:
    """Set the slopes side by side as far as so many columns allow; ``mm`` of slope to a line."""
    slopes = [SlopePlate(slope, mm) for slope in drawing.slopes]
    places = shelve([slope.box for slope in slopes], width)
    return Plate(
        tuple(
            SlopePlate(slope.drawn, mm, x + MARGIN, y + HEAD)
            for slope, (x, y) in zip(slopes, places, strict=True)
        )
    )
