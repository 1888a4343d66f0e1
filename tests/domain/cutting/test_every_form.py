"""Roofs of every form from their measures to the cut plan, followed as a person would."""

from itertools import pairwise

import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from domain.coverings.shingle import Shingle
from domain.cutting.plan import plan_cuts
from domain.errors import Refused
from domain.setting_out.courses import Courses, Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.measures import RoofMeasures
from domain.takeoff.edging import ridge_pieces
from tests import strategies
from tests.domain.cutting.replay import replay
from tests.domain.cutting.search import fewest
from tests.examples import examples

_ROWS_SEARCHED = 4


def built(measures: RoofMeasures, shingle: Shingle) -> tuple[Roof, list[Courses], list[Row]]:
    """Set a roof out, passing over those that are too short or narrow for the covering."""
    try:
        roof = build_roof(measures)
        courses = [lay_courses(slope, shingle) for slope in roof.slopes]
    except Refused:
        assume(False)
        raise
    slopes = enumerate(zip(roof.slopes, courses, strict=True))
    return (
        roof,
        courses,
        [r for at, (slope, up) in slopes for r in rows_of_slope(at, slope, up, shingle)],
    )


def polygon(slope: Slope) -> shapely.Polygon:
    top = (float(slope.inset), float(slope.inset + slope.top))
    up = float(slope.length)
    return shapely.Polygon([(0, 0), (float(slope.eaves), 0), (top[1], up), (top[0], up)])


@given(measures=strategies.roof_measures(), shingle=strategies.shingles())
def test_exposures_keep_to_the_gauge_and_courses_break_joint(
    measures: RoofMeasures, shingle: Shingle
) -> None:
    _, courses, laid = built(measures, shingle)
    for up in courses:
        assert up.final_exposure <= shingle.gauge
        assert up.exposure <= shingle.gauge
    for below, above in pairwise(laid):
        if below.slope == above.slope:
            apart = (above.offset - below.offset) % shingle.tab
            assert min(apart, shingle.tab - apart) >= shingle.half_tab


@given(measures=strategies.roof_measures(), shingle=strategies.shingles())
def test_area_and_rows_are_those_of_the_polygons(measures: RoofMeasures, shingle: Shingle) -> None:
    # computed: shapely, each slope as a polygon, clipped to what each course covers
    roof, courses, laid = built(measures, shingle)
    polygons = [polygon(slope) for slope in roof.slopes]
    area = sum(each.area for each in polygons)
    assert abs(float(roof.area) - area) < 1
    for row in laid:
        up = courses[row.slope]
        low, high = up.butt(row.course), up.chalk_lines[row.course - 1]
        band = shapely.box(-1e5, float(low), 1e5, float(high))
        left, _, right, _ = polygons[row.slope].intersection(band).bounds
        assert abs(float(row.u0) - left) + abs(float(row.u1) - right) < 1e-6


@examples(40)
@given(measures=strategies.roof_measures(), shingle=strategies.shingles())
def test_every_row_is_covered_once_as_planned(measures: RoofMeasures, shingle: Shingle) -> None:
    roof, _, laid = built(measures, shingle)
    closing = ridge_pieces(roof.closed_runs, shingle)
    replay(plan_cuts(laid, shingle, closing, time_limit_s=1), laid, shingle, closing)


@examples(60)
@given(
    measures=strategies.roof_measures(),
    shingle=strategies.shingles(),
    first=st.integers(0, 40),
    closing=st.integers(0, 9),
)
def test_no_search_finds_fewer_strips_or_pieces_for_some_rows_of_any_form(
    measures: RoofMeasures, shingle: Shingle, first: int, closing: int
) -> None:
    _, _, laid = built(measures, shingle)
    narrow = [row for row in laid if row.u1 - row.u0 <= 2600]
    assume(narrow)
    near = narrow[first % len(narrow) :][:_ROWS_SEARCHED]
    plan = plan_cuts(near, shingle, closing)
    replay(plan, near, shingle, closing)
    assert plan.pieces_proven
    assert (plan.strips, len(plan.pieces)) == fewest(near, shingle, closing)
