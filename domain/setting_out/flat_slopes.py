"""A roof as the flat slopes it is made of.

A slope lies in its own plane: the eaves edge runs from (0, 0) to (eaves, 0), the top edge from
(inset, length) to (inset + top, length). Rectangles, the sides of a hip roof, triangles and slopes
that widen beside a valley are all of that shape. Lengths are exact millimetres.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from domain.exact import half_up_root
from domain.setting_out.kinds import FREE, EdgeKind, Finish, RoofForm
from domain.units import Angle


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of a slope."""

    kind: EdgeKind
    length: Fraction


@dataclass(frozen=True, slots=True)
class Slope:
    """One flat part of a roof."""

    eaves: Fraction
    length: Fraction
    """From the eaves to the top edge, up the slope."""
    top: Fraction
    """Length of the top edge; 0 for a triangle."""
    inset: Fraction
    """How far the left end of the top edge lies in from the left end of the eaves.

    Less than 0 where the slope widens beside a valley.
    """
    finish: Finish
    left_edge: EdgeKind = EdgeKind.VERGE
    right_edge: EdgeKind = EdgeKind.VERGE
    lower_edge: EdgeKind = EdgeKind.EAVES
    """A break under the upper slope of a barn roof."""
    beyond: Fraction = Fraction(0)
    """Of a slope that ends at a break: length of the slope above it."""
    pitch: Angle | None = None
    """Its own, where the roof has several."""

    def left(self, v: Fraction) -> Fraction:
        """Return where the left edge stands at height v; above the top it is produced."""
        return self.inset * v / self.length

    def right(self, v: Fraction) -> Fraction:
        """Return where the right edge stands at height v; above the top it is produced."""
        return self.eaves + (self.inset + self.top - self.eaves) * v / self.length

    @property
    def area(self) -> Fraction:
        """Square millimetres."""
        return (self.eaves + self.top) / 2 * self.length

    @property
    def right_inset(self) -> Fraction:
        """How far the right end of the top edge lies in from the right end of the eaves."""
        return self.eaves - self.inset - self.top

    @property
    def sides(self) -> tuple[Edge, Edge]:
        """Left and right edge."""
        return (
            Edge(self.left_edge, self._side(self.inset)),
            Edge(self.right_edge, self._side(self.right_inset)),
        )

    @property
    def edges(self) -> tuple[Edge, ...]:
        """Eaves, left, right and top edge; a triangle has no top edge."""
        around = (Edge(self.lower_edge, self.eaves), *self.sides)
        if self.finish is Finish.POINT:
            return around
        return (*around, Edge(EdgeKind(self.finish.value), self.top))

    @property
    def free_edges(self) -> tuple[Edge, ...]:
        """Eaves, left verge, right verge and top edge, those of them it has, in that order."""
        return tuple(edge for edge in self.edges if edge.kind in FREE)

    @property
    def strip_edges(self) -> tuple[Edge, ...]:
        """The edges that an edge strip lies along: the free ones, and a break that it begins at."""
        lower, *others = self.edges
        begins = lower.kind in FREE or lower.kind is EdgeKind.BREAK
        return (*[lower] * begins, *(edge for edge in others if edge.kind in FREE))

    def _side(self, offset: Fraction) -> Fraction:
        """Length of a side that leans in by the offset; to a micrometre, a straight one exactly."""
        return slant(self.length, offset) if offset else self.length


@dataclass(frozen=True, slots=True)
class Roof:
    """The slopes of a roof and the runs in which they meet."""

    form: RoofForm
    slopes: tuple[Slope, ...]
    ridge_runs: tuple[Fraction, ...]
    """Length of every ridge."""
    pitch: Angle | None
    """The least of all slopes; None if the measures do not give it."""
    cautions: tuple[str, ...] = ()
    """What the measures leave in doubt, each a sentence."""
    hip_runs: tuple[Fraction, ...] = ()
    """Length of every hip."""
    valley_runs: tuple[Fraction, ...] = ()
    """Length of every valley."""

    def is_steep(self, slope: Slope, degrees: int) -> bool:
        """Whether a slope is known to be steeper than so many degrees."""
        pitch = slope.pitch or self.pitch
        return pitch is not None and pitch.degrees > degrees

    @property
    def surfaces(self) -> tuple[tuple[int, Slope, Fraction | None], ...]:
        """What rolls are laid over as one: a slope, or two with a break between them.

        Each is the index of its lowest slope, itself, and how far up the break lies.
        """
        above = iter([slope for slope in self.slopes if slope.lower_edge is EdgeKind.BREAK])
        found: list[tuple[int, Slope, Fraction | None]] = []
        for index, slope in enumerate(self.slopes):
            if slope.finish is Finish.BREAK:
                upper = next(above)
                up = slope.length + upper.length
                whole = replace(slope, length=up, finish=upper.finish, beyond=Fraction(0))
                found.append((index, whole, slope.length))
            elif slope.lower_edge is not EdgeKind.BREAK:
                found.append((index, slope, None))
        return tuple(found)

    @property
    def area(self) -> Fraction:
        """Square millimetres, all slopes together."""
        return sum((slope.area for slope in self.slopes), Fraction(0))

    @property
    def closed_runs(self) -> tuple[Fraction, ...]:
        """Every ridge and hip: what pieces or a capping close."""
        return self.ridge_runs + self.hip_runs

    @property
    def valley(self) -> Fraction:
        """Millimetres of valley, each counted once."""
        return sum(self.valley_runs, Fraction(0))

    @property
    def flashing(self) -> Fraction:
        """Millimetres of flashing: every edge that stands against a wall."""
        return sum(
            (e.length for slope in self.slopes for e in slope.edges if e.kind is EdgeKind.ABUTMENT),
            Fraction(0),
        )


def slant(up: Fraction, across: Fraction) -> Fraction:
    """Return the length of what goes so far up and across a slope, to a micrometre."""
    return Fraction(half_up_root((up**2 + across**2) * 10**6), 10**3)
