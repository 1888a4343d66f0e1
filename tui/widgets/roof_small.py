"""A drawn roof so small that only its colours can be told: two heights to a line of half-blocks."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import count

from rich.style import Style
from rich.text import Text

from domain.drawing.sheet import shelve
from domain.drawing.values import Drawing
from tui.theme import Palette
from tui.widgets.roof_colours import Chosen, finish_ground, ground_of
from tui.widgets.roof_plate import SlopePlate

_LEAST = 3
"""Lines of a slope under which it is no more than a bar."""


def roof_lines(drawing: Drawing, width: int, height: int, p: Palette) -> list[Text]:
    """The whole roof as large as so many cells and lines allow; nothing where they are few."""
    fitted = _fitted(drawing, width, height)
    if fitted is None:
        return []
    slopes, places = fitted
    used = max(y + slope.lines for slope, (_, y) in zip(slopes, places, strict=True))
    rows: list[dict[int, tuple[str, str, str]]] = [{} for _ in range(used)]
    for slope, (x, y) in zip(slopes, places, strict=True):
        for line in range(slope.lines):
            cells = half_blocks(slope, line, p, Chosen())
            rows[y + line] |= {x + column: cell for column, cell in cells.items()}
    return [_line(row) for row in rows]


def half_blocks(
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
    if slope.course(height) is None:
        start, end = slope.reach(height)
        return dict.fromkeys(range(start // 2, end // 2), finish_ground(p))
    colours: dict[int, str] = {}
    for span in slope.spans(height):
        colours |= dict.fromkeys(range(span.start, span.end), ground_of(span.drawn, p, chosen))
    return colours


def _fitted(
    drawing: Drawing, width: int, height: int
) -> tuple[list[SlopePlate], list[tuple[int, int]]] | None:
    """The slopes at the finest scale at which all have room, and the corner of each.

    None if a slope would be no more than a bar.
    """
    for mm in _scales(drawing.slopes[0].laid.exposure):
        slopes = [SlopePlate(slope, mm) for slope in drawing.slopes]
        if min(slope.lines for slope in slopes) < _LEAST:
            return None
        boxes = [(slope.columns + 1, slope.lines + 1) for slope in slopes]
        places = list(shelve(boxes, width + 1))
        low = max(y + box[1] for (_, y), box in zip(places, boxes, strict=True)) - 1
        if low <= height and max(box[0] for box in boxes) <= width + 1:
            return slopes, places
    return None


def _scales(exposure: Fraction) -> Iterator[Fraction]:
    """Millimetres to a line: whole half lines to a course, then whole courses to a half line."""
    yield from (2 * exposure / halves for halves in (4, 3, 2, 1))
    yield from (2 * exposure * courses for courses in count(2))


def _line(row: dict[int, tuple[str, str, str]]) -> Text:
    line = Text(end="")
    for column in range(max(row, default=-1) + 1):
        glyph, fore, ground = row.get(column, (" ", "", ""))
        line.append(glyph, Style(color=fore or None, bgcolor=ground or None))
    return line
