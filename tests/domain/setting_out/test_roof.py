"""Roofs from their measures."""

from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.pitch import check_pitch
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.exact import cosine
from domain.setting_out.flat_slopes import Edge, Roof, Slope
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.units import Angle, Length, parse_angle, parse_length
from tests import strategies


def length(text: str) -> Length:
    return parse_length("Length", text)


def degrees(text: str) -> Angle:
    return parse_angle("Pitch", text)


APEX = RoofMeasures(
    RoofForm.APEX, length=length("2.4 m"), span=length("1.8 m"), rise=length("450 mm")
)


def run_and_rise(run: str, rise: str) -> Roof:
    """Build a lean-to without overhangs: its slope is the common rafter over run and rise."""
    return build_roof(
        RoofMeasures(RoofForm.LEAN_TO, length=length("1 m"), span=length(run), rise=length(rise))
    )


def test_an_apex_has_two_equal_slopes_and_a_ridge_over_both_verges() -> None:
    # worked example: 2.4 × 1.8 m, rise 450 mm, overhangs 50 and 60 mm
    roof = build_roof(replace(APEX, eaves_overhang=length("50 mm"), verge_overhang=length("60 mm")))
    assert [slope.length for slope in roof.slopes] == [1062, 1062]
    assert [slope.eaves for slope in roof.slopes] == [2520, 2520]
    assert list(roof.ridge_runs) == [2520]
    assert roof.area == 2 * 2520 * 1062


def test_a_pent_overhangs_at_the_eaves_and_at_the_high_edge() -> None:
    # worked example: 8 × 6 ft at 16°, every overhang 50 mm
    over = length("50 mm")
    roof = build_roof(
        RoofMeasures(
            RoofForm.PENT,
            length=length("8 ft"),
            span=length("6 ft"),
            pitch=degrees("16"),
            eaves_overhang=over,
            verge_overhang=over,
            top_overhang=over,
        )
    )
    (slope,) = roof.slopes
    assert slope.length == 2007
    assert slope.eaves == Fraction("2538.4")
    assert slope.free_edges == (
        Edge(EdgeKind.EAVES, Fraction("2538.4")),
        Edge(EdgeKind.VERGE, Fraction(2007)),
        Edge(EdgeKind.VERGE, Fraction(2007)),
        Edge(EdgeKind.TOP, Fraction("2538.4")),
    )
    assert roof.ridge_runs == ()


def test_a_lean_to_ends_under_a_flashing_and_has_no_top_overhang() -> None:
    measures = RoofMeasures(
        RoofForm.LEAN_TO,
        length=length("2 m"),
        span=length("1 m"),
        pitch=degrees("60"),
        top_overhang=length("50 mm"),
    )
    (slope,) = build_roof(measures).slopes
    assert slope.length == 2000
    assert slope.finish is Finish.ABUTMENT
    assert EdgeKind.TOP not in {edge.kind for edge in slope.free_edges}


def test_a_common_rafter_of_7_in_12_over_8_feet_is_111_12_inches() -> None:
    # 13.89 in a foot of run × 8 = 111.12 in, tolerance 0.05 in: read, NAVEDTRA 14044, fig. 2-17
    (slope,) = run_and_rise("8 ft", "56 in").slopes
    assert slope.length / strategies.INCH == pytest.approx(Fraction("111.12"), abs=0.05)


@pytest.mark.parametrize(
    ("rise", "inches"),
    [
        (2, "12.17"),
        (3, "12.37"),
        (4, "12.65"),
        (5, "13.00"),
        (6, "13.42"),
        (7, "13.89"),
        (8, "14.42"),
        (9, "15.00"),
        (10, "15.62"),
        (12, "16.97"),
    ],
)
def test_common_rafters_agree_with_the_framing_square(rise: int, inches: str) -> None:
    # 7: read, NAVEDTRA 14044; the rest: memory, the customary table of inches a foot of run.
    # A run of 12 m makes the whole millimetre of the slope a thousandth of an inch in the table.
    (slope,) = run_and_rise("12 m", f"{rise} m").slopes
    assert slope.length / 1000 == pytest.approx(Fraction(inches), abs=0.0055)


def test_a_slope_of_4_in_12_is_18_43_degrees() -> None:
    # read, NAVEDTRA 14044; and it is not the sixth of anything in degrees
    pitch = run_and_rise("12 ft", "4 ft").pitch
    assert pitch is not None
    assert round(pitch.degrees, 2) == Fraction("18.43")
    assert pitch.typed == "18.4° (from the rise)"


@pytest.mark.parametrize(
    ("corners", "square_metres"),
    [(("6", "2", "2"), "9.237604"), (("4", "0", "2"), "4.618802")],
    ids=["trapezium", "triangle"],
)
def test_the_slopes_of_a_hip_roof_at_30_degrees_have_the_computed_areas(
    corners: tuple[str, str, str], square_metres: str
) -> None:
    # hip roof 6 × 4 m at 30°: computed, plan area / cos pitch and NumPy cross products
    eaves, top, inset = map(Fraction, corners)
    slope = Slope(eaves, 2 / cosine(Fraction(30)), top, inset, Finish.POINT)
    assert round(slope.area, 6) == Fraction(square_metres)


@given(slope=strategies.slopes())
def test_the_area_of_a_slope_is_that_of_its_polygon(slope: Slope) -> None:
    # computed: shapely
    polygon = shapely.Polygon(
        [
            (0, 0),
            (float(slope.eaves), 0),
            (float(slope.inset + slope.top), float(slope.length)),
            (float(slope.inset), float(slope.length)),
        ]
    )
    assert float(slope.area) == pytest.approx(polygon.area, rel=1e-9)


@given(
    form=st.sampled_from([RoofForm.PENT, RoofForm.LEAN_TO, RoofForm.APEX]),
    span=strategies.lengths(600, 6000),
    pitch=st.integers(10, 85),
)
def test_all_slopes_together_are_the_plan_over_the_cosine(
    form: RoofForm, span: Length, pitch: int
) -> None:
    # geometry: computed; the slope length is whole millimetres
    roof = build_roof(
        RoofMeasures(form, length=length("3 m"), span=span, pitch=degrees(f"{pitch}"))
    )
    exact = 3000 * span.mm / cosine(Fraction(pitch))
    assert abs(roof.area - exact) <= 3000 * Fraction(len(roof.slopes), 2)


def test_a_rational_cosine_is_exact() -> None:
    # the only ones of rational angles from 0 to 90°: Niven's theorem, memory
    cosines = [cosine(Fraction(angle)) for angle in (0, 60, 90)]
    assert cosines == [1, Fraction(1, 2), 0]


@pytest.mark.parametrize(
    ("run", "slope_length"), [("1000.2", 2000), ("1000.25", 2001), ("1000.3", 2001)]
)
def test_a_slope_length_from_a_pitch_is_rounded_half_up(run: str, slope_length: int) -> None:
    # derived: the cosine of 60° is a half
    measures = RoofMeasures(
        RoofForm.LEAN_TO, length=length("1 m"), span=length(run), pitch=degrees("60")
    )
    assert build_roof(measures).slopes[0].length == slope_length


@pytest.mark.parametrize(
    ("over", "slope_length"), [("0.3", 500), ("0.399999", 500), ("0.4", 501), ("1.2", 502)]
)
def test_a_slope_length_from_a_rise_is_rounded_half_up(over: str, slope_length: int) -> None:
    # derived: 300 over 400 is 500 up the slope, and 5/4 mm for each millimetre of overhang
    measures = RoofMeasures(
        RoofForm.LEAN_TO,
        length=length("1 m"),
        span=length("400"),
        rise=length("300"),
        eaves_overhang=length(over),
    )
    assert build_roof(measures).slopes[0].length == slope_length


def test_a_taped_slope_wins_over_the_pitch_and_stays_as_taped() -> None:
    taped = replace(APEX, rise=None, slope_length=length("7 ft 10 1/3 in"))
    roof = build_roof(replace(taped, pitch=degrees("30")))
    assert roof.slopes[0].length == (94 + Fraction(1, 3)) * strategies.INCH
    assert roof.cautions == ()


def test_a_taped_slope_alone_needs_no_span() -> None:
    roof = build_roof(
        RoofMeasures(RoofForm.PENT, length=length("2 m"), slope_length=length("1200.5 mm"))
    )
    assert roof.slopes[0].length == Fraction("1200.5")
    assert roof.pitch is None


def test_a_pent_taped_up_its_slope_with_its_rise_is_held_to_the_least_pitch() -> None:
    # derived: asin(142 / 1200.5) is 6.8°, under what shingles keep water out at
    taped = RoofMeasures(RoofForm.PENT, length("2 m"), slope_length=length("1200.5 mm"))
    roof = build_roof(replace(taped, rise=length("142 mm"), eaves_overhang=length("90 mm")))
    assert roof.pitch is not None
    assert roof.pitch.typed == "6.8° (from rise and slope length)"
    assert roof.slopes[0].length == Fraction("1200.5")  # for the limits alone
    with pytest.raises(Refused):
        check_pitch(SQUARE_BUTT, roof.pitch)
    risen = build_roof(replace(taped, rise=length("1201 mm")))
    assert risen.pitch is None
    assert risen.cautions == (
        "Slope length 1,201 mm is no more than the rise of 1,201 mm: tape both again.",
    )


def test_a_taped_slope_over_a_known_span_gives_the_pitch() -> None:
    # derived: a run of half the slope is 60°
    roof = build_roof(replace(APEX, rise=None, slope_length=length("1.8 m")))
    assert roof.pitch is not None
    assert roof.pitch.degrees == 60
    assert roof.pitch.typed == "60.0° (from the slope length)"


def test_a_taped_slope_shorter_than_its_plan_is_laid_with_a_caution() -> None:
    roof = build_roof(replace(APEX, slope_length=length("880 mm")))
    assert roof.slopes[0].length == 880
    assert roof.cautions == (
        "Slope length 880 mm is no more than the 900 mm that span and overhangs cover on plan: "
        "tape it again.",
    )


@pytest.mark.parametrize(
    ("pitch", "said"),
    [
        # derived: a rise of 450 mm over a run of 900 mm is 26.565°
        ("26.6", ()),
        ("27.06", ()),
        ("27.07", ("Pitch 27.07 does not fit 26.6° (from the rise): using the pitch.",)),
        ("26.06°", ("Pitch 26.06° does not fit 26.6° (from the rise): using the pitch.",)),
    ],
)
def test_a_pitch_counts_over_a_rise_that_contradicts_it_and_it_is_said(
    pitch: str, said: tuple[str, ...]
) -> None:
    roof = build_roof(replace(APEX, pitch=degrees(pitch)))
    assert roof.cautions == said
    assert roof.slopes == build_roof(replace(APEX, rise=None, pitch=degrees(pitch))).slopes


def test_taped_eaves_win_over_length_and_overhang_and_alone_are_enough() -> None:
    taped = replace(APEX, eaves_length=length("2.5 m"), verge_overhang=length("60 mm"))
    for measures in (taped, replace(taped, length=None)):
        roof = build_roof(measures)
        assert [slope.eaves for slope in roof.slopes] == [2500, 2500]
        assert list(roof.ridge_runs) == [2500]


def test_the_pitch_wins_over_the_rise() -> None:
    roof = build_roof(replace(APEX, pitch=degrees("60")))
    assert roof.slopes[0].length == 1800
    assert roof.pitch == degrees("60")


def test_a_verge_that_leans_in_is_as_long_as_its_slant() -> None:
    # derived: 3, 4, 5 and 8, 15, 17
    slope = Slope(Fraction(2000), Fraction(1200), Fraction(460), Fraction(900), Finish.RIDGE)
    sides = [edge.length for edge in slope.free_edges if edge.kind is EdgeKind.VERGE]
    assert sides == [1500, 1360]


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"length": None}, "length"),
        ({"length": length("0")}, "length"),
        ({"length": length("2.4")}, "length"),
        ({"length": length("99.9")}, "length"),
        ({"length": Length(Fraction(2_400_000), "2.4 km")}, "length"),
        ({"eaves_length": length("0 m")}, "eaves_length"),
        ({"span": None}, "span"),
        ({"span": length("1.8")}, "span"),
        ({"rise": None}, "pitch"),
        ({"rise": length("0 mm")}, "rise"),
        ({"rise": length("0 mm"), "pitch": degrees("30")}, "rise"),
        ({"rise": length("20 m")}, "rise"),
        ({"pitch": degrees("0")}, "pitch"),
        ({"pitch": degrees("85.1")}, "pitch"),
        ({"slope_length": length("1.5")}, "slope_length"),
        ({"rise": None, "slope_length": length("24 m")}, "slope_length"),
        ({"span": length("90 m"), "pitch": degrees("80")}, "slope_length"),
        ({"eaves_overhang": length("1.1 m")}, "eaves_overhang"),
        ({"verge_overhang": length("50 m")}, "verge_overhang"),
        ({"verge_overhang": Length(Fraction(-1), "-1")}, "verge_overhang"),
    ],
)
def test_a_measure_that_makes_no_roof_is_refused_by_its_field(
    changes: dict[str, Length | Angle | None], field: str
) -> None:
    with pytest.raises(Refused) as refusal:
        build_roof(replace(APEX, **changes))  # type: ignore[arg-type]  # each name has its kind
    assert refusal.value.field == field
    assert refusal.value.remedy


def test_a_pents_top_overhang_is_refused_by_its_field() -> None:
    measures = replace(APEX, form=RoofForm.PENT, top_overhang=length("2 m"))
    with pytest.raises(Refused, match=r"^Top overhang: “2 m” is not valid\. "):
        build_roof(measures)


def test_85_degrees_are_not_too_steep() -> None:
    assert build_roof(replace(APEX, pitch=degrees("85"))).slopes[0].length == 10_326
