"""A roof as an SVG in black and white, to a scale that suits a page of A4.

Its units are millimetres of roof. A hatch and a mark tell every cut piece; no colour does.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import count

from domain.drawing.figures import Line, Polygon, clip_line
from domain.drawing.sheet import shelve
from domain.drawing.values import Drawing, DrawnPiece, DrawnSlope
from domain.exact import half_up
from domain.setting_out.kinds import EdgeKind
from tui.papers.roof_signs import COVERED, HATCHES, Pen, defined, key
from tui.papers.svg import Point, line, polygon, text

_WIDTH, _HEIGHT = 180, 215
"""Millimetres of paper that a page has room for, its heading taken off."""
_LEFT, _RIGHT, _ABOVE, _BELOW = 14, 4, 7, 8
"""Millimetres of paper round a slope, for what is written there."""
_KEY = 12
"""Millimetres of paper below all slopes, for the key to the signs."""
_FIGURE = Fraction(62, 100)
"""What a letter takes along its line, against its size."""


def drawing_svg(drawing: Drawing) -> str:
    """Return the roof as a whole SVG, its slopes side by side as far as the page allows.

    Set as wide as 180 mm it has the scale that its key tells.
    """
    pen = next(pen for pen in map(Pen, count(5, 5)) if _fits(drawing, pen))
    slopes = zip(drawing.slopes, _places(drawing, pen), strict=True)
    parts = [_at(x, y, _slope(slope, pen)) for slope, (x, y) in slopes]
    foot = _height(drawing, pen)
    parts.append(_at(0, foot, key(pen)))
    box = f"0 0 {pen.mm(_WIDTH)} {foot + pen.mm(_KEY)}"
    look = 'font-family="Inter, sans-serif" stroke-linejoin="round"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {look}>'
    return f"{head}{defined(pen)}{''.join(parts)}</svg>\n"


def _at(x: int, y: int, parts: Iterator[str]) -> str:
    return f'<g transform="translate({x} {y})">{"".join(parts)}</g>\n'


def _fits(drawing: Drawing, pen: Pen) -> bool:
    """Whether the page has room for it at a scale."""
    widest = max(width for width, _ in _boxes(drawing, pen))
    return widest <= pen.mm(_WIDTH) and _height(drawing, pen) <= pen.mm(_HEIGHT - _KEY)


def _boxes(drawing: Drawing, pen: Pen) -> list[tuple[int, int]]:
    """How wide and high each slope is with what is written round it."""
    return [
        (
            _reach(slope)[1] - _reach(slope)[0] + pen.mm(_LEFT + _RIGHT),
            half_up(slope.slope.length) + pen.mm(_ABOVE + _BELOW),
        )
        for slope in drawing.slopes
    ]


def _corners(drawing: Drawing, pen: Pen) -> list[tuple[int, int]]:
    """The upper left corner of what each slope takes."""
    return list(shelve(_boxes(drawing, pen), pen.mm(_WIDTH)))


def _height(drawing: Drawing, pen: Pen) -> int:
    boxes = zip(_corners(drawing, pen), _boxes(drawing, pen), strict=True)
    return max(y + height for (_, y), (_, height) in boxes)


def _places(drawing: Drawing, pen: Pen) -> Iterator[tuple[int, int]]:
    """Where the left end of the eaves of each slope stands."""
    for slope, (x, y) in zip(drawing.slopes, _corners(drawing, pen), strict=True):
        left, _ = _reach(slope)
        yield x + pen.mm(_LEFT) - left, y + pen.mm(_ABOVE) + half_up(slope.slope.length)


def _reach(slope: DrawnSlope) -> tuple[int, int]:
    """How far left and right a slope goes."""
    ends = [half_up(u) for u, _ in slope.outline]
    return min(ends), max(ends)


def _slope(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """Edge strips beneath the pieces, what closes the slope over them, then all that is written.

    From the left end of the eaves; upward is less than 0.
    """
    pieces = [piece for course in slope.courses for piece in course.pieces if piece.exposed]
    for edge in slope.edges:
        if edge.has_strip:  # the pieces cover its inner half
            yield line(*_ends(edge.line), **pen.broad())
    for piece in pieces:
        yield from _piece(piece, pen)
    yield polygon(_flipped(slope.closed), fill=COVERED)
    for edge in slope.edges:
        for closing in edge.pieces:
            yield polygon(_flipped(closing), **pen.fine(stroke="#555555"), **pen.dashes("0.8"))
    yield polygon(_flipped(slope.outline), **pen.strong())
    for edge in slope.edges:
        if edge.kind is EdgeKind.VALLEY:
            yield line(*_ends(edge.line), **pen.plain(stroke="white"), **pen.dashes("1.5"))
    yield from (_mark(piece, pen) for piece in pieces if piece.mark)
    yield from _written_round(slope, pen)
    yield from _chalk(slope, pen)


def _piece(drawn: DrawnPiece, pen: Pen) -> Iterator[str]:
    """White first: a hatch is seen through."""
    corners = _flipped(drawn.exposed)
    hatch = HATCHES.get(drawn.piece.kind) if drawn.mark else None
    yield polygon(corners, fill="white")
    yield polygon(corners, **pen.plain() | ({"fill": f"url(#{hatch})"} if hatch else {}))
    for cut_out in drawn.cut_outs:
        yield line(*_ends(cut_out), **pen.fine())


def _mark(drawn: DrawnPiece, pen: Pen) -> str:
    """The mark in the middle of what shows of a piece, as large as there is room for."""
    heights = [v for _, v in drawn.exposed]
    middle = (min(heights) + max(heights)) / 2
    (u0, _), (u1, _) = _across(drawn.exposed, middle)
    words = str(drawn.mark)
    room = min((u1 - u0) / len(words) / _FIGURE, (max(heights) - min(heights)) * 3 / 4)
    size = min(pen.size, half_up(room))
    halo = {"stroke": "white", "stroke_width": str(size // 4), "paint_order": "stroke"}
    return text(((u0 + u1) / 2, Fraction(size, 3) - middle), words, size, **halo, font_weight="600")


def _across(exposed: Polygon, height: Fraction) -> Line:
    """Where a line at a height crosses a figure that reaches higher and lower."""
    reach = [u for u, _ in exposed]
    crossed = clip_line(((min(reach), height), (max(reach), height)), exposed)
    assert crossed is not None  # noqa: S101  a figure with an area
    return crossed


def _written_round(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """The name above it and the measure of its lower edge below."""
    up, along = half_up(slope.slope.length), half_up(slope.slope.eaves)
    left, right = _reach(slope)
    name = f"Slope {slope.number}: {len(slope.courses)} courses, {up:,} up"
    if len(name) * _FIGURE * pen.size > right - left + pen.mm(_LEFT):
        name = f"Slope {slope.number}: {up:,} up"
    above = (left, -up - pen.size)
    yield text(above, name, pen.size, text_anchor="start", font_weight="600")
    words = f"{slope.edges[0].kind.value} {along:,}"
    yield text((slope.slope.eaves / 2, pen.size * 2), words, pen.size)


def _chalk(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """The measure of every chalk line with a leader to the slope; close ones make room downward."""
    x, lowest = _reach(slope)[0] - pen.mm(3), None
    for chalk in reversed(slope.chalk_lines):
        y = -chalk.height if lowest is None else max(-chalk.height, lowest)
        lowest = y + pen.size
        words = f"{half_up(chalk.height):,}"
        yield text((x, y + Fraction(pen.size, 3)), words, pen.size, text_anchor="end")
        reached = (slope.slope.left(chalk.height), -chalk.height)
        yield line((x + pen.mm(1), y), reached, **pen.fine(), **pen.dashes("0.5"))


def _ends(points: Line) -> tuple[Point, Point]:
    start, end = _flipped(points)
    return start, end


def _flipped(points: Polygon) -> tuple[Point, ...]:
    """The same with y downward, as SVG counts."""
    return tuple((u, -v) for u, v in points)
