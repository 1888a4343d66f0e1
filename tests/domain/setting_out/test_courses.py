"""Courses and rows."""

from fractions import Fraction
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.setting_out.courses import Courses, Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.units import parse_length
from tests import strategies


def rectangle(length: Fraction | int, finish: Finish = Finish.RIDGE, eaves: int = 2520) -> Slope:
    return Slope(Fraction(eaves), Fraction(length), Fraction(eaves), Fraction(0), finish)


def hip_side(eaves: int, length: int, top: int) -> Slope:
    finish = Finish.RIDGE if top else Finish.POINT
    inset = Fraction(eaves - top, 2)
    hips = (EdgeKind.HIP, EdgeKind.HIP)
    return Slope(Fraction(eaves), Fraction(length), Fraction(top), inset, finish, *hips)


def laid(slope: Slope, shingle: Shingle) -> tuple[Courses, tuple[Row, ...]]:
    """Lay a slope, passing over those that are too short or narrow."""
    try:
        courses = lay_courses(slope, shingle)
    except Refused:
        assume(False)
        raise
    return courses, rows_of_slope(0, slope, courses, shingle)


def hundredths(value: Fraction) -> float:
    return float(round(value, 2))


def test_courses_under_a_ridge_are_even() -> None:
    # worked example: the 1062 mm slopes of an apex
    courses = lay_courses(rectangle(1062), SQUARE_BUTT)
    assert courses.count == 7
    assert courses.covered == 125
    assert courses.exposure == courses.final_exposure == Fraction(937, 7)
    lines = [hundredths(line) for line in courses.chalk_lines]
    assert lines == [340.0, 473.86, 607.71, 741.57, 875.43, 1009.29, 1062.0]


def test_the_last_course_of_a_pent_keeps_to_its_own_gauge() -> None:
    # worked example: 2007 mm, 12 courses of 143.67 and the last 143
    courses = lay_courses(rectangle(2007, Finish.TOP), SQUARE_BUTT)
    assert courses.count == 13
    assert courses.covered == 140
    assert hundredths(courses.exposure) == 143.67
    assert courses.final_exposure == 143


@pytest.mark.parametrize("top", [1200, 0], ids=["trapezium", "triangle"])
def test_the_courses_of_a_hip_roof_meet_at_the_hips(top: int) -> None:
    # worked example: hexagonal, 1501 mm, 10 courses of 133.43 on all four slopes
    courses = lay_courses(hip_side(2600 + top, 1501, top), HEXAGONAL)
    assert (courses.count, hundredths(courses.exposure)) == (10, 133.43)
    assert hundredths(courses.final_exposure) == 133.43


def test_a_slope_just_long_enough_for_its_final_course_has_one() -> None:
    # common practice: a ridge piece covers half a tab, the final course exposes 143 at most
    courses = lay_courses(rectangle(125 + 143), SQUARE_BUTT)
    assert courses.count == 1
    assert courses.exposure == courses.final_exposure == 143
    assert list(courses.chalk_lines) == [268]
    assert lay_courses(rectangle(125 + 144), SQUARE_BUTT).count == 2


@pytest.mark.parametrize(
    ("shingle", "trim", "gauge", "final"),
    [(SQUARE_BUTT, Fraction(125), 145, 143), (HEXAGONAL, Fraction(500, 3), 135, 135)],
)
def test_odd_courses_start_half_a_tab_less(
    shingle: Shingle, trim: Fraction, gauge: int, final: int
) -> None:
    # 125 of a tab of 250, 166⅔ of 333⅓; exposures of 145 and 135, 143 at the top: common practice
    courses, up = laid(rectangle(2000), shingle)
    assert up[0].offset == trim == shingle.tab / 2
    assert [row.offset for row in up[:4]] == [trim, 0, trim, 0]
    assert courses.exposure <= gauge == shingle.gauge
    assert courses.final_exposure <= final == shingle.final_gauge


@pytest.mark.parametrize(
    ("finish", "covered"), [(Finish.RIDGE, 125), (Finish.TOP, 140), (Finish.ABUTMENT, 100)]
)
def test_the_finish_covers_the_top_of_the_slope(finish: Finish, covered: int) -> None:
    # half a tab under a ridge, the edge strip less the 50 turned down, a flashing's 100: common
    # practice
    assert lay_courses(rectangle(2000, finish), SQUARE_BUTT).covered == covered


def test_three_tab_strips_at_5_inches_are_80_to_a_square_and_lap_7_and_2_inches() -> None:
    # 36 × 12 in strips: laps read, NAVEDTRA 14044 and EN5156; 80 a square derived, customary table
    inch = strategies.INCH
    strip = Shingle(
        key="three-tab",
        words="three-tab shingles",
        width=36 * inch,
        height=12 * inch,
        tabs=3,
        cut_out=5 * inch,
        gauge=5 * inch,
        final_gauge=5 * inch,
        unit_kg=Fraction(1),
    )
    # 12 courses of 5 in under a ridge piece that covers half a tab of 12 in, 10 ft along the eaves
    slope = Slope(120 * inch, 66 * inch, 120 * inch, Fraction(0), Finish.RIDGE)
    courses, up = laid(slope, strip)
    strips = sum((row.u1 - row.u0 for row in up), Fraction(0)) / strip.width
    square = 100 * parse_length("Length", "1 ft").mm ** 2
    exposed = slope.eaves * (slope.length - courses.covered)
    assert strips / (exposed / square) == 80
    assert courses.chalk_lines[0] - courses.butt(2) == 7 * inch
    assert courses.chalk_lines[0] - courses.butt(3) == 2 * inch


@pytest.mark.parametrize(
    ("length", "finish", "least"),
    [
        (100, Finish.RIDGE, "176 mm"),
        (175, Finish.RIDGE, "176 mm"),
        (140, Finish.TOP, "176 mm"),
        (175, Finish.ABUTMENT, "176 mm"),
        (244, Finish.ABUTMENT, "251 mm"),
    ],
)
def test_a_slope_too_short_is_refused_with_the_least_that_would_do(
    length: int, finish: Finish, least: str
) -> None:
    # derived: nails stand 175 above the butt. Two courses of 72 under a flashing would be nailed
    # above the top of a slope of 244.
    with pytest.raises(Refused) as refusal:
        lay_courses(rectangle(length, finish), SQUARE_BUTT)
    assert refusal.value.field == "slope_length"
    assert f"at least {least}" in refusal.value.remedy
    would_do = Fraction(least.removesuffix(" mm"))
    assert lay_courses(rectangle(would_do, finish), SQUARE_BUTT).count >= 1


def test_a_slope_that_the_ridge_covers_whole_is_refused_though_it_could_be_nailed() -> None:
    # derived: the ridge covers 166⅔, the nails stand 165 above the butt
    with pytest.raises(Refused, match="167 mm"):
        lay_courses(rectangle(166), HEXAGONAL)
    assert lay_courses(rectangle(167), HEXAGONAL).count == 1


def test_a_triangle_no_wider_than_a_tab_is_refused() -> None:
    with pytest.raises(Refused, match=r"^Eaves length: “250 mm” is not valid"):
        lay_courses(hip_side(250, 900, 0), SQUARE_BUTT)


def test_a_row_no_wider_than_a_tab_lies_under_the_hip_pieces_at_a_point() -> None:
    # derived: seven courses of 125 fill 875; the seventh, 750 up, is a quarter of the eaves wide
    assert lay_courses(hip_side(1001, 1000, 0), SQUARE_BUTT).count == 7
    courses = lay_courses(hip_side(1000, 1000, 0), SQUARE_BUTT)
    assert courses.count == 6
    assert courses.chalk_lines[-1] == 5 * 125 + 340


def test_the_final_exposure_at_a_point_is_that_of_the_last_course_laid() -> None:
    # derived: 1138 takes six courses of 145 and one of 143, and the seventh is not laid
    courses = lay_courses(hip_side(1000, 1138, 0), SQUARE_BUTT)
    assert courses.count == 6
    assert courses.final_exposure == courses.exposure == 145


@given(slope=strategies.slopes(), shingle=strategies.shingles())
def test_exposures_keep_to_the_gauge_and_fill_the_slope(slope: Slope, shingle: Shingle) -> None:
    courses, _ = laid(slope, shingle)
    assert 0 < courses.final_exposure <= courses.exposure <= shingle.gauge
    filled = (courses.count - 1) * courses.exposure + courses.final_exposure
    if slope.finish is Finish.POINT:
        assert filled <= slope.length - courses.covered
    else:
        assert courses.final_exposure <= shingle.final_gauge
        assert filled == slope.length - courses.covered


@given(slope=strategies.rectangles(), shingle=strategies.shingles())
def test_no_fewer_courses_would_keep_to_the_gauge(slope: Slope, shingle: Shingle) -> None:
    courses, _ = laid(slope, shingle)
    if courses.count > 1:  # one course less, each at its gauge
        most = (courses.count - 2) * shingle.gauge + shingle.final_gauge
        assert most < slope.length - courses.covered


@given(slope=strategies.slopes(), shingle=strategies.shingles())
def test_joints_of_neighbouring_courses_are_half_a_tab_apart(
    slope: Slope, shingle: Shingle
) -> None:
    _, up = laid(slope, shingle)
    for below, above in pairwise(up):
        apart = (above.offset - below.offset) % shingle.tab
        assert min(apart, shingle.tab - apart) == shingle.half_tab


@given(slope=strategies.slopes(), shingle=strategies.shingles())
def test_rows_reach_as_far_as_the_slope_does_between_their_edges(
    slope: Slope, shingle: Shingle
) -> None:
    # computed: shapely, the slope clipped to each course
    courses, up = laid(slope, shingle)
    top_right = (float(slope.inset + slope.top), float(slope.length))
    corners = [(0, 0), (float(slope.eaves), 0), top_right, (float(slope.inset), top_right[1])]
    polygon = shapely.Polygon(corners)
    for row in up:
        low, high = courses.butt(row.course), courses.chalk_lines[row.course - 1]
        band = shapely.box(-1e5, float(low), 1e5, float(high))
        left, _, right, _ = polygon.intersection(band).bounds
        assert (float(row.u0), float(row.u1)) == pytest.approx((left, right), abs=1e-6)


@given(slope=strategies.slopes(), shingle=strategies.shingles())
def test_what_end_pieces_lose_is_measured_where_they_are_nailed(
    slope: Slope, shingle: Shingle
) -> None:
    courses, up = laid(slope, shingle)
    for row in up:
        nailed = courses.butt(row.course) + shingle.cut_out + 25
        assert row.u0 + row.left_loss == slope.inset * nailed / slope.length
        leans = slope.eaves - slope.inset - slope.top
        assert row.u1 - row.right_loss == slope.eaves - leans * nailed / slope.length
        assert nailed < slope.length


def test_on_a_rectangle_end_pieces_lose_nothing() -> None:
    _, up = laid(rectangle(1062), SQUARE_BUTT)
    for row in up:
        assert row.left_loss == row.right_loss == row.u0 == 0
        assert row.u1 == 2520
    assert [row.course for row in up] == [1, 2, 3, 4, 5, 6, 7]
