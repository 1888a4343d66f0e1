"""Pent, lean-to and apex: equal rectangles."""

from fractions import Fraction

from domain.errors import Refused
from domain.setting_out.checks import overhang, side
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import Finish
from domain.setting_out.measures import RoofMeasures
from domain.setting_out.rafter import rafter_of


def pent(measures: RoofMeasures) -> Roof:
    """Build one slope up to a free high edge."""
    over_top = overhang("top_overhang", measures.top_overhang)
    return _equal_slopes(measures, 1, Finish.TOP, over_top)


def lean_to(measures: RoofMeasures) -> Roof:
    """Build one slope up to a wall."""
    return _equal_slopes(measures, 1, Finish.ABUTMENT, Fraction(0))


def apex(measures: RoofMeasures) -> Roof:
    """Build two equal slopes that meet at a ridge."""
    return _equal_slopes(measures, 2, Finish.RIDGE, Fraction(0))


def eaves_length(measures: RoofMeasures) -> Fraction:
    """Return the eaves from edge to edge: as taped, or the length and both verge overhangs."""
    if measures.eaves_length:
        return side("eaves_length", measures.eaves_length)
    if measures.length is None:
        raise Refused("length", "", "Give the length, or tape the eaves length.")
    over = overhang("verge_overhang", measures.verge_overhang)
    return side("length", measures.length) + 2 * over


def _equal_slopes(measures: RoofMeasures, count: int, finish: Finish, over_top: Fraction) -> Roof:
    """Build so many equal rectangles that share the span between them."""
    eaves = eaves_length(measures)
    run = side("span", measures.span) / count if measures.span else None
    over = overhang("eaves_overhang", measures.eaves_overhang) + over_top
    rafter = rafter_of(measures, run, over)
    pitch = rafter.angle()
    slope = Slope(eaves, rafter.length(), top=eaves, inset=Fraction(0), finish=finish)
    ridges = (eaves,) if finish is Finish.RIDGE else ()
    return Roof(measures.form, (slope,) * count, ridges, pitch, tuple(rafter.cautions()))
