"""The roof on page one of the paper that goes up the ladder: like slopes once, courses numbered.

The chalk line of a course stands beside the course itself, not at its own height, where another
course shows. Nothing is written smaller than can be read at arm's length. Units are millimetres of
roof; a :class:`Pen` tells what they are on paper.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import count
from textwrap import wrap

from domain.drawing.drawing_parts import DrawnCourse, DrawnPiece, DrawnSlope
from domain.drawing.side_by_side import shelve
from domain.exact import half_up
from domain.papers.blocks import Picture
from domain.quantity import show_amount
from domain.setting_out.kinds import EdgeKind
from tui.roof.svg_elements import line, polygon, text
from tui.roof.svg_page import FIGURE, across, ends, flipped, outlined
from tui.roof.svg_signs import COVERED, Pen

_WIDTH, _LOWEST = 180, 56
_HIGHEST = (84, 114, 150)
"""Millimetres of paper at most, its key included: how wide, how high beside the longest chalk
lines, and else for one slope, for two, and for more, below which nothing has room on the page."""
_ACROSS, _MEASURE, _NAME = 5, 8, 7
"""Chalk lines in a row above it; what a row and the name of its slopes take, mm of paper."""
_LEAST, _MOST = Fraction("3.2"), Fraction("4.95")
"""Millimetres of paper that a figure is set in: 9 points, and 14 where there is room."""
_SQUEEZED = Fraction(2, 3)
"""Of its height, what a mark can still be read in, over the lines round it."""
_ABOVE, _BELOW, _KEY = 8, 6, 11
"""Millimetres of paper above and below a slope, and below all."""
_BESIDE = 7
"""Millimetres of paper beside a slope for the marks of pieces too narrow to write in."""
_CLEAR = 1
"""Millimetres of paper between a mark and the ends of its piece, together: an edge is broad."""
_PLAN = (34, 36)
"""Millimetres of paper that the roof from above takes."""
_CAPTION, _TOLD = 23, 15
"""Letters in a row below it, and millimetres for three rows of them."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    """How large everything is."""

    picture: Picture
    pen: Pen

    @property
    def label(self) -> int:
        """The size of what stands beside a course: as large as its exposure allows."""
        shown = min(slope.exposure for slope in self.picture.drawing.slopes)
        room = half_up(shown * Fraction(9, 10))
        return min(max(self.pen.mm(_LEAST), room), self.pen.mm(_MOST))

    @property
    def left(self) -> int:
        """What stands at the left of a slope: the number of a course and its chalk line."""
        return half_up(10 * FIGURE * self.label) + self.pen.mm(_BESIDE)

    @property
    def boxes(self) -> list[tuple[int, int]]:
        """How wide and high every slope is with all round it; second, the roof from above."""
        mm = self.pen.mm
        slopes = [self._box(*each) for each in self.named]
        return [slopes[0], (mm(_PLAN[0]), mm(_PLAN[1])), *slopes[1:]]

    @property
    def named(self) -> list[tuple[DrawnSlope, str]]:
        """Every slope with its name and its courses."""
        told = zip(self.picture.drawing.slopes, self.picture.names, strict=True)
        return [
            (slope, f"{name}: {show_amount(Decimal(len(slope.courses)), slope.laid_in)}")
            for slope, name in told
        ]

    def _box(self, slope: DrawnSlope, name: str) -> tuple[int, int]:
        mm = self.pen.mm
        wide = _reach(slope)[1] - _reach(slope)[0] + self.left + mm(_BESIDE)
        written = half_up((len(name) + 1) * FIGURE * mm(_MOST))
        return max(wide, min(written, mm(_WIDTH))), half_up(slope.slope.length) + mm(
            _ABOVE + _BELOW
        )

    @property
    def corners(self) -> list[tuple[int, int]]:
        """Where each box stands."""
        return list(shelve(self.boxes, self.pen.mm(_WIDTH)))

    @property
    def height(self) -> int:
        """Of all boxes together."""
        boxes = zip(self.corners, self.boxes, strict=True)
        return max(y + height for (_, y), (_, height) in boxes)

    @property
    def room(self) -> int:
        """Millimetres of paper that the chalk lines above it leave, two rows of them expected."""
        lines = {
            tuple(course.set_to for course in slope.courses)
            for slope in self.picture.drawing.slopes
        }
        rows = sum(-(-len(each) // _ACROSS) for each in lines)
        high = _HIGHEST[min(len(self.picture.names), len(_HIGHEST)) - 1]
        return max(_LOWEST, high - (rows - 2) * _MEASURE - (len(lines) - 1) * _NAME)

    @property
    def fits(self) -> bool:
        """Whether the page has room for it."""
        widest = max(width for width, _ in self.boxes)
        high = self.pen.mm(self.room - _KEY)
        return widest <= self.pen.mm(_WIDTH) and self.height <= high


def site_svg(picture: Picture) -> str:
    """Return the picture as a whole SVG; set as wide as 180 mm it has the scale that it tells."""
    sheets = (_Sheet(picture, Pen(scale)) for scale in count(10, 5))
    sheet = next(sheet for sheet in sheets if sheet.fits)
    mm, foot = sheet.pen.mm, sheet.height
    (first, above, *others), painted = sheet.corners, [_slope(*each, sheet) for each in sheet.named]
    parts = [_at(place, each) for place, each in zip((first, *others), painted, strict=True)]
    parts.append(_at(above, _plan(picture, sheet.pen)))
    parts.append(_at((0, foot), _key(sheet)))
    box = f"0 0 {mm(_WIDTH)} {foot + mm(_KEY)}"
    look = 'font-family="Inter, sans-serif" stroke-linejoin="round"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {look}>'
    return f"{head}{''.join(parts)}</svg>\n"


def _at(place: tuple[int, int], parts: Iterator[str]) -> str:
    return f'<g transform="translate({place[0]} {place[1]})">{"".join(parts)}</g>\n'


def _reach(slope: DrawnSlope) -> tuple[int, int]:
    """How far left and right a slope goes."""
    corners = [half_up(u) for u, _ in slope.outline]
    return min(corners), max(corners)


def _slope(slope: DrawnSlope, name: str, sheet: _Sheet) -> Iterator[str]:
    """One slope in its box, whose upper left corner is 0, 0."""
    pen = sheet.pen
    origin = (
        sheet.left - _reach(slope)[0],
        pen.mm(_ABOVE) + half_up(slope.slope.length),
    )
    yield text((0, pen.mm(5)), name, pen.mm(_MOST), text_anchor="start", font_weight="600")
    yield _at(origin, _laid(slope, sheet))


def _laid(slope: DrawnSlope, sheet: _Sheet) -> Iterator[str]:
    """A slope from the left end of its eaves; upward is less than 0."""
    pen = sheet.pen
    pieces = [piece for course in slope.courses for piece in course.pieces if piece.exposed]
    for edge in slope.edges:
        if edge.has_strip:  # the pieces cover its inner half
            yield line(*ends(edge.line), **pen.broad())
    for piece in pieces:
        yield from _piece(piece, pen)
    if slope.closed:
        yield polygon(flipped(slope.closed), fill=COVERED)
    for edge in slope.edges:
        for closing in edge.pieces:
            yield polygon(flipped(closing), **pen.fine(stroke="#555555"), **pen.dashes("0.8"))
    yield from outlined(slope, pen)
    yield from (mark for piece in pieces if (mark := _mark(piece, slope, pen)))
    yield from _beside(slope, sheet)
    kind = slope.edges[0].kind.value
    words = f"{kind} {half_up(slope.slope.eaves):,}"
    yield text((slope.slope.eaves / 2, pen.mm(5)), words, pen.mm(Fraction("3.6")))


def _piece(drawn: DrawnPiece, pen: Pen) -> Iterator[str]:
    yield polygon(flipped(drawn.exposed), **pen.plain(fill="#ededed" if drawn.mark else "white"))
    for cut_out in drawn.cut_outs:
        yield line(*ends(cut_out), **pen.fine())


def _mark(drawn: DrawnPiece, slope: DrawnSlope, pen: Pen) -> str:
    """Its pile in the middle of what shows of it, or beside the slope where that is too narrow.

    Nothing where it could be read in neither.
    """
    if drawn.mark is None:
        return ""
    words, least = str(drawn.mark), pen.mm(_LEAST)
    heights = [v for _, v in drawn.exposed]
    middle = (min(heights) + max(heights)) / 2
    (u0, _), (u1, _) = across(drawn.exposed, middle)
    wide = (u1 - u0 - pen.mm(_CLEAR)) / len(words) / FIGURE
    high = max(heights) - min(heights)
    if high < least * _SQUEEZED:
        return ""
    look = {"stroke": "white", "paint_order": "stroke", "font_weight": "600"}
    if wide < least:
        return _mark_beside(words, (u0, u1), middle, slope, pen, look)
    size = min(max(least, half_up(min(wide, high * 3 / 4))), pen.mm(_MOST))
    place = ((u0 + u1) / 2, Fraction(size, 3) - middle)
    return text(place, words, size, stroke_width=str(size // 5), **look)


def _mark_beside(
    words: str,
    ends: tuple[Fraction, Fraction],
    middle: Fraction,
    slope: DrawnSlope,
    pen: Pen,
    look: dict[str, str],
) -> str:
    """The pile of a narrow piece, outside the end of the course that it stands at."""
    size, gap = pen.mm(_LEAST), pen.mm(Fraction("1.4"))
    low = Fraction(size, 3) - middle
    if ends[0] <= slope.slope.left(middle) + 1:
        place, anchor = (ends[0] - gap, low), "end"
    elif ends[1] >= slope.slope.right(middle) - 1:
        place, anchor = (ends[1] + gap, low), "start"
    else:
        return ""
    return text(place, words, size, stroke_width=str(size // 5), text_anchor=anchor, **look)


def _beside(slope: DrawnSlope, sheet: _Sheet) -> Iterator[str]:
    """The number of each course and its chalk line, beside the course; close ones take turns."""
    every = -(-sheet.label * 4 // 5 // max(1, half_up(slope.exposure)))
    for place, course in enumerate(slope.courses):
        if place % max(1, every) == 0:
            yield from _label(slope, course, sheet)


def _label(slope: DrawnSlope, course: DrawnCourse, sheet: _Sheet) -> Iterator[str]:
    pen, size = sheet.pen, sheet.label
    middle = (max(course.butt, Fraction(0)) + course.top) / 2
    reached = slope.slope.left(middle)
    x, y = _reach(slope)[0] - pen.mm(_BESIDE), Fraction(size, 3) - middle
    told = f"{half_up(course.set_to):,}".replace("-", "−")
    yield text((x, y), told, size, text_anchor="end")
    number = half_up(x - 7 * FIGURE * size)
    yield text((number, y), str(course.number), size, text_anchor="end", font_weight="700")
    near = reached - pen.mm(_BESIDE - 1)  # room for the mark of a narrow piece
    if near > x + pen.mm(3):
        yield line((x + pen.mm(1), -middle), (near, -middle), **pen.fine(), **pen.dashes("0.5"))


def _plan(picture: Picture, pen: Pen) -> Iterator[str]:
    """The roof from above, to be marked; without its shape room to sketch it."""
    wide, high = _PLAN
    room = high - _TOLD
    plan, size = picture.plan, pen.mm(_LEAST)
    if plan is None:
        box = [(pen.mm(4), pen.mm(1)), (pen.mm(wide), pen.mm(1))]
        box += [(pen.mm(wide), pen.mm(room)), (pen.mm(4), pen.mm(room))]
        yield polygon(box, **pen.plain(), **pen.dashes("1"))
        told = "Sketch it from above here. Slope numbers, gate, north."
    else:
        unit = pen.mm(min(Fraction(room), Fraction(wide - 6) / plan.width))
        for slope in plan.slopes:
            corners = [
                (pen.mm(4) + x * unit, unit - y * unit + pen.mm(1)) for x, y in slope.corners
            ]
            yield polygon(corners, **pen.plain())
            middle = [sum(each) / len(corners) for each in zip(*corners, strict=True)]
            place = (middle[0], middle[1] + pen.mm(Fraction("1.7")))
            yield text(place, str(slope.number), pen.mm(_MOST), font_weight="700")
        told = "From above. Write in the gate and north."
    if picture.slope_one:
        told = f"{told.partition('.')[0]}. Slope 1 looks to {picture.slope_one}."
    rows = wrap(told, _CAPTION, max_lines=3, placeholder=" …")
    for row, words in enumerate(rows):
        y = pen.mm(high) - size - (len(rows) - 1 - row) * size * 6 // 5
        yield text((pen.mm(4), y), words, size, text_anchor="start")


def _key(sheet: _Sheet) -> Iterator[str]:
    """What the signs mean, and the scale."""
    pen, size = sheet.pen, sheet.pen.mm(_LEAST)
    slopes = sheet.picture.drawing.slopes
    laid_in = slopes[0].laid_in
    its_line = "the line its TOP edge goes to" if laid_in == "course" else "its chalk line"
    at_left = f"At the left: {laid_in}, and {its_line}. Scale 1 : {pen.scale}."
    marks = (
        "A1: from pile A1. Not marked: a whole strip. Broad edge: edge strip."
        if laid_in == "course"
        else "2a: length a of roll 2. Dashed: capping, laid last."
    )
    if any(edge.kind is EdgeKind.VALLEY for slope in slopes for edge in slope.edges):
        marks += " Dashed edge: valley."
    yield text((0, pen.mm(4)), at_left, size, text_anchor="start")
    yield text((0, pen.mm(8)), marks, size, text_anchor="start")
