"""Hypothesis strategies for the values of the domain.

Slopes are of up to some 18 courses: more of them would only take longer to reckon.
"""

from fractions import Fraction
from functools import cache

from hypothesis import strategies as st

from domain.coverings.registry import SHINGLES
from domain.coverings.shingle import Shingle
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from domain.units import Angle, Length

INCH = Fraction("25.4")


@cache
def millimetres(least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Give whole millimetres, thirds and sixty-fourths of them, and eighths of an inch."""
    return st.one_of(
        st.integers(least, most).map(Fraction),
        st.fractions(least, most, max_denominator=64),
        st.integers(least * 8 // 25 + 1, most * 8 // 26).map(lambda n: n * INCH / 8),
    )


@cache
def lengths(least: int, most: int) -> st.SearchStrategy[Length]:
    """Give typed lengths."""
    return millimetres(least, most).map(lambda mm: Length(mm, f"{mm} mm"))


@cache
def shingles() -> st.SearchStrategy[Shingle]:
    """Give the shingles that the trade stocks."""
    return st.sampled_from(list(SHINGLES.values()))


@st.composite
def rectangles(draw: st.DrawFn) -> Slope:
    """Give slopes of pents, lean-tos and apexes that any covering has room on."""
    eaves = draw(millimetres(400, 5000))
    finish = draw(st.sampled_from([Finish.RIDGE, Finish.TOP, Finish.ABUTMENT]))
    return Slope(eaves, draw(millimetres(500, 2500)), eaves, Fraction(0), finish)


@st.composite
def hip_sides(draw: st.DrawFn) -> Slope:
    """Give trapezoids and triangles between two hips, not always symmetrical."""
    top = draw(st.one_of(st.just(Fraction(0)), millimetres(400, 2500)))
    left, right = draw(millimetres(400, 1500)), draw(millimetres(400, 1500))
    finish = Finish.RIDGE if top else Finish.POINT
    length = draw(millimetres(700, 2500))
    return Slope(top + left + right, length, top, left, finish, EdgeKind.HIP, EdgeKind.HIP)


@st.composite
def widening(draw: st.DrawFn) -> Slope:
    """Give slopes that widen upward at both verges."""
    eaves, length = draw(millimetres(400, 3000)), draw(millimetres(700, 2500))
    left, right = draw(millimetres(1, 1000)), draw(millimetres(1, 1000))
    return Slope(eaves, length, eaves + left + right, -left, Finish.RIDGE)


def slopes() -> st.SearchStrategy[Slope]:
    """Give slopes of every shape."""
    return st.one_of(rectangles(), hip_sides(), widening())


def _typed(mm: Fraction | int) -> Length:
    return Length(Fraction(mm), f"{mm} mm")


@st.composite
def uneven_roofs(draw: st.DrawFn) -> RoofMeasures:
    """Give offset apexes and barns."""
    runs = [draw(lengths(200, 1500)) for _ in range(2)]
    rises = [draw(lengths(200, 1500)) for _ in range(2)]
    walls = {"length": draw(lengths(600, 4000)), "eaves_overhang": draw(lengths(0, 200))}
    names = draw(st.sampled_from([("front", "back"), ("lower", "upper")]))
    sides = {
        f"{name}_{what}": measure
        for what, two in (("run", runs), ("rise", rises))
        for name, measure in zip(names, two, strict=True)
    }
    form = RoofForm.BARN if "lower" in names else RoofForm.OFFSET_APEX
    return RoofMeasures(form, **walls, **sides)  # type: ignore[arg-type]  # lengths by their names


@st.composite
def hipped_roofs(draw: st.DrawFn) -> RoofMeasures:
    """Give hip roofs, some of them square, and pyramids."""
    pitch = Angle(Fraction(draw(st.integers(15, 60))), "")
    if draw(st.booleans()):
        sides = draw(st.integers(3, 12))
        return RoofMeasures(
            RoofForm.PYRAMID, sides=sides, side=draw(lengths(700, 2500)), pitch=pitch
        )
    span = draw(lengths(900, 3000))
    more = draw(st.one_of(st.just(Fraction(0)), millimetres(1, 2000)))
    return RoofMeasures(
        RoofForm.HIP,
        length=_typed(span.mm + more),
        span=span,
        pitch=pitch,
        eaves_overhang=draw(lengths(0, 200)),
    )


@st.composite
def taped_roofs(draw: st.DrawFn) -> RoofMeasures:
    """Give two wings that meet in a valley, one of them against a wall."""
    inset, up = draw(millimetres(100, 900)), _typed(draw(millimetres(600, 2500)))
    first, second = (draw(millimetres(400, 2500)) for _ in range(2))
    left = TapedSlope(
        _typed(first),
        up,
        Finish.RIDGE,
        top=_typed(first + inset),
        inset=_typed(0),
        left_edge=EdgeKind.ABUTMENT,
        right_edge=EdgeKind.VALLEY,
    )
    right = TapedSlope(
        _typed(second),
        up,
        draw(st.sampled_from([Finish.RIDGE, Finish.ABUTMENT, Finish.TOP])),
        top=_typed(second + inset),
        inset=_typed(-inset),
        left_edge=EdgeKind.VALLEY,
    )
    return RoofMeasures(RoofForm.SLOPES, slopes=(left, right))


@st.composite
def level_roofs(draw: st.DrawFn) -> RoofMeasures:
    """Give pents, lean-tos and apexes."""
    return RoofMeasures(
        draw(st.sampled_from([RoofForm.PENT, RoofForm.LEAN_TO, RoofForm.APEX])),
        length=draw(lengths(600, 4000)),
        span=draw(lengths(1000, 3000)),
        rise=draw(lengths(300, 900)),
        verge_overhang=draw(lengths(0, 200)),
    )


def roof_measures() -> st.SearchStrategy[RoofMeasures]:
    """Give the measures of roofs of every form that shingles can be laid on."""
    return st.one_of(level_roofs(), uneven_roofs(), hipped_roofs(), taped_roofs())
