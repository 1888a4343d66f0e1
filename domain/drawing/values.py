"""What a drawing of a roof holds.

A slope is looked at from its own eaves. A piece is drawn as far as it shows: from its butt to the
butt of the course above, and no further than the slope goes. Lengths are exact millimetres.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from domain.cutting.plan import Piece
from domain.drawing.figures import Line, Polygon
from domain.drawing.marks import Mark
from domain.setting_out.courses import Courses
from domain.setting_out.kinds import EdgeKind
from domain.setting_out.values import Slope
from domain.takeoff.take_off import ShingleTakeOff


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece of a course as far as it shows."""

    piece: Piece
    exposed: Polygon
    """Empty where the next course hides it: by an edge that leans out, a narrow piece."""
    cut_outs: tuple[Line, ...]
    """Each from its foot up."""
    mark: Mark | None
    """None for a strip that is laid as it comes."""


@dataclass(frozen=True, slots=True)
class DrawnCourse:
    """One course as far as it shows."""

    number: int
    """1 is at the eaves."""
    butt: Fraction
    top: Fraction
    """The butt of the next course; of the last, where the finish begins to cover."""
    pieces: tuple[DrawnPiece, ...]
    """From left to right."""
    joints: tuple[Line, ...]
    """Between its pieces, each from its foot up."""


@dataclass(frozen=True, slots=True)
class ChalkLine:
    """A line struck at the top edge of a course, which the courses above hide."""

    height: Fraction
    """Up from the eaves."""
    line: Line | None
    """From left to right; None at the point of a triangle."""


@dataclass(frozen=True, slots=True)
class DrawnEdge:
    """One side of a slope."""

    kind: EdgeKind
    line: Line
    has_strip: bool
    """Whether an edge strip lies along it."""
    pieces: tuple[Polygon, ...]
    """The half of each ridge or hip piece that lies on this slope; the closing piece not shown."""


@dataclass(frozen=True, slots=True)
class DrawnSlope:
    """One slope, looked at from its eaves."""

    number: int
    """From 1, in the roof's order."""
    slope: Slope
    laid: Courses
    outline: Polygon
    courses: tuple[DrawnCourse, ...]
    """From the eaves up."""
    closed: Polygon
    """What the finish covers, above the last course laid."""
    chalk_lines: tuple[ChalkLine, ...]
    edges: tuple[DrawnEdge, ...]
    """Eaves, right, top if it has one, left."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole roof."""

    takeoff: ShingleTakeOff
    """What it was drawn from; its cut list has the strips that marks tell of."""
    slopes: tuple[DrawnSlope, ...]

    @property
    def pieces(self) -> Iterator[DrawnPiece]:
        """Every piece, by slope, course and from left to right."""
        return (
            piece for slope in self.slopes for course in slope.courses for piece in course.pieces
        )
