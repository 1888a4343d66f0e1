"""Slopes taped one by one: any roof that is none of the named forms."""

from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from domain.errors import Refused
from domain.setting_out.checks import side, within_limits
from domain.setting_out.closing import gaps, joints, run_lengths
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.setting_out.measures import FINISHES, SIDES, RoofMeasures, TapedSlope
from domain.units import Length

K = TypeVar("K", bound=StrEnum)

_MOST_SLOPES = 24
"""No shed has more; a file that gives thousands was not written by hand."""


def slopes(measures: RoofMeasures) -> Roof:
    """Build a roof of the slopes as they were taped; ridges, hips and valleys follow from them."""
    taped = measures.slopes
    if not taped:
        raise Refused("slopes", "", "Give the slopes one by one.")
    if len(taped) > _MOST_SLOPES:
        raise Refused("slopes", len(taped), f"Give {_MOST_SLOPES} or fewer.")
    built = tuple(slope_of(slope, number) for number, slope in enumerate(taped, start=1))
    pitch = measures.pitch and within_limits("pitch", measures.pitch.typed, measures.pitch)
    ridges, hips, valleys = (
        joints(built, kind) for kind in (EdgeKind.RIDGE, EdgeKind.HIP, EdgeKind.VALLEY)
    )
    return Roof(
        measures.form,
        built,
        run_lengths(ridges),
        pitch,
        cautions=tuple(gaps((*ridges, *hips, *valleys))),
        hip_runs=run_lengths(hips),
        valley_runs=run_lengths(valleys),
    )


def slope_of(taped: TapedSlope, number: int | None = None) -> Slope:
    """Build one slope.

    Raises :class:`Refused` for what makes none, its field with the slope's number if it is given.
    """
    eaves = side(_field("eaves", number), taped.eaves)
    length = side(_field("length", number), taped.length)
    finish = _one_of(_field("finish", number), taped.finish, FINISHES)
    top = _top(taped, finish, eaves, number)
    built = Slope(
        eaves,
        length,
        top,
        _inset(taped, eaves, top, number),
        finish,
        _one_of(_field("left_edge", number), taped.left_edge, SIDES),
        _one_of(_field("right_edge", number), taped.right_edge, SIDES),
    )
    _refuse_widening(built, taped, number)
    return built


def _top(taped: TapedSlope, finish: Finish, eaves: Fraction, number: int | None) -> Fraction:
    """Return the length of the top edge: none at a point, and only there."""
    field, point = _field("top", number), finish is Finish.POINT
    if taped.top is None:
        return Fraction(0) if point else eaves
    if point and taped.top.mm:
        raise Refused(field, taped.top.typed, "A slope that ends in a point has none: give 0.")
    if point:
        return Fraction(0)
    if not taped.top.mm:
        raise Refused(field, taped.top.typed, "Give its length, or point as the finish.")
    return side(field, taped.top)


def _inset(taped: TapedSlope, eaves: Fraction, top: Fraction, number: int | None) -> Fraction:
    """Return the inset, none where it can be told from the top."""
    if taped.inset is not None:
        return taped.inset.mm
    if top != eaves:
        remedy = "Give how far the left end of the top lies in from that of the eaves; 0 is one."
        raise Refused(_field("inset", number), "", remedy)
    return Fraction(0)


def _refuse_widening(slope: Slope, taped: TapedSlope, number: int | None) -> None:
    """Refuse a slope that leans out at a side where there is no valley."""
    leans = (
        ("inset", taped.inset, slope.inset, slope.left_edge, "left"),
        ("top", taped.top, slope.right_inset, slope.right_edge, "right"),
    )
    for name, measure, inset, edge, where in leans:
        if inset < 0 and edge is not EdgeKind.VALLEY:
            remedy = f"The slope may widen upward only beside a valley: it has none on the {where}."
            raise Refused(_field(name, number), _typed(measure), remedy)


def _one_of(field: str, value: K, known: tuple[K, ...]) -> K:
    """Return a value that is one of those known."""
    if value not in known:
        raise Refused(field, value, f"Give {', '.join(known[:-1])} or {known[-1]}.")
    return value


def _field(name: str, number: int | None) -> str:
    """The id of the field, with the slope that it belongs to among several."""
    return name if number is None else f"slope {number}, {name}"


def _typed(measure: Length | None) -> str:
    return "" if measure is None else measure.typed
