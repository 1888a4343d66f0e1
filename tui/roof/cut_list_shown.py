"""What is told beside a drawn roof: its cut list row by row, and what a piece is."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from domain.cutting.working import WorkingPlan
from domain.drawing.drawing_parts import Drawing, DrawnPiece
from domain.drawing.marks import Mark
from domain.exact import half_up
from domain.papers.work_lines import (
    CutLine,
    LaidLine,
    LayLine,
    PartLine,
    WorkLines,
    over_the_fewest,
    work_lines,
)
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff

_TAB = 6
"""Cells of a tab in the picture of a strip."""


@dataclass(frozen=True, slots=True)
class CutRow:
    """One line of the list."""

    name: str
    """A way of cutting, a part of a roll, or courses."""
    rest: str
    told: str
    """All of it in words."""
    marks: frozenset[Mark | None] = frozenset()
    """Of the pieces that it is about."""
    courses: frozenset[tuple[int, int]] = frozenset()
    """Slope and course of what it is about, both from 0 and 1 as a piece has them."""
    is_quiet: bool = False
    """Whether nothing of it lies on the roof."""


@dataclass(frozen=True, slots=True)
class CutList:
    """What stands beside a drawing."""

    titles: str
    rows: tuple[CutRow, ...]
    signs: str
    """What the signs in the drawing mean."""

    def row_of(self, drawn: DrawnPiece) -> int | None:
        """The row that tells of a piece: its course, or in felt its length."""
        place = (drawn.piece.slope, drawn.piece.course)
        for index, row in enumerate(self.rows):
            if place in row.courses or (drawn.piece.kind is None and drawn.mark in row.marks):
                return index
        return None


def cut_list_shown(drawing: Drawing) -> CutList:
    """Return the ways of cutting and laying of a roof in shingles, or the rolls of one in felt."""
    takeoff = drawing.takeoff
    if isinstance(takeoff, FeltTakeOff):
        return CutList(
            titles=" part      length  slope, row",
            rows=tuple(_off_rolls(drawing, takeoff)),
            signs="2a length a of roll 2   ╌ chalk line, mm up from the eaves",
        )
    plan = drawing.plan or takeoff.fewest.ways
    lines = work_lines(takeoff, plan)
    return CutList(
        titles=_counted(takeoff, plan),
        rows=(*_ways(lines, takeoff.covering.tabs), *_courses(lines)),
        signs="╱ left piece  ╲ right piece  ╳ course in one  A2 pile  −67 trimmed off",
    )


def piece_words(drawn: DrawnPiece, drawing: Drawing) -> str:
    """What lies in the course of a piece, from the left; in felt, what a length is."""
    piece, mark, takeoff = drawn.piece, drawn.mark, drawing.takeoff
    if isinstance(takeoff, FeltTakeOff) or drawing.plan is None:
        row = f"Slope {piece.slope + 1}, row {piece.course}"
        part = f", part {mark.letter} of roll {mark.strip}" if mark else ""
        return f"{row}: length of {half_up(piece.length):,} mm with its laps{part}"
    line = work_lines(takeoff, drawing.plan).course(piece.slope + 1, piece.course)
    to_line = takeoff.courses[piece.slope].chalk_lines[piece.course - 1]
    course = f"Slope {piece.slope + 1}, course {piece.course}, top edge to {half_up(to_line):,} mm"
    return f"{course}: {line.words}."


def _counted(takeoff: ShingleTakeOff, plan: WorkingPlan) -> str:
    """How many strips, and how that compares with the other plan."""
    if takeoff.working is None or plan == takeoff.working:
        return over_the_fewest(takeoff)
    sure = " (proven)" if takeoff.fewest.proven else ""
    return f"The fewest strips{sure}: {plan.strips}; to work by: {takeoff.working.strips}."


def _ways(lines: WorkLines, tabs: int) -> Iterator[CutRow]:
    """A row for each way of cutting, then one for the strips that are not cut."""
    width = max((len(str(line.times)) for line in lines.cutting), default=1)
    width = max(width, len(str(lines.whole)))
    for line in lines.cutting:
        uses = dict.fromkeys(f"{part.name or 'rest'} {part.goes}" for part in line.parts)
        yield CutRow(
            name=line.letter,
            rest=f"{line.times:>{width}} × {_picture(line, tabs)}  {line.cuts_words}",
            told=f"{line.letter}, {line.times} of it: {'. '.join(uses)}.",
            marks=frozenset(Mark(0, part.name) for part in line.parts if part.name),
        )
    if lines.whole:
        told = f"{lines.whole} strips are laid whole, or trimmed in place."
        rest = f"{lines.whole:>{width}} × │{'whole':^{_TAB * tabs - 1}}│  not cut"
        yield CutRow("", rest, told, marks=frozenset({None}))


def _picture(line: CutLine, tabs: int) -> str:
    """A strip with its cuts, each part with its name."""
    strip = line.parts[-1].end
    cells = [" "] * (_TAB * tabs + 1)
    for part in line.parts:
        start, end = (_cell(at, strip, tabs) for at in (part.start, part.end))
        cells[start] = cells[end] = "│"
        _write(cells, start, end, part)
    return "".join(cells)


def _write(cells: list[str], start: int, end: int, part: PartLine) -> None:
    room = max(0, end - start - 1)
    words = (part.name if part.name else "░" * room)[:room]
    cells[start + 1 : start + 1 + room] = words.center(room)


def _cell(at: Fraction, strip: Fraction, tabs: int) -> int:
    return half_up(at / strip * _TAB * tabs)


def _courses(lines: WorkLines) -> Iterator[CutRow]:
    """A row for each way of laying."""
    width = max(len(line.where) for line in lines.laying)
    for line in lines.laying:
        yield CutRow(
            name="",
            rest=f"{line.where:<{width}}  {' │ '.join(map(_laid, line.parts))}",
            told=f"{line.where[:1].upper()}{line.where[1:]}, from the left: {line.words}.",
            courses=_places(line),
        )


def _places(line: LayLine) -> frozenset[tuple[int, int]]:
    return frozenset((slope - 1, course) for slope in line.slopes for course in line.courses)


def _laid(part: LaidLine) -> str:
    """A piece of a course in few signs; what is trimmed off stands on its side."""
    name = part.name or (f"{part.count} whole" if part.count > 1 else "whole")
    left = f"−{half_up(part.trim_left):,} " if part.trim_left else ""
    right = f" −{half_up(part.trim_right):,}" if part.trim_right else ""
    return f"{left}{name}{right}"


def _off_rolls(drawing: Drawing, takeoff: FeltTakeOff) -> Iterator[CutRow]:
    """Give every length in the order of cutting, and what is left of each roll behind its own."""
    roll = takeoff.packing.felt_roll
    for number, material in groupby(drawing.pieces, key=lambda each: each.mark and each.mark.strip):
        left = roll
        for drawn in material:
            piece, mark = drawn.piece, drawn.mark
            left -= piece.length
            if mark:
                rest = f"{half_up(piece.length):>11,}  {piece.slope + 1}, {piece.course}"
                told = piece_words(drawn, drawing)
                yield CutRow(f"{mark!s:>4}", rest, told, frozenset({mark}))
        if left and number:
            told = f"Roll {number}: {half_up(left):,} mm of {half_up(roll):,} are left"
            rest = f"{half_up(left):>11,}  left over"
            yield CutRow(f"{number:>3} ", rest, told, is_quiet=True)
