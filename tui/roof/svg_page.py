"""The slopes of a drawn roof side by side on a page of A4, with what is written round each.

Lengths are millimetres of roof; a :class:`Pen` tells what they are on paper.
"""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import count
from typing import TypeAlias

from domain.drawing.drawing_parts import DrawnPiece, DrawnSlope
from domain.drawing.figures import Line, Polygon, clip_line
from domain.drawing.side_by_side import shelve
from domain.exact import half_up
from domain.quantity import show_amount
from domain.setting_out.kinds import EdgeKind
from tui.roof.svg_elements import Point, line, polygon, text
from tui.roof.svg_signs import Pen

Painter: TypeAlias = Callable[[DrawnSlope, Pen], Iterator[str]]
"""Gives a slope from the left end of its eaves; upward is less than 0."""

_WIDTH, _HEIGHT = 180, 215
"""Millimetres of paper that a page has room for, its heading taken off."""
_LEFT, _RIGHT, _ABOVE, _BELOW = 14, 4, 7, 8
"""Millimetres of paper round a slope, for what is written there."""
_KEY = 12
"""Millimetres of paper below all slopes, for the key to the signs."""
FIGURE = Fraction(62, 100)
"""What a letter takes along its line, against its size."""


def roof_on_page(
    slopes: Sequence[DrawnSlope],
    paint: Painter,
    key: Callable[[Pen], Iterator[str]],
    defined: Callable[[Pen], str] = lambda _: "",
) -> str:
    """Return the roof as a whole SVG, its slopes side by side as far as the page allows.

    Set as wide as 180 mm it has the scale that its key tells. What is ``defined`` can be filled
    with by name.
    """
    pen = next(pen for pen in map(Pen, count(5, 5)) if _fits(slopes, pen))
    places = zip(slopes, _places(slopes, pen), strict=True)
    parts = [_at(x, y, paint(slope, pen)) for slope, (x, y) in places]
    foot = _height(slopes, pen)
    parts.append(_at(0, foot, key(pen)))
    box = f"0 0 {pen.mm(_WIDTH)} {foot + pen.mm(_KEY)}"
    look = 'font-family="Inter, sans-serif" stroke-linejoin="round"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {look}>'
    return f"{head}{defined(pen)}{''.join(parts)}</svg>\n"


def _at(x: int, y: int, parts: Iterator[str]) -> str:
    return f'<g transform="translate({x} {y})">{"".join(parts)}</g>\n'


def _fits(slopes: Sequence[DrawnSlope], pen: Pen) -> bool:
    """Whether the page has room for it at a scale."""
    widest = max(width for width, _ in _boxes(slopes, pen))
    return widest <= pen.mm(_WIDTH) and _height(slopes, pen) <= pen.mm(_HEIGHT - _KEY)


def _boxes(slopes: Sequence[DrawnSlope], pen: Pen) -> list[tuple[int, int]]:
    """How wide and high each slope is with what is written round it."""
    return [
        (
            _reach(slope)[1] - _reach(slope)[0] + pen.mm(_LEFT + _RIGHT),
            half_up(slope.slope.length) + pen.mm(_ABOVE + _BELOW),
        )
        for slope in slopes
    ]


def _corners(slopes: Sequence[DrawnSlope], pen: Pen) -> list[tuple[int, int]]:
    """The upper left corner of what each slope takes."""
    return list(shelve(_boxes(slopes, pen), pen.mm(_WIDTH)))


def _height(slopes: Sequence[DrawnSlope], pen: Pen) -> int:
    boxes = zip(_corners(slopes, pen), _boxes(slopes, pen), strict=True)
    return max(y + height for (_, y), (_, height) in boxes)


def _places(slopes: Sequence[DrawnSlope], pen: Pen) -> Iterator[tuple[int, int]]:
    """Where the left end of the eaves of each slope stands."""
    for slope, (x, y) in zip(slopes, _corners(slopes, pen), strict=True):
        left, _ = _reach(slope)
        yield x + pen.mm(_LEFT) - left, y + pen.mm(_ABOVE) + half_up(slope.slope.length)


def _reach(slope: DrawnSlope) -> tuple[int, int]:
    """How far left and right a slope goes."""
    ends = [half_up(u) for u, _ in slope.outline]
    return min(ends), max(ends)


def outlined(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """Yield the outline of a slope as SVG, its valleys as broken lines."""
    yield polygon(flipped(slope.outline), **pen.strong())
    for edge in slope.edges:
        if edge.kind is EdgeKind.VALLEY:
            yield line(*ends(edge.line), **pen.plain(stroke="white"), **pen.dashes("1.5"))


def written_round(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """The name above it, with its courses if there is room; its lower edge below."""
    up, along = half_up(slope.slope.length), half_up(slope.slope.eaves)
    left, right = _reach(slope)
    laid = show_amount(Decimal(len(slope.courses)), slope.laid_in)
    name = f"Slope {slope.number}: {laid}, {up:,} up"
    if len(name) * FIGURE * pen.size > right - left + pen.mm(_LEFT):
        name = f"Slope {slope.number}: {up:,} up"
    above = (left, -up - pen.size)
    yield text(above, name, pen.size, text_anchor="start", font_weight="600")
    words = f"{slope.edges[0].kind.value} {along:,}"
    yield text((slope.slope.eaves / 2, pen.size * 2), words, pen.size)


def mark(drawn: DrawnPiece, pen: Pen) -> str:
    """The mark in the middle of what shows of it, as large as there is room for."""
    heights = [v for _, v in drawn.exposed]
    middle = (min(heights) + max(heights)) / 2
    (u0, _), (u1, _) = across(drawn.exposed, middle)
    words = str(drawn.mark)
    room = min((u1 - u0) / len(words) / FIGURE, (max(heights) - min(heights)) * 3 / 4)
    size = min(pen.size, half_up(room))
    halo = {"stroke": "white", "stroke_width": str(size // 4), "paint_order": "stroke"}
    return text(((u0 + u1) / 2, Fraction(size, 3) - middle), words, size, **halo, font_weight="600")


def across(exposed: Polygon, height: Fraction) -> Line:
    """Where a line at a height crosses a figure that reaches higher and lower."""
    reach = [u for u, _ in exposed]
    crossed = clip_line(((min(reach), height), (max(reach), height)), exposed)
    assert crossed is not None  # noqa: S101  a figure with an area
    return crossed


def chalk_measures(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """The measure of every chalk line with a leader to the slope; close ones make room downward."""
    x, lowest = _reach(slope)[0] - pen.mm(3), None
    for chalk in reversed(slope.chalk_lines):
        y = -chalk.height if lowest is None else max(-chalk.height, lowest)
        lowest = y + pen.size
        words = f"{half_up(chalk.height):,}"
        yield text((x, y + Fraction(pen.size, 3)), words, pen.size, text_anchor="end")
        reached = (slope.slope.left(chalk.height), -chalk.height)
        yield line((x + pen.mm(1), y), reached, **pen.fine(), **pen.dashes("0.5"))


def ends(points: Line) -> tuple[Point, Point]:
    """The ends of a line with y downward."""
    start, end = flipped(points)
    return start, end


def flipped(points: Polygon) -> tuple[Point, ...]:
    """A polygon with y counted downward, as SVG does."""
    return tuple((u, -v) for u, v in points)
