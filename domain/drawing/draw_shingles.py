"""Pieces of shingles drawn where they lie."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import groupby, pairwise
from math import ceil, floor

from domain.coverings.shingle import Shingle
from domain.cutting.plan import Piece
from domain.drawing.drawing_parts import ChalkLine, Drawing, DrawnCourse, DrawnPiece, DrawnSlope
from domain.drawing.edges import drawn_edges
from domain.drawing.figures import Line, Polygon, clip, clip_line, rectangle
from domain.drawing.marks import Mark
from domain.drawing.slopes import across, band, outline_of
from domain.setting_out.courses import Courses
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import Finish
from domain.takeoff.roof_takeoff import ShingleTakeOff

_TOPS = {
    Finish.RIDGE: "ridge",
    Finish.TOP: "edge strip over the top",
    Finish.ABUTMENT: "flashing",
    Finish.BREAK: "bent on over the break",
    Finish.POINT: "",
}


def draw_pieces(
    takeoff: ShingleTakeOff, pieces: Iterable[Piece], marked: Mapping[Piece, Mark]
) -> Drawing:
    """Draw the pieces given, by slope, course and from left to right, with their marks."""
    by_slope = groupby(pieces, key=lambda piece: piece.slope)
    laid = {slope: tuple(pieces) for slope, pieces in by_slope}
    slopes = tuple(
        _slope(index, slope, courses, laid[index], marked, takeoff.covering)
        for index, (slope, courses) in enumerate(
            zip(takeoff.roof.slopes, takeoff.courses, strict=True)
        )
    )
    return Drawing(takeoff, slopes)


def _slope(
    index: int,
    slope: Slope,
    courses: Courses,
    pieces: Iterable[Piece],
    marked: Mapping[Piece, Mark],
    shingle: Shingle,
) -> DrawnSlope:
    outline = outline_of(slope)
    drawn = tuple(
        _course(number, courses, tuple(laid), slope, marked, shingle)
        for number, laid in groupby(pieces, key=lambda piece: piece.course)
    )
    lines = (ChalkLine(height, across(slope, outline, height)) for height in courses.chalk_lines)
    return DrawnSlope(
        number=index + 1,
        slope=slope,
        exposure=courses.exposure,
        outline=outline,
        courses=drawn,
        closed=clip(band(slope, drawn[-1].top, slope.length), outline),
        chalk_lines=tuple(lines),
        edges=drawn_edges(slope, outline, shingle, from_right=index % 2 == 1),
        laid_in="course",
        top_words=_TOPS[slope.finish],
    )


def _course(
    number: int,
    courses: Courses,
    pieces: tuple[Piece, ...],
    slope: Slope,
    marked: Mapping[Piece, Mark],
    shingle: Shingle,
) -> DrawnCourse:
    butt = courses.butt(number)
    last = number == courses.count
    top = butt + (courses.final_exposure if last else courses.exposure)
    outline = outline_of(slope)
    start = max(slope.left(butt), slope.left(top))
    end = min(slope.right(butt), slope.right(top))

    def shown(piece: Piece) -> DrawnPiece:
        exposed = rectangle(piece.u0, butt, piece.u1, top)
        # Most pieces lie clear of both edges: clipping them would take most of the time.
        is_clear = start <= piece.u0 and piece.u1 <= end
        if shingle.foot < 1:
            if is_clear:
                found = tuple(_clear_notches(piece, butt, top, shingle))
                return DrawnPiece(piece, exposed, (), marked.get(piece), found)
            exposed = clip(exposed, outline)
            notches = (clip(notch, exposed) for notch in _notches(piece, butt, shingle))
            found = tuple(filter(None, notches)) if exposed else ()
            return DrawnPiece(piece, exposed, (), marked.get(piece), found)
        cut_outs = tuple(_cut_outs(piece, butt, top, shingle))
        if not is_clear:
            exposed, cut_outs = clip(exposed, outline), _on_slope(cut_outs, outline)
        return DrawnPiece(piece, exposed, cut_outs, marked.get(piece))

    joints = (((a.u1, butt), (a.u1, top)) for a, _ in pairwise(pieces))
    return DrawnCourse(
        number=number,
        butt=butt,
        top=top,
        set_to=courses.chalk_lines[number - 1],
        pieces=tuple(shown(piece) for piece in pieces),
        joints=_on_slope(joints, outline),
    )


def _cut_outs(piece: Piece, butt: Fraction, top: Fraction, shingle: Shingle) -> Iterator[Line]:
    """Give the cut-outs strictly inside a piece, as far up as they show."""
    offset = shingle.half_tab if piece.course % 2 else Fraction(0)
    above = min(butt + shingle.cut_out, top)
    first = floor((piece.u0 - offset) / shingle.tab) + 1
    for line in range(first, ceil((piece.u1 - offset) / shingle.tab)):
        u = offset + line * shingle.tab
        yield (u, butt), (u, above)


def _notches(piece: Piece, butt: Fraction, shingle: Shingle) -> Iterator[Polygon]:
    """Give what is cut away between the tabs of a piece and at its ends, wide at the butt."""
    offset = shingle.half_tab if piece.course % 2 else Fraction(0)
    half = shingle.tab * (1 - shingle.foot) / 2
    first = floor((piece.u0 - half - offset) / shingle.tab) + 1
    for line in range(first, ceil((piece.u1 + half - offset) / shingle.tab)):
        u = offset + line * shingle.tab
        yield (u - half, butt), (u + half, butt), (u, butt + shingle.cut_out)


def _clear_notches(
    piece: Piece, butt: Fraction, top: Fraction, shingle: Shingle
) -> Iterator[Polygon]:
    """The same of a piece that shows whole, up to the butt above it."""
    up = min(top, butt + shingle.cut_out)
    narrows = 1 - (up - butt) / shingle.cut_out
    for notch in _notches(piece, butt, shingle):
        (left, _), (right, _), (middle, _) = notch
        high = (right - left) / 2 * narrows
        begins, ends = max(left, piece.u0), min(right, piece.u1)
        if begins not in (left, middle) or ends not in (right, middle):
            cut = clip(notch, rectangle(piece.u0, butt, piece.u1, up))
            if cut:
                yield cut
            continue
        upper_right = (min(middle + high, ends), up)
        upper_left = (max(middle - high, begins), up)
        yield (begins, butt), (ends, butt), upper_right, upper_left


def _on_slope(lines: Iterable[Line], outline: Polygon) -> tuple[Line, ...]:
    clipped = (clip_line(line, outline) for line in lines)
    return tuple(line for line in clipped if line)
