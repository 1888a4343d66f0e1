"""A drawn roof so small that only its colours can be told: two heights to a line of half-blocks."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from rich.style import Style
from rich.text import Text

from domain.drawing.drawing_parts import DrawnCourse, DrawnSlope
from domain.drawing.side_by_side import shelve
from domain.setting_out.flat_slopes import Slope
from tui.frame.theme import Palette
from tui.roof.cell_layout import SlopePlate, line_of
from tui.roof.colours import Chosen, finish_ground, ground_of, mix

_LEAST = 3
"""Lines of a slope under which it is no more than a bar."""


@dataclass(frozen=True, slots=True)
class _Place:
    """A slope at its place, which stands for all that are like it."""

    plate: SlopePlate
    words: str
    """How many it stands for; empty if they are not told."""

    @property
    def box(self) -> tuple[int, int]:
        """Columns and lines, with what is told below it and the ground before the next."""
        return max(self.plate.columns, len(self.words)) + 1, self.plate.lines + 1


def small_roof_lines(
    slopes: Sequence[DrawnSlope], width: int, height: int, p: Palette
) -> list[Text]:
    """Each unlike slope as large as so many cells and lines allow; nothing where they are few."""
    fitted = _fitted(slopes, width, height)
    rows: dict[int, dict[int, tuple[str, str, str]]] = {}
    for place, (x, y) in fitted:
        for line in range(place.plate.lines):
            cells = half_block_cells(place.plate, line, p, Chosen())
            rows.setdefault(y + line, {}).update({x + c: cell for c, cell in cells.items()})
        below = rows.setdefault(y + place.plate.lines, {})
        start = x + max(0, place.plate.columns - len(place.words)) // 2
        below.update((start + c, (glyph, p.quiet, "")) for c, glyph in enumerate(place.words))
    return [_line(rows[y]) for y in sorted(rows)]


def half_block_cells(
    slope: SlopePlate, y: int, p: Palette, chosen: Chosen
) -> dict[int, tuple[str, str, str]]:
    """Glyph, colour and ground of every cell of a line of a slope, by its column."""
    upper, lower = (_colours_at(slope, y, Fraction(n, 4), p, chosen) for n in (3, 1))
    cells = {}
    for column in upper.keys() | lower.keys():
        above, below = upper.get(column), lower.get(column)
        if above:
            cells[column] = ("▀", above, below or p.ground)
        else:
            cells[column] = ("▄", below or p.ground, p.ground)
    return cells


def _colours_at(
    slope: SlopePlate, y: int, share: Fraction, p: Palette, chosen: Chosen
) -> dict[int, str]:
    """The colour of every column that the slope fills at a height."""
    height = slope.height(y, share)
    course = slope.course(height)
    if course is None or not course.pieces:
        start, end = slope.reach(height)
        ground = _whole_ground(slope.drawn, course, p)
        return dict.fromkeys(range(start // 2, end // 2), ground)
    colours: dict[int, str] = {}
    for span in slope.spans(height):
        colours |= dict.fromkeys(range(span.start, span.end), ground_of(span.drawn, p, chosen))
    return colours


def _whole_ground(slope: DrawnSlope, course: DrawnCourse | None, p: Palette) -> str:
    """The colour right across a slope: of a course that is not cut yet, of boards, of the top."""
    if course is not None:
        return mix(p.ground, p.brick, 28 if course.number % 2 else 20)
    return finish_ground(p) if slope.courses else mix(p.ground, p.timber, 40)


def _fitted(
    slopes: Sequence[DrawnSlope], width: int, height: int
) -> list[tuple[_Place, tuple[int, int]]]:
    """The slopes at the finest scale at which all have room, each with its corner.

    None if a slope would be no more than a bar.
    """
    alike = _alike(slopes)
    for mm in _scales(line_of(slopes[0])):
        places = [_Place(SlopePlate(slope, mm), words) for slope, words in alike]
        if min(place.plate.lines for place in places) < _LEAST:
            break
        boxes = [place.box for place in places]
        corners = list(shelve(boxes, width + 1))
        low = max(y + box[1] for (_, y), box in zip(corners, boxes, strict=True))
        if low <= height and max(box[0] for box in boxes) <= width + 1:
            return list(zip(places, corners, strict=True))
    return []


def _alike(slopes: Sequence[DrawnSlope]) -> list[tuple[DrawnSlope, str]]:
    """The first of every kind of slope, and how many there are of it."""
    kinds: dict[Slope, list[DrawnSlope]] = {}
    for slope in slopes:
        kinds.setdefault(slope.slope, []).append(slope)
    return [(like[0], f"× {len(like)}" if len(like) > 1 else "") for like in kinds.values()]


def _scales(exposure: Fraction) -> Iterator[Fraction]:
    """Millimetres to a line: whole half lines to a course, then ever more to a half line."""
    yield from (2 * exposure / halves for halves in (4, 3, 2))
    mm = 2 * exposure
    while True:
        yield mm
        mm *= Fraction(9, 8)


def _line(row: dict[int, tuple[str, str, str]]) -> Text:
    line = Text(end="")
    for column in range(max(row, default=-1) + 1):
        glyph, fore, ground = row.get(column, (" ", "", ""))
        line.append(glyph, Style(color=fore or None, bgcolor=ground or None))
    return line
