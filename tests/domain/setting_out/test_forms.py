"""The forms of roof that are more than equal rectangles."""

from dataclasses import replace
from fractions import Fraction
from math import cos, pi, radians, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.setting_out.flat_slopes import Edge, Slope
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.units import Angle, Length, parse_angle, parse_length
from tests import strategies


def length(text: str) -> Length:
    return parse_length("Length", text)


def degrees(text: str) -> Angle:
    return parse_angle("Pitch", text)


OFFSET = RoofMeasures(
    RoofForm.OFFSET_APEX,
    length=length("3 m"),
    front_run=length("1200 mm"),
    front_rise=length("900 mm"),
    back_run=length("800 mm"),
    back_rise=length("600 mm"),
    verge_overhang=length("60 mm"),
)
BARN = RoofMeasures(
    RoofForm.BARN,
    length=length("3 m"),
    lower_run=length("300 mm"),
    lower_rise=length("400 mm"),
    upper_run=length("800 mm"),
    upper_rise=length("600 mm"),
    eaves_overhang=length("30 mm"),
)
HIP = RoofMeasures(RoofForm.HIP, length=length("6 m"), span=length("4 m"), pitch=degrees("30"))
PYRAMID = RoofMeasures(RoofForm.PYRAMID, sides=4, side=length("3 m"), pitch=degrees("35"))


def test_an_offset_apex_has_a_slope_for_each_run() -> None:
    # derived: 3, 4, 5
    roof = build_roof(OFFSET)
    assert [slope.length for slope in roof.slopes] == [1500, 1000]
    assert [slope.eaves for slope in roof.slopes] == [3120, 3120]
    assert list(roof.ridge_runs) == [3120]
    assert {slope.finish for slope in roof.slopes} == {Finish.RIDGE}


def test_the_least_pitch_of_a_roof_counts_for_its_covering() -> None:
    # derived: 36.87° and 26.57°
    pitch = build_roof(replace(OFFSET, back_rise=length("400 mm"))).pitch
    assert pitch is not None
    assert pitch.typed == "26.6° (from the back rise)"


def test_the_span_gives_the_run_that_was_not_measured() -> None:
    spanned = replace(OFFSET, span=length("2 m"))
    for left_out in ({"back_run": None}, {"front_run": None}):
        assert build_roof(replace(spanned, **left_out)) == build_roof(OFFSET)  # type: ignore[arg-type]
    halved = replace(BARN, span=length("2.2 m"), upper_run=None)
    assert build_roof(halved) == build_roof(BARN)


def test_runs_that_do_not_make_the_span_are_told_of() -> None:
    roof = build_roof(replace(OFFSET, span=length("2.1 m")))
    assert roof.cautions == (
        "Front run and back run make 2,000 mm, the span is 2,100 mm: using the runs.",
    )
    assert build_roof(replace(OFFSET, span=length("2020 mm"))).cautions == ()
    assert build_roof(replace(BARN, span=length("2.3 m"))).cautions == (
        "Twice the lower and the upper run make 2,200 mm, the span is 2,300 mm: using the runs.",
    )


def test_a_barn_roof_has_lower_and_upper_slopes_with_a_break_between() -> None:
    # derived: 3, 4, 5, the overhang of 30 at the slope of the lower
    roof = build_roof(BARN)
    assert [slope.length for slope in roof.slopes] == [550, 550, 1000, 1000]
    lower, _, upper, _ = roof.slopes
    verge = EdgeKind.VERGE
    assert [edge.kind for edge in lower.edges] == ["eaves", verge, verge, "break"]
    assert [edge.kind for edge in upper.edges] == ["break", verge, verge, "ridge"]
    assert [edge.kind for edge in upper.free_edges] == [verge, verge]
    assert list(roof.ridge_runs) == [3000]


def test_a_hip_roof_of_6_by_4_metres_has_the_computed_areas_and_runs() -> None:
    # 9.237604, 4.618802, 27.712813 m², hip 3.055050 m, ridge 2 m: computed, plan area / cos pitch
    # and NumPy cross products; slope lengths are whole millimetres here
    roof = build_roof(HIP)
    areas = [float(slope.area) / 10**6 for slope in roof.slopes]
    assert areas == pytest.approx([9.237604, 9.237604, 4.618802, 4.618802], rel=2e-4)
    assert float(roof.area) / 10**6 == pytest.approx(27.712813, rel=2e-4)
    assert list(roof.ridge_runs) == [2000]
    assert [float(hip) for hip in roof.hip_runs] == pytest.approx([3055.05] * 4, abs=0.5)
    assert [slope.finish for slope in roof.slopes] == ["ridge", "ridge", "point", "point"]


def test_a_pyramid_of_3_by_3_metres_has_the_computed_area_and_hips() -> None:
    # 10.986971 m², hip 2.367098 m: computed, trimesh, surface less base
    roof = build_roof(PYRAMID)
    assert float(roof.area) / 10**6 == pytest.approx(10.986971, rel=3e-4)
    assert [float(hip) for hip in roof.hip_runs] == pytest.approx([2367.098] * 4, abs=0.5)
    assert roof.ridge_runs == ()


@pytest.mark.parametrize(("rise", "inches"), [(5, "17.69"), (8, "18.76"), (12, "20.78")])
def test_hips_agree_with_the_framing_square(rise: int, inches: str) -> None:
    # inches of hip to a foot of common run. 8: read, NAVEDTRA 14044; 5 and 12: memory, the
    # customary table. A run of 12 m makes a metre an inch.
    measures = RoofMeasures(
        RoofForm.HIP, length=length("24 m"), span=length("24 m"), rise=length(f"{rise} m")
    )
    assert float(build_roof(measures).hip_runs[0]) / 1000 == pytest.approx(
        float(inches), abs=0.0055
    )


def test_a_hip_over_a_run_of_15_feet_and_a_rise_of_10_is_23_45_feet() -> None:
    # 23.45 ft: read, NAVEDTRA 14044, hip rafters
    measures = RoofMeasures(
        RoofForm.HIP, length=length("40 ft"), span=length("30 ft"), rise=length("10 ft")
    )
    feet = build_roof(measures).hip_runs[0] / parse_length("foot", "1 ft").mm
    assert float(feet) == pytest.approx(23.45, abs=0.005)


def test_a_square_hip_roof_has_no_ridge_and_ends_in_four_points() -> None:
    roof = build_roof(replace(HIP, length=length("4 m")))
    assert [slope.finish for slope in roof.slopes] == [Finish.POINT] * 4
    assert roof.ridge_runs == ()
    assert len(roof.hip_runs) == 4
    assert len(set(roof.slopes)) == 1


def test_taped_eaves_of_a_hip_roof_that_contradict_its_length_are_told_of() -> None:
    taped = replace(HIP, eaves_length=length("6.1 m"))
    (caution,) = build_roof(taped).cautions
    assert caution == (
        "Slopes 1 and 3 do not meet: the hip is 3,088 mm on slope 1 and 3,055 mm on slope 3. "
        "Check the eaves length."
    )
    assert list(build_roof(replace(taped, length=None)).ridge_runs) == [2100]
    assert build_roof(replace(taped, length=None)).cautions == ()


@given(sides=st.integers(3, 12), side=strategies.lengths(300, 3000), pitch=st.integers(10, 80))
def test_a_pyramid_covers_its_plan_over_the_cosine(sides: int, side: Length, pitch: int) -> None:
    # geometry: computed in floats, a regular polygon of the sides
    measures = RoofMeasures(RoofForm.PYRAMID, sides=sides, side=side, pitch=degrees(f"{pitch}"))
    roof = build_roof(measures)
    apothem = float(side.mm) / (2 * tan(pi / sides))
    exact = sides * float(side.mm) * apothem / 2 / cos(radians(pitch))
    assert len(roof.slopes) == len(roof.hip_runs) == sides
    assert float(roof.area) == pytest.approx(exact, abs=sides * float(side.mm) / 2 * 0.5 + 1)
    assert {slope.free_edges for slope in roof.slopes} == {(Edge(EdgeKind.EAVES, side.mm),)}


def test_a_slope_of_a_hexagon_at_30_degrees_is_as_long_as_its_side_and_ties_go_up() -> None:
    # derived: apothem a·√3/2 over cos 30° = √3/2 is a; 1000.5 mm is a tie
    measures = replace(PYRAMID, sides=6, side=length("1000.5 mm"), pitch=degrees("30"))
    assert build_roof(measures).slopes[0].length == 1001


@given(
    span=strategies.lengths(600, 6000),
    more=strategies.millimetres(0, 4000),
    over=strategies.millimetres(0, 300),
    pitch=st.integers(10, 80),
)
def test_a_hip_roof_covers_its_plan_over_the_cosine_and_closes(
    span: Length, more: Fraction, over: Fraction, pitch: int
) -> None:
    # geometry: computed in floats
    measures = RoofMeasures(
        RoofForm.HIP,
        length=Length(span.mm + more, ""),
        span=span,
        pitch=degrees(f"{pitch}"),
        eaves_overhang=Length(over, ""),
    )
    roof = build_roof(measures)
    along, across = span.mm + more + 2 * over, span.mm + 2 * over
    exact = float(along * across) / cos(radians(pitch))
    assert float(roof.area) == pytest.approx(exact, abs=float(along + across))
    sides = {round(edge.length) for slope in roof.slopes for edge in slope.sides}
    assert sides == {round(run) for run in roof.hip_runs}
    assert roof.cautions == ()


def test_flashing_stands_against_every_wall() -> None:
    wall, valley = EdgeKind.ABUTMENT, EdgeKind.VALLEY
    sides = (Fraction(2000), Fraction(1200), Fraction(2500), Fraction(-500))
    slope = Slope(*sides, Finish.ABUTMENT, valley, wall)
    roof = replace(build_roof(PYRAMID), slopes=(slope,), valley_runs=(Fraction(1300),))
    assert roof.flashing == 2500 + 1200
    assert roof.valley == 1300
    assert [edge.kind for edge in slope.free_edges] == [EdgeKind.EAVES]
    assert [edge.length for edge in slope.sides] == [1300, 1200]


@pytest.mark.parametrize(
    ("roof", "changes", "field"),
    [
        (OFFSET, {"front_rise": None}, "front_rise"),
        (OFFSET, {"back_rise": length("0")}, "back_rise"),
        (OFFSET, {"front_rise": length("20 m")}, "front_rise"),
        (OFFSET, {"front_run": None}, "front_run"),
        (OFFSET, {"back_run": length("0.8")}, "back_run"),
        (OFFSET, {"back_run": None, "span": length("1.25 m")}, "front_run"),
        (OFFSET, {"span": length("2")}, "span"),
        (BARN, {"lower_rise": length("0 mm")}, "lower_rise"),
        (BARN, {"upper_run": None}, "upper_run"),
        (BARN, {"upper_run": length("50 m"), "upper_rise": length("99 m")}, "slope_length"),
        (HIP, {"span": length("6.1 m")}, "span"),
        (HIP, {"span": None}, "span"),
        (HIP, {"length": None}, "length"),
        (HIP, {"pitch": None}, "pitch"),
        (HIP, {"pitch": None, "rise": length("0")}, "rise"),
        (HIP, {"pitch": degrees("86")}, "pitch"),
        (HIP, {"eaves_length": length("1.9 m")}, "eaves_length"),
        (PYRAMID, {"sides": 2}, "sides"),
        (PYRAMID, {"sides": 13}, "sides"),
        (PYRAMID, {"sides": None}, "sides"),
        (PYRAMID, {"side": None}, "side"),
        (PYRAMID, {"side": length("3")}, "side"),
        (PYRAMID, {"pitch": None}, "pitch"),
    ],
)
def test_a_measure_that_makes_no_roof_is_refused_by_its_field(
    roof: RoofMeasures, changes: dict[str, Length | Angle | int | None], field: str
) -> None:
    with pytest.raises(Refused) as refusal:
        build_roof(replace(roof, **changes))  # type: ignore[arg-type]  # each name has its kind
    assert refusal.value.field == field
    assert refusal.value.remedy


def test_a_hip_is_as_long_as_pythagoras_says() -> None:
    # derived: √(S² + (B/2 + oe)²)
    roof = build_roof(replace(HIP, eaves_overhang=length("100 mm")))
    up = float(roof.slopes[0].length)
    assert float(roof.hip_runs[0]) == pytest.approx(sqrt(up**2 + 2100**2), abs=0.001)
