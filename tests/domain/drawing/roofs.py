"""Roofs to draw: some set out by hand, and random ones."""

from collections.abc import Iterable
from fractions import Fraction
from functools import cache, partial

from hypothesis import assume
from hypothesis import strategies as st
from shapely import Polygon as Area

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import plan_cuts
from domain.drawing.figures import Polygon
from domain.errors import Refused
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off_shingles
from tests.strategies import shingles, slopes

_HIPS = (EdgeKind.HIP, EdgeKind.HIP)

by_hand = partial(plan_cuts, time_limit_s=0)
"""A cut plan that is not the fewest, and at hand at once."""


@cache
def apex() -> ShingleTakeOff:
    """The two slopes of a shed of 2.4 × 1.8 m with its overhangs."""
    eaves, length = Fraction(2520), Fraction(1062)
    slope = Slope(eaves, length, eaves, Fraction(0), Finish.RIDGE)
    return take_off_shingles(Roof(RoofForm.APEX, (slope, slope), (eaves,), None), SQUARE_BUTT)


@cache
def hip() -> ShingleTakeOff:
    """The trapezoids and triangles of a summerhouse of 3.6 × 2.4 m."""
    inset, length = Fraction(1300), Fraction(1501)
    side = Slope(Fraction(3800), length, Fraction(1200), inset, Finish.RIDGE, *_HIPS)
    end = Slope(Fraction(2600), length, Fraction(0), inset, Finish.POINT, *_HIPS)
    runs = (Fraction(1200), *[Fraction("1985.7")] * 4)
    return take_off_shingles(Roof(RoofForm.APEX, (side, side, end, end), runs, None), HEXAGONAL)


@st.composite
def takeoffs(draw: st.DrawFn) -> ShingleTakeOff:
    """Give the take-off of one or two slopes of any shape."""
    roof = Roof(RoofForm.APEX, tuple(draw(st.lists(slopes(), min_size=1, max_size=2))), (), None)
    try:
        return take_off_shingles(roof, draw(shingles()), plan_cuts=by_hand)
    except Refused:
        assume(False)
        raise


def area(polygon: Polygon) -> Area:
    """As shapely has it."""
    return Area([(float(u), float(v)) for u, v in polygon])


def areas(polygons: Iterable[Polygon]) -> list[Area]:
    """Of those that have any."""
    return [area(polygon) for polygon in polygons if polygon]
