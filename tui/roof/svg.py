"""A roof as an SVG in black and white, to a scale that suits a page of A4.

Its units are millimetres of roof. A hatch and a mark tell every cut piece; no colour does.
"""

from collections.abc import Iterator

from domain.drawing.drawing_parts import Drawing, DrawnPiece, DrawnSlope
from domain.drawing.figures import Polygon, sides
from domain.takeoff.felt_takeoff import FeltTakeOff
from tui.roof.svg_elements import line, polygon
from tui.roof.svg_page import (
    chalk_measures,
    ends,
    flipped,
    mark,
    outlined,
    roof_on_page,
    written_round,
)
from tui.roof.svg_signs import COVERED, HATCHES, Pen, defined, drawing_key, felt_key


def drawing_svg(drawing: Drawing) -> str:
    """Return the roof as a whole SVG; set as wide as 180 mm it has the scale that its key tells."""
    if isinstance(drawing.takeoff, FeltTakeOff):
        return roof_on_page(drawing.slopes, _slope, felt_key)
    return roof_on_page(drawing.slopes, _slope, drawing_key, defined)


def _slope(slope: DrawnSlope, pen: Pen) -> Iterator[str]:
    """Edge strips beneath the pieces, what closes the slope over them, then all that is written."""
    pieces = [piece for course in slope.courses for piece in course.pieces if piece.exposed]
    for edge in slope.edges:
        if edge.has_strip:  # the pieces cover its inner half
            yield line(*ends(edge.line), **pen.broad())
    for piece in pieces:
        yield from _piece(piece, pen)
    for piece in pieces:  # once all are drawn: a notch lies over the side of the piece beside it
        for notch in piece.notches:
            yield from _notch(notch, pen)
    if slope.closed:
        yield polygon(flipped(slope.closed), fill=COVERED)
    for edge in slope.edges:
        for closing in edge.pieces:
            yield polygon(flipped(closing), **pen.fine(stroke="#555555"), **pen.dashes("0.8"))
    yield from outlined(slope, pen)
    yield from (mark(piece, pen) for piece in pieces if piece.mark)
    yield from written_round(slope, pen)
    yield from chalk_measures(slope, pen)


def _notch(notch: Polygon, pen: Pen) -> Iterator[str]:
    """What is cut away between two tabs, and the slanting sides of both."""
    yield polygon(flipped(notch), **pen.plain() | {"fill": "white", "stroke": "white"})
    for side in sides(notch):
        (u0, v0), (u1, v1) = side
        if u0 != u1 and v0 != v1:
            yield line(*ends(side), **pen.plain())


def _piece(drawn: DrawnPiece, pen: Pen) -> Iterator[str]:
    """White first: a hatch is seen through."""
    corners = flipped(drawn.exposed)
    kind = drawn.piece.kind
    hatch = HATCHES.get(kind) if kind and drawn.mark else None
    yield polygon(corners, fill="white")
    yield polygon(corners, **pen.plain() | ({"fill": f"url(#{hatch})"} if hatch else {}))
    for cut_out in drawn.cut_outs:
        yield line(*ends(cut_out), **pen.fine())
