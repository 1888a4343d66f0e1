"""A roof in felt drawn from its take-off: every length as far as it shows, and the capping.

Every row is begun at its left end, with what is left of the roll the row before was cut from.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from domain.coverings.felt import Felt
from domain.drawing.drawing_parts import ChalkLine, Drawing, DrawnCourse, DrawnPiece, DrawnSlope
from domain.drawing.edges import drawn_edges
from domain.drawing.figures import clip, clip_line, rectangle
from domain.drawing.marks import Mark, each_letter
from domain.drawing.slopes import across, outline_of
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import Finish
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.rolls import RollRow
from domain.takeoff.runs import RunPiece

_TOPS = {
    Finish.RIDGE: "capping over the ridge",
    Finish.TOP: "turned down over the top",
    Finish.ABUTMENT: "flashing",
    Finish.BREAK: "on over the break",
    Finish.POINT: "",
}


@dataclass(frozen=True, slots=True)
class FeltLength:
    """A length of a row, where it is laid; lengths with what is turned down."""

    slope: int
    course: int
    u0: Fraction
    u1: Fraction
    """Where the next length laps over it, or the end of the row."""
    length: Fraction
    """As it is cut off the roll: with what the next length laps over."""

    @property
    def kind(self) -> None:
        """No strip is cut for it."""


def draw_felt(takeoff: FeltTakeOff) -> Drawing:
    """Draw every length of a roof in felt where it lies, marked with its roll and a letter."""
    letters: defaultdict[int, Iterator[str]] = defaultdict(each_letter)
    marked = (
        (Mark(piece.stock, next(letters[piece.stock])), piece)
        for piece in takeoff.lay.lengths.pieces
    )
    by_row = (tuple(row) for _, row in groupby(marked, key=lambda each: each[1].run))
    laid = [[(row, next(by_row)) for row in rows] for rows in takeoff.lay.sheets]
    above = iter([(at, laid[n]) for n, _, at in takeoff.roof.surfaces if at is not None])
    slopes = []
    for index, slope in enumerate(takeoff.roof.slopes):
        rows = laid[index]
        if not rows:  # it begins at a break: its rows are those of the slope below
            at, below = next(above)
            rows = [(replace(row, low=row.low - at), cut) for row, cut in below]
            rows = [each for each in rows if each[0].low + takeoff.covering.width > 0]
        slopes.append(_slope(index, slope, rows, takeoff.covering))
    return Drawing(takeoff, tuple(slopes))


_Cut = Sequence[tuple[Mark, RunPiece]]


def _slope(
    index: int, slope: Slope, rows: Sequence[tuple[RollRow, _Cut]], felt: Felt
) -> DrawnSlope:
    outline = outline_of(slope)
    lows = [row.low for row, _ in rows]
    tops = (*lows[1:], slope.length)
    return DrawnSlope(
        number=index + 1,
        slope=slope,
        exposure=felt.width - felt.side_lap,
        outline=outline,
        courses=tuple(
            _row(index, slope, row, top, cut) for (row, cut), top in zip(rows, tops, strict=True)
        ),
        closed=(),
        chalk_lines=tuple(
            ChalkLine(low, across(slope, outline, low))
            for low in lows[1:]
            if 0 < low < slope.length
        ),
        edges=drawn_edges(slope, outline, felt, from_right=index % 2 == 1),
        laid_in="row",
        top_words=_TOPS[slope.finish],
    )


def _row(index: int, slope: Slope, row: RollRow, top: Fraction, cut: _Cut) -> DrawnCourse:
    pieces = tuple(_sheets(index, slope, row, top, cut))
    joints = (((drawn.piece.u0, row.low), (drawn.piece.u0, top)) for drawn in pieces[1:])
    clipped = (clip_line(joint, outline_of(slope)) for joint in joints)
    return DrawnCourse(
        number=row.number,
        butt=row.low,
        top=top,
        set_to=row.low,
        pieces=pieces,
        joints=tuple(joint for joint in clipped if joint),
    )


def _sheets(
    index: int, slope: Slope, row: RollRow, top: Fraction, cut: _Cut
) -> Iterator[DrawnPiece]:
    """Give the lengths of a row; each laps over the one before it."""
    ends = (*(piece.start for _, piece in cut[1:]), row.length)
    for (mark, piece), end in zip(cut, ends, strict=True):
        u0, u1 = row.left + piece.start, row.left + end
        shown = clip(rectangle(u0, row.low, u1, top), outline_of(slope))
        yield DrawnPiece(FeltLength(index, row.number, u0, u1, piece.length), shown, (), mark)
