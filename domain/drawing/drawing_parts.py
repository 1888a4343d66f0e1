"""What a drawing of a roof holds.

A slope is looked at from its own eaves. A piece is drawn as far as it shows: from its butt to the
butt of the course above, and no further than the slope goes. Lengths are exact millimetres.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from domain.cutting.plan import PieceKind
from domain.cutting.working import WorkingPlan
from domain.drawing.figures import Line, Polygon
from domain.drawing.marks import Mark
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind
from domain.takeoff.roof_takeoff import TakeOff


class Laid(Protocol):
    """A piece of a course of shingles, or a length in a row of felt, where it is laid."""

    @property
    def kind(self) -> PieceKind | None:
        """What a strip is cut to for it; None of a length of felt."""

    @property
    def slope(self) -> int:
        """From 0, in the roof's order."""

    @property
    def course(self) -> int:
        """The course or row, 1 at the eaves."""

    @property
    def u0(self) -> Fraction:
        """Left end, from the slope's left eaves corner."""

    @property
    def u1(self) -> Fraction:
        """Right end; of a length, where the next laps over it."""

    @property
    def length(self) -> Fraction:
        """Millimetres, as it is cut."""


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece or length as far as it shows."""

    piece: Laid
    exposed: Polygon
    """Empty where the next course hides it: by an edge that leans out, a narrow piece."""
    cut_outs: tuple[Line, ...]
    """Each from its foot up."""
    mark: Mark | None
    """None for a strip that is laid as it comes."""
    notches: tuple[Polygon, ...] = ()
    """Of tabs whose sides slant, in place of cut-outs: where the course beneath shows through."""


@dataclass(frozen=True, slots=True)
class DrawnCourse:
    """One course, or row of felt, as far as it shows."""

    number: int
    """1 is at the eaves."""
    butt: Fraction
    """Its lower edge; less than 0 is turned down."""
    top: Fraction
    """The butt of the next course; of the last, where the finish begins to cover."""
    set_to: Fraction
    """The height it is laid to: the chalk line at its upper edge, or in felt its lower edge."""
    pieces: tuple[DrawnPiece, ...]
    """From left to right."""
    joints: tuple[Line, ...]
    """Between its pieces, each from its foot up."""


@dataclass(frozen=True, slots=True)
class ChalkLine:
    """A line struck where a course ends or a row of felt begins; what is laid later hides it."""

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
    """Whether an edge strip lies along it; never in felt."""
    pieces: tuple[Polygon, ...]
    """The half of each ridge or hip piece that lies on this slope; the closing piece not shown.

    In felt, the half of the capping.
    """


@dataclass(frozen=True, slots=True)
class DrawnSlope:
    """One slope, looked at from its eaves."""

    number: int
    """From 1, in the roof's order."""
    slope: Slope
    exposure: Fraction
    """From the lower edge of one course or row to that of the next."""
    outline: Polygon
    courses: tuple[DrawnCourse, ...]
    """From the eaves up: courses of shingles, or rows of felt."""
    closed: Polygon
    """What the finish covers, above the last course laid; empty in felt, which runs up under it."""
    chalk_lines: tuple[ChalkLine, ...]
    edges: tuple[DrawnEdge, ...]
    """Eaves, right, top if it has one, left."""
    laid_in: str
    """What one of its courses is called: "course", in felt "row"."""
    top_words: str
    """What closes it at the top; empty at a point."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole roof."""

    takeoff: TakeOff
    """What it was drawn from; its rolls, or the plan, have what marks tell of."""
    slopes: tuple[DrawnSlope, ...]
    plan: WorkingPlan | None = None
    """By which its strips are cut and laid; None in felt."""

    @property
    def pieces(self) -> Iterator[DrawnPiece]:
        """Every piece or length, by slope, course and from left to right."""
        return (
            piece for slope in self.slopes for course in slope.courses for piece in course.pieces
        )
