"""One line of a drawn slope as terminal cells, with what stands beside it.

Cells are filled. Outlines in box lines and in braille dots were drawn too, of a pent, a hip and an
octagon: at a course to a line a mark covers the very line it belongs to, joints and cut-outs look
alike, and nothing but the colour of a thin line tells a cut piece, or the one the cursor is on.

What is laid over a hip is told by its edge alone: it would hide where courses are cut, and their
marks. Tabs are told by their cut-outs, or by their slanting sides.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from rich.segment import Segment
from rich.style import Style

from domain.drawing.drawing_parts import DrawnCourse, DrawnEdge, DrawnPiece
from domain.drawing.figures import Line, Polygon, clip_line
from domain.exact import half_up
from domain.quantity import show_amount
from domain.setting_out.kinds import EdgeKind
from tui.frame.theme import Palette
from tui.roof.cell_layout import MARGIN, SlopePlate, Span
from tui.roof.colours import (
    Chosen,
    edge_colour,
    finish_ground,
    fore_of,
    ground_of,
    hatch_of,
)
from tui.roof.small_drawing import half_block_cells

_JOINT, _CUT_OUT = "│", "╷"
_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"
"""Upper left counts 1, upper right 2, lower left 4, lower right 8."""


@dataclass(slots=True)
class Cell:
    """One cell of a line."""

    ground: str
    glyph: str = " "
    fore: str = ""
    bold: bool = False
    under: bool = False


class Painter:
    """Paints the lines of one slope in the colours of a palette.

    A line has cells from the margin on; column 0 is the left end of the slope.
    """

    def __init__(self, slope: SlopePlate, palette: Palette, chosen: Chosen) -> None:
        self._s, self._p, self._chosen = slope, palette, chosen
        self._cells: list[Cell] = []

    def line(self, y: int) -> Iterator[Segment]:
        """Paint a line; ``y`` counts from the top of the slope, -1 is its heading."""
        self._cells = [Cell(self._p.ground) for _ in range(self._s.box[0])]
        if y == -1:
            self._write(0, self._heading(), self._p.quiet)
            self._measure(y)
        elif 0 <= y < self._s.lines:
            self._chalk(y)
            self._across(y)
        elif y == self._s.lines:
            self._eaves()
        return (Segment(c.glyph, _style(c.fore, c.ground, c.bold, c.under)) for c in self._cells)

    def _at(self, column: int) -> Cell:
        return self._cells[MARGIN + column]

    def _write(self, column: int, words: str, fore: str, *, bold: bool = False) -> None:
        for cell, glyph in zip(self._cells[MARGIN + column :], words, strict=False):
            cell.glyph, cell.fore, cell.bold = glyph, fore, bold

    def _heading(self) -> str:
        drawn = self._s.drawn
        words = f"slope {drawn.number}"
        courses = show_amount(Decimal(len(drawn.courses)), drawn.laid_in)
        told = f"{words}, {courses}, {half_up(drawn.slope.length):,} up"
        return told if len(told) <= self._s.box[0] - MARGIN else words

    def _chalk(self, y: int) -> None:
        """The measure of the chalk line in this line, with a leader to the slope."""
        if self._measure(y):
            start, _ = self._s.filled(y)
            self._write(0, "╌" * start, self._p.line)

    def _measure(self, y: int) -> bool:
        """Write the measure of a chalk line into the margin of a line; whether there is one."""
        label = self._s.chalk.get(y, "")
        self._write(-MARGIN, f"{label:>{MARGIN - 1}}", self._p.slate)
        return bool(label)

    def _across(self, y: int) -> None:
        """The slope itself, from one edge to the other."""
        course = self._s.course(self._s.height(y))
        if self._s.is_small:
            self._half_blocks(y)
        elif course is None:
            self._finish(y)
            self._sides(y)
        else:
            spans = tuple(self._s.spans(self._s.height(y)))
            self._pieces(course, spans, at_butt=self._s.foot(course.butt) == y)
            self._cut_outs(course, self._s.height(y))
            self._notches(course, self._s.height(y))
            filled = self._s.filled(y)
            for span in spans:
                self._label(course, span, y, filled)
            if y == 0 < self._s.foot(course.butt) and not self._s.drawn.closed:
                self._top(*filled)
            self._sides(y)

    def _pieces(self, course: DrawnCourse, spans: Iterable[Span], *, at_butt: bool) -> None:
        """Fill the cells of every piece, underlined at its butt, with the joint before it."""
        for span in spans:
            fore = fore_of(span.drawn, self._p, self._chosen)
            ground = ground_of(span.drawn, self._p, self._chosen)
            for column in range(span.start, span.end):
                cell = self._at(column)
                cell.glyph, cell.fore, cell.ground = hatch_of(span.drawn), fore, ground
                cell.under = at_butt
            if span.drawn is not course.pieces[0]:
                chosen = self._chosen.has(span.drawn)
                self._write(span.start, _JOINT, fore if chosen else self._p.ink)

    def _cut_outs(self, course: DrawnCourse, height: Fraction) -> None:
        for drawn in course.pieces:
            for (u, low), (_, high) in drawn.cut_outs:
                if low <= height <= high:
                    self._at(self._s.column(u)).glyph = _CUT_OUT

    def _notches(self, course: DrawnCourse, height: Fraction) -> None:
        """The slanting sides of tabs; between them the course beneath has no butt."""
        for notch in (notch for drawn in course.pieces for notch in drawn.notches):
            crossed = _across(notch, height)
            if crossed is None:
                continue
            (u0, _), (u1, _) = crossed
            start, end = self._s.column(u0), max(self._s.column(u1), self._s.column(u0) + 1)
            for column in range(start, end):
                self._at(column).under, self._at(column).glyph = False, " "
            for column, corner, glyph in ((start, u0, "╱"), (end - 1, u1, "╲")):
                if not _stands_upright(notch, corner):
                    self._at(column).glyph = glyph

    def _label(self, course: DrawnCourse, span: Span, y: int, filled: tuple[int, int]) -> None:
        """The mark of a piece, at its butt; one half over the other where it has no room."""
        mark, foot = span.drawn.mark, self._s.foot(course.butt)
        if mark is None:
            return
        start, end = self._room(course, span, filled)
        at = self._roomy(course, span.drawn, len(str(mark)))
        words, lacking = {foot if at is None else at: str(mark)}, len(str(mark)) - (end - start)
        if at is None and self._s.course(self._s.height(foot - 1)) is course:
            words = dict(zip((foot - 1, foot), mark.halves, strict=True))
        elif at is None and lacking > 0:
            start, end = self._lent(course, span, (start, end), lacking)
        told = words.get(y, "")
        if len(told) <= end - start:
            fore = self._p.ground if self._chosen.has(span.drawn) else self._p.ink
            self._write((start + end - len(told)) // 2, told, fore, bold=True)

    def _room(self, course: DrawnCourse, span: Span, filled: tuple[int, int]) -> tuple[int, int]:
        """The cells of a piece in a line that can be written in: neither its joint nor the edge."""
        start = span.start + (span.drawn is not course.pieces[0])
        return max(start, filled[0]), min(span.end, filled[1])

    def _roomy(self, course: DrawnCourse, drawn: DrawnPiece, cells: int) -> int | None:
        """The lowest line in which a piece has so many cells to write in, if there is one."""
        for line in range(self._s.foot(course.butt), -1, -1):
            if self._s.course(self._s.height(line)) is not course:
                return None
            for span in self._s.spans(self._s.height(line)):
                start, end = self._room(course, span, self._s.filled(line))
                if span.drawn is drawn and cells <= end - start:
                    return line
        return None

    def _lent(
        self, course: DrawnCourse, span: Span, room: tuple[int, int], cells: int
    ) -> tuple[int, int]:
        """The room of a piece with some cells of a whole strip beside it, which has no mark."""
        start, end = room
        place = course.pieces.index(span.drawn)
        before, after = course.pieces[max(place - 1, 0)], course.pieces[place + 1 : place + 2]
        if any(drawn.mark is None for drawn in after):
            return start, end + cells
        return (start - cells, end) if before.mark is None else room

    def _finish(self, y: int) -> None:
        """What closes the slope above its last course."""
        start, end = self._s.filled(y)
        for column in range(start, end):
            self._at(column).ground = finish_ground(self._p)
        for piece in self._top_pieces():
            column = self._s.column(min(u for u, _ in piece))
            if start < column < end:
                self._write(column, _JOINT, self._p.ground)
        if y == 0:
            self._top(start, end)

    def _top(self, start: int, end: int) -> None:
        """What closes the slope, in the middle of its top line."""
        words = f" {self._s.drawn.top_words} "
        if len(words) < end - start:
            self._write((start + end - len(words)) // 2, words, self._p.ink)

    def _top_pieces(self) -> Iterator[Polygon]:
        """The ridge pieces along the top edge; a triangle has no such edge."""
        for edge in self._s.drawn.edges:
            if edge.kind is EdgeKind.RIDGE:
                yield from edge.pieces

    def _half_blocks(self, y: int) -> None:
        """Two heights to a line, where a course is thinner than one: colours alone."""
        cells = half_block_cells(self._s, y, self._p, self._chosen)
        for column, (glyph, fore, ground) in cells.items():
            cell = self._at(column)
            cell.glyph, cell.fore, cell.ground = glyph, fore, ground

    def _sides(self, y: int) -> None:
        """Slanting edges to half a cell; beside upright ones, what stands along them."""
        left, right = self._s.drawn.edges[-1], self._s.drawn.edges[1]
        start, end = self._s.filled(y)
        for column, mask in self._s.ragged(y):
            cell = self._at(column)
            cell.ground, cell.glyph = self._p.ground, _QUADRANTS[mask]
            cell.fore = edge_colour(left if column < start else right, self._p)
            cell.bold = cell.under = False
        if _is_upright(left):
            self._write(start - 1, "▐" if left.has_strip else "│", edge_colour(left, self._p))
        if _is_upright(right):
            self._write(end, "▌" if right.has_strip else "│", edge_colour(right, self._p))

    def _eaves(self) -> None:
        edge = self._s.drawn.edges[0]
        first, last = (self._s.column(u) for u, _ in edge.line)
        self._write(
            first, ("▀" if edge.has_strip else "▔") * (last - first), edge_colour(edge, self._p)
        )
        words = f" {edge.kind.value} {half_up(self._s.drawn.slope.eaves):,} "
        self._write(max(first, (first + last - len(words)) // 2), words, self._p.slate)


def _across(notch: Polygon, height: Fraction) -> Line | None:
    """Where a line at a height crosses a notch."""
    reach = [u for u, _ in notch]
    return clip_line(((min(reach), height), (max(reach), height)), notch)


def _stands_upright(notch: Polygon, u: Fraction) -> bool:
    """Whether a side of a notch is the end of its piece there, and no slanting side of a tab."""
    return sum(corner == u for corner, _ in notch) > 1


def _is_upright(edge: DrawnEdge) -> bool:
    (u0, _), (u1, _) = edge.line
    return u0 == u1


@lru_cache(maxsize=512)
def _style(fore: str, ground: str, bold: bool, under: bool) -> Style:
    return Style(color=fore or None, bgcolor=ground, bold=bold, underline=under)
