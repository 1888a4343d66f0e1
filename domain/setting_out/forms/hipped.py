"""Hip and pyramid: trapezoids and triangles that meet at hips."""

from fractions import Fraction

from domain.errors import Refused
from domain.exact import tangent
from domain.setting_out.checks import overhang, side
from domain.setting_out.closing import gaps, meetings
from domain.setting_out.flat_slopes import Roof, Slope, slant
from domain.setting_out.kinds import EdgeKind, Finish
from domain.setting_out.measures import RoofMeasures
from domain.setting_out.rafter import rafter_of
from domain.units import show_mm

_FEWEST_SIDES = 3
_MOST_SIDES = 12


def hip(measures: RoofMeasures) -> Roof:
    """Build two trapezoids along the ridge and two triangles at its ends, all of one pitch.

    A square one has no ridge: all four end in a point.
    """
    over = overhang("eaves_overhang", measures.eaves_overhang)
    along, across = _walls(measures, over)
    ridge = along - across
    rafter = rafter_of(measures, across / 2, over)
    pitch, up = rafter.angle(), rafter.length()
    sides = _between_hips(_long_eaves(measures, along, over, ridge), up, ridge)
    ends = _between_hips(across + 2 * over, up, Fraction(0))
    hip_of_side = next(meetings(1, sides, EdgeKind.HIP))
    hip_of_end = next(meetings(3, ends, EdgeKind.HIP))
    return Roof(
        measures.form,
        (sides, sides, ends, ends),
        ridge_runs=(ridge,) if ridge else (),
        pitch=pitch,
        cautions=(*rafter.cautions(), *gaps([(hip_of_side, hip_of_end)], "the eaves length")),
        hip_runs=(slant(up, across / 2 + over),) * 4,
    )


def pyramid(measures: RoofMeasures) -> Roof:
    """Build as many equal triangles as the plan has sides, all equal."""
    count, along = _count(measures.sides), measures.side
    if along is None:
        raise Refused("side", "", "Give one side along the eaves, overhang included.")
    eaves = side("side", along)
    apothem = eaves / (2 * tangent(Fraction(180, count)))
    rafter = rafter_of(measures, apothem, Fraction(0))
    pitch, up = rafter.angle(), rafter.length()
    triangle = _between_hips(eaves, up, Fraction(0))
    return Roof(
        measures.form,
        (triangle,) * count,
        ridge_runs=(),
        pitch=pitch,
        cautions=tuple(rafter.cautions()),
        hip_runs=(slant(up, eaves / 2),) * count,
    )


def _walls(measures: RoofMeasures, over: Fraction) -> tuple[Fraction, Fraction]:
    """Return length and span; the length from the eaves where those alone were taped."""
    if measures.span is None:
        raise Refused("span", "", "Give the span: the ends of a hip roof are as long as that.")
    across = side("span", measures.span)
    if measures.length:
        along = side("length", measures.length)
    elif measures.eaves_length:
        along = side("eaves_length", measures.eaves_length) - 2 * over
    else:
        raise Refused("length", "", "Give the length, or tape the eaves length.")
    if across > along:
        remedy = f"It is longer than the ridge side ({show_mm(along)}): swap length and span."
        raise Refused("span", measures.span.typed, remedy)
    return along, across


def _long_eaves(
    measures: RoofMeasures, along: Fraction, over: Fraction, ridge: Fraction
) -> Fraction:
    """Return the eaves of the long sides, as taped or over the length; never under the ridge."""
    if measures.eaves_length is None:
        return along + 2 * over
    eaves = side("eaves_length", measures.eaves_length)
    if eaves < ridge:
        remedy = f"The ridge alone is {show_mm(ridge)}: check length and span too."
        raise Refused("eaves_length", measures.eaves_length.typed, remedy)
    return eaves


def _between_hips(eaves: Fraction, up: Fraction, top: Fraction) -> Slope:
    """Return a slope between two equal hips."""
    finish = Finish.RIDGE if top else Finish.POINT
    inset = (eaves - top) / 2
    return Slope(eaves, up, top, inset, finish, EdgeKind.HIP, EdgeKind.HIP)


def _count(sides: int | None) -> int:
    """Return how many sides a pyramid has."""
    if sides is None or not _FEWEST_SIDES <= sides <= _MOST_SIDES:
        remedy = f"Give how many sides the roof has, from {_FEWEST_SIDES} to {_MOST_SIDES}."
        raise Refused("sides", "" if sides is None else sides, remedy)
    return sides
