"""A roof as the flat slopes it is made of, from what was measured.

A slope lies in its own plane: the eaves edge runs from (0, 0) to (eaves, 0), the top edge from
(inset, length) to (inset + top, length). Rectangles, the sides of a hip roof and triangles are all
of that shape. Lengths are exact millimetres.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import acos, atan2, degrees

from domain.errors import Refused
from domain.exact import cosine, half_up, half_up_root
from domain.units import Angle, Length, show_mm

_LEAST_SIDE = 100  # mm; a side under it was typed in metres without saying so
_MOST_SIDE = 100_000  # mm; no shed slope is longer
_MOST_OVERHANG = 1000  # mm
_STEEPEST = 85  # degrees
_AT_ODDS = Fraction(1, 2)  # degrees between pitch and rise that are told of; common practice


class Form(StrEnum):
    """The shapes of roof that can be set out."""

    PENT = "pent"
    LEAN_TO = "lean-to"
    APEX = "apex"


class EdgeKind(StrEnum):
    """What stands along an edge of a slope."""

    EAVES = "eaves"
    VERGE = "verge"
    HIP = "hip"
    TOP = "top"


class Finish(StrEnum):
    """How a slope ends at the top."""

    RIDGE = "ridge"
    TOP = "top"
    """The high edge of a pent."""
    ABUTMENT = "abutment"
    """Against a wall, under a flashing."""
    POINT = "point"
    """A triangle, closed by the hip pieces."""


@dataclass(frozen=True, slots=True)
class RoofMeasures:
    """What was measured. None always means: not measured."""

    form: Form
    length: Length | None = None
    """Of the building along the ridge or the eaves, on plan."""
    span: Length | None = None
    """Of the building across, on plan."""
    rise: Length | None = None
    """Over the span of a pent or lean-to, over half the span of an apex."""
    pitch: Angle | None = None
    """Wins over the rise."""
    slope_length: Length | None = None
    """Taped up the slope from edge to edge; wins over what pitch or rise give."""
    eaves_length: Length | None = None
    """Taped along the eaves from edge to edge; wins over length and verge overhang."""
    eaves_overhang: Length | None = None
    """On plan, as all overhangs; not measured counts as none."""
    verge_overhang: Length | None = None
    top_overhang: Length | None = None
    """At the high edge; a pent alone has one."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One free edge of a slope: nothing stands against it and nothing covers it."""

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
    """How far the left end of the top edge lies in from the left end of the eaves."""
    finish: Finish
    left_edge: EdgeKind = EdgeKind.VERGE
    right_edge: EdgeKind = EdgeKind.VERGE

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
    def free_edges(self) -> tuple[Edge, ...]:
        """Eaves, left verge, right verge and top edge, those of them it has, in that order."""
        lean = self.eaves - self.inset - self.top
        edges = [Edge(EdgeKind.EAVES, self.eaves)]
        for kind, offset in ((self.left_edge, self.inset), (self.right_edge, lean)):
            if kind is EdgeKind.VERGE:
                edges.append(Edge(kind, self._side(offset)))
        if self.finish is Finish.TOP:
            edges.append(Edge(EdgeKind.TOP, self.top))
        return tuple(edges)

    def _side(self, offset: Fraction) -> Fraction:
        """Length of a side that leans in by the offset; to a micrometre, a straight one exactly."""
        if not offset:
            return self.length
        return Fraction(half_up_root((self.length**2 + offset**2) * 10**6), 10**3)


@dataclass(frozen=True, slots=True)
class Roof:
    """The slopes of a roof and the runs that close it."""

    form: Form
    slopes: tuple[Slope, ...]
    ridge_runs: tuple[Fraction, ...]
    """Length of every ridge and hip."""
    pitch: Angle | None
    """None if the measures do not give it."""
    cautions: tuple[str, ...] = ()
    """What the measures leave in doubt, each a sentence."""

    @property
    def area(self) -> Fraction:
        """Square millimetres, all slopes together."""
        return sum((slope.area for slope in self.slopes), Fraction(0))


def build_roof(measures: RoofMeasures) -> Roof:
    """Make the slopes of a roof from its measures.

    Raises :class:`Refused`, naming the field as a form shows it, if a measure is missing, absurd or
    contradicts another.
    """
    return _BUILDERS[measures.form](measures)


def _pent(measures: RoofMeasures) -> Roof:
    """Build one slope up to a free high edge."""
    over_top = _overhang("Top overhang", measures.top_overhang)
    return _equal_slopes(measures, 1, Finish.TOP, over_top)


def _lean_to(measures: RoofMeasures) -> Roof:
    """Build one slope up to a wall."""
    return _equal_slopes(measures, 1, Finish.ABUTMENT, Fraction(0))


def _apex(measures: RoofMeasures) -> Roof:
    """Build two equal slopes that meet at a ridge."""
    return _equal_slopes(measures, 2, Finish.RIDGE, Fraction(0))


_BUILDERS: Mapping[Form, Callable[[RoofMeasures], Roof]] = {
    Form.PENT: _pent,
    Form.LEAN_TO: _lean_to,
    Form.APEX: _apex,
}


def _equal_slopes(measures: RoofMeasures, count: int, finish: Finish, over_top: Fraction) -> Roof:
    """Build so many equal rectangles that share the span between them."""
    eaves = _eaves_length(measures)
    run = _side("Span", measures.span) / count if measures.span else None
    plan = run + _overhang("Eaves overhang", measures.eaves_overhang) + over_top if run else None
    pitch = _pitch(measures, run, plan)
    length = _slope_length(measures, run, plan)
    slope = Slope(eaves=eaves, length=length, top=eaves, inset=Fraction(0), finish=finish)
    ridges = (eaves,) if finish is Finish.RIDGE else ()
    cautions = tuple(_cautions(measures, length, run, plan))
    return Roof(measures.form, (slope,) * count, ridges, pitch, cautions)


def _eaves_length(measures: RoofMeasures) -> Fraction:
    """Return the eaves from edge to edge: as taped, or the length and both verge overhangs."""
    if measures.eaves_length:
        return _side("Eaves length", measures.eaves_length)
    if measures.length is None:
        raise Refused("Length", "", "Give the length, or tape the eaves length.")
    over = _overhang("Verge overhang", measures.verge_overhang)
    return _side("Length", measures.length) + 2 * over


def _slope_length(measures: RoofMeasures, run: Fraction | None, plan: Fraction | None) -> Fraction:
    """Return the slope length as taped, or from pitch or rise, to the whole millimetre half up.

    ``run`` is what the rise is measured over, ``plan`` the same with the overhangs.
    """
    if measures.slope_length:
        return _side("Slope length", measures.slope_length)
    if run is None or plan is None:
        raise Refused("Span", "", "Give the span, or tape the slope length.")
    if measures.pitch:
        length = half_up(plan / cosine(measures.pitch.degrees))
    elif measures.rise:
        length = half_up_root(plan**2 * (1 + (measures.rise.mm / run) ** 2))
    else:
        raise Refused("Pitch", "", "Give the pitch or the rise, or tape the slope length.")
    if length > _MOST_SIDE:
        shown = show_mm(Fraction(length))
        raise Refused("Slope length", shown, "Put span and pitch right: 100 m is the most.")
    return Fraction(length)


def _pitch(measures: RoofMeasures, run: Fraction | None, plan: Fraction | None) -> Angle | None:
    """Return the pitch as given, or from the rise, or from the taped slope length, if they tell.

    An angle that is worked out is only shown and held against limits, so a float serves.
    """
    rise, taped = measures.rise, measures.slope_length
    if rise and rise.mm <= 0:
        raise Refused("Rise", rise.typed, "A roof needs a pitch: give a rise of more than 0.")
    if measures.pitch:
        return _within_limits("Pitch", measures.pitch.typed, measures.pitch)
    if rise and run:
        found = _worked_out(atan2(rise.mm, run), "the rise")
        return _within_limits("Rise", rise.typed, found)
    if taped and plan and taped.mm > plan:
        found = _worked_out(acos(plan / taped.mm), "the slope length")
        return _within_limits("Slope length", taped.typed, found)
    return None


def _worked_out(radians: float, source: str) -> Angle:
    """Make an angle to a millionth of a degree that tells what it comes from."""
    angle = degrees(radians)
    return Angle(Fraction(round(angle * 10**6), 10**6), f"{angle:.2f}°, from {source}")


def _within_limits(field: str, typed: str, pitch: Angle) -> Angle:
    """Return the pitch, or refuse the field it comes from."""
    if pitch.degrees <= 0:
        raise Refused(field, typed, "A roof needs a pitch: give more than 0°.")
    if pitch.degrees > _STEEPEST:
        raise Refused(field, typed, f"Give what makes a pitch of {_STEEPEST}° or less.")
    return pitch


def _cautions(
    measures: RoofMeasures, length: Fraction, run: Fraction | None, plan: Fraction | None
) -> Iterator[str]:
    """Tell of measures that contradict: a taped slope wins, and the pitch over a rise."""
    if plan is not None and length <= plan:
        yield (
            f"Slope length {show_mm(length)} is no more than the {show_mm(plan)} that span and "
            "overhangs cover on plan: tape it again."
        )
    pitch, rise = measures.pitch, measures.rise
    if pitch and rise and run:
        risen = _worked_out(atan2(rise.mm, run), "the rise")
        if abs(risen.degrees - pitch.degrees) > _AT_ODDS:
            yield f"Pitch {pitch.typed} is at odds with {risen.typed}: the pitch counts."


def _side(field: str, length: Length) -> Fraction:
    """Return the millimetres of a side of the roof, refused if no roof is that short or long."""
    if length.mm < _LEAST_SIDE:
        remedy = f"Give {_LEAST_SIDE} mm or more; a number without a unit is read as millimetres."
        raise Refused(field, length.typed, remedy)
    if length.mm > _MOST_SIDE:
        raise Refused(field, length.typed, "Give 100 m or less.")
    return length.mm


def _overhang(field: str, length: Length | None) -> Fraction:
    """Return the millimetres of an overhang, none if it was not measured."""
    if length is None:
        return Fraction(0)
    if not 0 <= length.mm <= _MOST_OVERHANG:
        raise Refused(field, length.typed, f"Give an overhang from 0 to {_MOST_OVERHANG} mm.")
    return length.mm
