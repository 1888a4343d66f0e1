"""Hypothesis strategies for the values of the domain."""

from fractions import Fraction

from hypothesis import settings
from hypothesis import strategies as st

from domain.setting_out.coverings import SHINGLES, Shingle
from domain.setting_out.roof import EdgeKind, Finish, Slope
from domain.units import Length

# Nothing here is held against a clock: the machine may be busy, and the first example loads pint.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

INCH = Fraction("25.4")


def millimetres(least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Give whole millimetres, thirds and sixty-fourths of them, and eighths of an inch."""
    return st.one_of(
        st.integers(least, most).map(Fraction),
        st.fractions(least, most, max_denominator=64),
        st.integers(least * 8 // 25 + 1, most * 8 // 26).map(lambda n: n * INCH / 8),
    )


def lengths(least: int, most: int) -> st.SearchStrategy[Length]:
    """Give typed lengths."""
    return millimetres(least, most).map(lambda mm: Length(mm, f"{mm} mm"))


def shingles() -> st.SearchStrategy[Shingle]:
    """Give the shingles that the trade stocks."""
    return st.sampled_from(list(SHINGLES.values()))


@st.composite
def rectangles(draw: st.DrawFn) -> Slope:
    """Give slopes of pents, lean-tos and apexes that any covering has room on."""
    eaves = draw(millimetres(400, 8000))
    finish = draw(st.sampled_from([Finish.RIDGE, Finish.TOP, Finish.ABUTMENT]))
    return Slope(eaves, draw(millimetres(500, 6000)), eaves, Fraction(0), finish)


@st.composite
def hip_sides(draw: st.DrawFn) -> Slope:
    """Give trapezoids and triangles between two hips, not always symmetrical."""
    top = draw(st.one_of(st.just(Fraction(0)), millimetres(400, 4000)))
    left, right = draw(millimetres(400, 3000)), draw(millimetres(400, 3000))
    finish = Finish.RIDGE if top else Finish.POINT
    length = draw(millimetres(700, 6000))
    return Slope(top + left + right, length, top, left, finish, EdgeKind.HIP, EdgeKind.HIP)


@st.composite
def widening(draw: st.DrawFn) -> Slope:
    """Give slopes that widen upward at both verges."""
    eaves, length = draw(millimetres(400, 4000)), draw(millimetres(700, 6000))
    left, right = draw(millimetres(1, 1000)), draw(millimetres(1, 1000))
    return Slope(eaves, length, eaves + left + right, -left, Finish.RIDGE)


def slopes() -> st.SearchStrategy[Slope]:
    """Give slopes of every shape."""
    return st.one_of(rectangles(), hip_sides(), widening())
