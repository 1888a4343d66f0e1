"""Rows to cut: set out from slopes by hand, or drawn at random."""

import math
from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.setting_out.courses import Row

SHINGLES = (SQUARE_BUTT, HEXAGONAL)


def rectangle(slope: int, shingle: Shingle, *, eaves: Fraction, courses: int) -> list[Row]:
    """The rows of a rectangular slope of so many courses."""
    none = Fraction(0)
    return [
        Row(slope, k, none, eaves, shingle.half_tab if k % 2 else none, none, none)
        for k in range(1, courses + 1)
    ]


def hipped(slope: int, shingle: Shingle, *, eaves: int, top: int, length: int) -> list[Row]:
    """The rows of a slope between two equal hips; one that ends in a point has no ``top``.

    Ridge or hip pieces cover half a tab at its top, and its courses are all exposed alike.
    """
    span = length - shingle.half_tab
    courses = 1 + math.ceil((span - shingle.final_gauge) / shingle.gauge)
    rows = []
    for k in range(1, courses + 1):
        butt = (k - 1) * span / courses
        u0, nailed = (
            Fraction(eaves - top, 2) * v / length for v in (butt, butt + shingle.nailed_at)
        )
        offset = shingle.half_tab if k % 2 else Fraction(0)
        if top or eaves - 2 * u0 > shingle.tab:
            rows.append(Row(slope, k, u0, eaves - u0, offset, nailed - u0, nailed - u0))
    return rows


def hip_roof(shingle: Shingle, *, eaves: tuple[int, int], ridge: int, length: int) -> list[Row]:
    """The rows of two trapezoids and two triangles."""
    long, short = eaves
    slopes = [(long, ridge), (long, ridge), (short, 0), (short, 0)]
    return [
        row
        for slope, (along, top) in enumerate(slopes)
        for row in hipped(slope, shingle, eaves=along, top=top, length=length)
    ]


def spans(shingle: Shingle, least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Lengths of any number of millimetres, inches, or quarters of a tab, where ends just fit."""
    quarter = shingle.tab / 4
    return st.one_of(
        st.integers(least, most).map(Fraction),
        st.integers(least * 10 // 254 + 1, most * 10 // 254).map(lambda n: n * Fraction("25.4")),
        st.integers(math.ceil(least / quarter), int(most / quarter)).map(lambda n: n * quarter),
    )


@st.composite
def rectangular_roofs(draw: st.DrawFn) -> tuple[list[Row], Shingle, int]:
    """Rows of one to four rectangles, their shingle and a number of ridge pieces."""
    shingle = draw(st.sampled_from(SHINGLES))
    slopes = draw(
        st.lists(st.tuples(spans(shingle, 150, 9000), st.integers(1, 25)), min_size=1, max_size=4)
    )
    rows = [
        row
        for slope, (eaves, courses) in enumerate(slopes)
        for row in rectangle(slope, shingle, eaves=eaves, courses=courses)
    ]
    return rows, shingle, draw(st.integers(0, 60))


@st.composite
def hip_like_roofs(draw: st.DrawFn) -> tuple[list[Row], Shingle, int]:
    """Rows with ends anywhere, some of whose width is lost where they are nailed."""
    shingle = draw(st.sampled_from(SHINGLES))
    rows = draw(st.lists(ragged_rows(shingle, most=5000), min_size=1, max_size=16))
    return _in_courses(rows), shingle, draw(st.integers(0, 40))


@st.composite
def small_roofs(draw: st.DrawFn) -> tuple[list[Row], Shingle, int]:
    """Up to four rows, some of them alike, of strips with one to five tabs."""
    tabs = draw(st.sampled_from((4, 3, 4, 3, 1, 2, 5)))
    shingle = replace(SQUARE_BUTT, tabs=tabs)
    kinds = draw(st.lists(ragged_rows(shingle, most=2600), min_size=1, max_size=4))
    rows = draw(st.lists(st.sampled_from(kinds), min_size=1, max_size=4))
    return _in_courses(rows), shingle, draw(st.integers(0, 9))


@st.composite
def small_hips(draw: st.DrawFn) -> tuple[list[Row], Shingle, int]:
    """Up to three neighbouring courses of a slope between hips, some of them on its twin too."""
    shingle = draw(st.sampled_from(SHINGLES))
    eaves, top = draw(st.integers(400, 2400)), draw(st.sampled_from((0, 0, 200, 700)))
    length = draw(st.integers(500, 1500))
    slope = hipped(0, shingle, eaves=eaves, top=min(top, eaves), length=length)
    first = draw(st.integers(0, max(0, len(slope) - 3)))
    near = slope[first : first + draw(st.integers(1, 3))]
    twin = [replace(row, slope=1) for row in near[: draw(st.integers(0, 4 - len(near)))]]
    return near + twin, shingle, draw(st.integers(0, 9))


@st.composite
def ragged_rows(draw: st.DrawFn, shingle: Shingle, most: int) -> Row:
    """A row anywhere on its lattice, up to ``most`` wide."""
    u0 = draw(spans(shingle, -1000, 1000))
    width = draw(spans(shingle, 20, most))
    offset = draw(st.sampled_from((Fraction(0), shingle.half_tab)))
    left, right = (draw(st.sampled_from((0, 0, 60, 165))) for _ in range(2))
    return Row(0, 1, u0, u0 + width, offset, Fraction(left), Fraction(right))


def _in_courses(rows: list[Row]) -> list[Row]:
    """The rows one above the other on slopes of five courses."""
    return [replace(row, slope=i // 5, course=i % 5 + 1) for i, row in enumerate(rows)]
