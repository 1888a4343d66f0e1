"""The take-off of whole roofs."""

import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

import pytest

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import CutPlan
from domain.errors import Refused
from domain.setting_out.courses import Row
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.takeoff.figures_for_programs import as_json
from domain.takeoff.fixings import NailBoxes
from domain.takeoff.packing import Packing
from domain.takeoff.rolls import UNDERLAY
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off, take_off_shingles
from domain.units import Angle, Length, parse_angle, parse_length


def length(text: str) -> Length:
    return parse_length("Length", text)


def degrees(text: str) -> Angle:
    return parse_angle("Pitch", text)


APEX = RoofMeasures(
    RoofForm.APEX,
    length=length("2.4 m"),
    span=length("1.8 m"),
    rise=length("450 mm"),
    eaves_overhang=length("50 mm"),
    verge_overhang=length("60 mm"),
)
PENT = RoofMeasures(
    RoofForm.PENT,
    length=length("8 ft"),
    span=length("6 ft"),
    pitch=degrees("16"),
    eaves_overhang=length("50 mm"),
    verge_overhang=length("50 mm"),
    top_overhang=length("50 mm"),
)


HIP = RoofMeasures(
    RoofForm.HIP,
    length=length("3.6 m"),
    span=length("2.4 m"),
    pitch=degrees("30"),
    eaves_overhang=length("100 mm"),
)


def sloped(figures: dict[str, object]) -> list[dict[str, object]]:
    slopes = figures["slopes"]
    assert isinstance(slopes, list)
    return slopes


def strips_of(takeoff: ShingleTakeOff) -> tuple[int, int, int, int]:
    strips = takeoff.strips
    return strips.cut_plan, strips.edge, strips.to_buy, strips.packs


def test_the_figures_of_an_apex_for_other_programs() -> None:
    # worked example: agreed by two who set it out apart
    slope = {
        "slope_mm": 1062,
        "courses": 7,
        "exposure_mm": 133.86,
        "final_exposure_mm": 133.86,
        "chalk_lines_mm": [340.0, 473.86, 607.71, 741.57, 875.43, 1009.29, 1062.0],
    }
    figures = as_json(take_off_shingles(build_roof(APEX), SQUARE_BUTT))
    working = figures.pop("working")
    assert isinstance(working, dict)
    assert [working[key] for key in ("strips", "strips_to_buy", "packs")] == [42, 55, 3]
    assert figures == {
        "area_m2": 5.3525,
        "slopes": [slope, slope],
        "ridge_pieces": 19,
        "cut_plan_strips": 42,
        "cut_plan_at_least": 42,
        "proven": True,
        "row_by_row_strips": 47,
        "packs_saved": 0,
        "edge_strips": 11,
        "strips_to_buy": 55,
        "strips_per_pack": 21,
        "packs": 3,
        "underlay_rows": 4,
        "underlay_rolls": 1,
        "shingle_nails": 201,
        "ridge_nails": 38,
        "edge_nails": 190,
        "underlay_nails": 34,
        "mastic_m": 21.26,
        "mastic_cartridges": 2,
        "flashing_m": 0.0,
        "valley_m": 0.0,
    }
    assert json.loads(json.dumps(figures)) == figures


def test_a_pent_in_feet() -> None:
    # worked example, abridged
    takeoff = take_off_shingles(build_roof(PENT), SQUARE_BUTT)
    figures = as_json(takeoff)
    assert strips_of(takeoff) == (35, 10, 47, 3)
    assert (figures["underlay_rows"], figures["underlay_rolls"]) == (3, 1)
    assert (figures["shingle_nails"], figures["mastic_m"]) == (186, 12.79)
    assert figures["ridge_pieces"] == figures["ridge_nails"] == 0
    assert figures["slopes"] == [
        {
            "slope_mm": 2007,
            "courses": 13,
            "exposure_mm": 143.67,
            "final_exposure_mm": 143,
            "chalk_lines_mm": [
                *[340.0, 483.67, 627.33, 771.0, 914.67, 1058.33, 1202.0, 1345.67, 1489.33],
                *[1633.0, 1776.67, 1920.33, 2007.0],
            ],
        }
    ]


def test_a_hip_roof_in_hexagonal_shingles() -> None:
    # worked example, abridged
    takeoff = take_off_shingles(build_roof(HIP), HEXAGONAL)
    figures = as_json(takeoff)
    assert strips_of(takeoff) == (116, 14, 134, 7)
    assert figures["area_m2"] == 11.4076
    slopes = [
        (slope["slope_mm"], slope["courses"], slope["exposure_mm"]) for slope in sloped(figures)
    ]
    assert slopes == [(1501, 10, 133.43)] * 4
    assert takeoff.ridge_pieces == 70
    assert (figures["underlay_rows"], figures["underlay_rolls"]) == (8, 2)
    assert (figures["shingle_nails"], figures["mastic_m"]) == (409, 55.66)


def test_rows_stand_slope_by_slope_from_the_eaves_up() -> None:
    takeoff = take_off_shingles(build_roof(APEX), SQUARE_BUTT)
    places = [(row.slope, row.course) for row in takeoff.rows]
    assert places == [(slope, course) for slope in (0, 1) for course in range(1, 8)]


@pytest.mark.parametrize(
    ("packing", "to_buy", "packs"),
    [
        (Packing(strips_per_pack=55), 55, 1),
        (Packing(strips_per_pack=54), 55, 2),
        (Packing(loose_strips=13), 42, 2),
        (Packing(loose_strips=12), 43, 3),
        (Packing(loose_strips=55), 0, 0),
        (Packing(loose_strips=500), 0, 0),
    ],
)
def test_loose_strips_are_used_before_a_pack_is_opened(
    packing: Packing, to_buy: int, packs: int
) -> None:
    # derived from the worked example: 42 + 11 strips and 2 for breakage
    takeoff = take_off_shingles(build_roof(APEX), SQUARE_BUTT, packing)
    assert takeoff.strips.laid == 53
    assert strips_of(takeoff)[2:] == (to_buy, packs)


@pytest.mark.parametrize(("percent", "to_buy"), [(0, 53), (1, 54), (3, 55), (100, 106)])
def test_breakage_is_rounded_up_to_whole_strips(percent: int, to_buy: int) -> None:
    # 3 %: common practice; derived: a hundredth of 53 is one strip more
    shingle = replace(SQUARE_BUTT, breakage_percent=percent)
    assert take_off_shingles(build_roof(APEX), shingle).strips.to_buy == to_buy


def test_rolls_and_boxes_are_counted_at_the_size_they_are_sold_in() -> None:
    packing = Packing(
        underlay=replace(UNDERLAY, roll=Fraction(10_000)),
        nail_boxes=NailBoxes(shingle=100, felt=20),
    )
    takeoff = take_off_shingles(build_roof(APEX), SQUARE_BUTT, packing)
    assert takeoff.underlay.rolls == 2
    assert takeoff.fixings.through_strips == 201 + 38 + 190
    assert takeoff.fixings.shingle_boxes == 5
    assert (takeoff.fixings.underlay_nails, takeoff.fixings.felt_boxes) == (34, 2)


@pytest.mark.parametrize(
    ("pack", "field"),
    [
        (lambda: Packing(strips_per_pack=0), "strips_per_pack"),
        (lambda: Packing(strips_per_pack=-1), "strips_per_pack"),
        (lambda: NailBoxes(shingle=0), "shingle_nails"),
        (lambda: NailBoxes(felt=0), "felt_nails"),
    ],
)
def test_a_pack_that_holds_nothing_is_refused(pack: Callable[[], object], field: str) -> None:
    with pytest.raises(Refused) as refusal:
        pack()
    assert refusal.value.field == field


def test_a_pitch_under_the_least_is_refused_and_one_under_the_advised_is_a_caution() -> None:
    # 15° to lay without a caution, 9.5° at the very least: common practice
    def at(pitch: str) -> ShingleTakeOff:
        return take_off_shingles(build_roof(replace(PENT, pitch=degrees(pitch))), SQUARE_BUTT)

    assert at("15").cautions == ()
    assert at("14.9°").cautions == (
        "Pitch 14.9° is under the 15° advised for square butt shingles.",
    )
    assert at("14.96°").cautions == (
        "Pitch 14.96° is just under the 15° advised for square butt shingles.",
    )
    assert len(at("9.5").cautions) == 1
    with pytest.raises(Refused, match=r"^Pitch: “9\.4” is not valid\. 9\.5° is the least for"):
        at("9.4")


def test_a_pitch_from_the_rise_is_refused_with_where_it_comes_from() -> None:
    shallow = replace(APEX, rise=length("100 mm"))
    with pytest.raises(Refused, match=r"“6\.3° \(from the rise\)” is not valid"):
        take_off_shingles(build_roof(shallow), SQUARE_BUTT)


def test_a_roof_whose_pitch_nobody_knows_is_laid_with_a_caution() -> None:
    taped = RoofMeasures(RoofForm.PENT, length=length("2 m"), slope_length=length("1.2 m"))
    takeoff = take_off_shingles(build_roof(taped), HEXAGONAL)
    assert takeoff.cautions == ("Pitch unknown: hexagonal shingles should have at least 15°.",)


def test_what_the_roof_leaves_in_doubt_is_among_the_cautions() -> None:
    roof = build_roof(replace(APEX, slope_length=length("880 mm")))
    assert take_off_shingles(roof, SQUARE_BUTT).cautions == roof.cautions != ()


def test_a_slope_too_short_for_the_covering_is_refused() -> None:
    short = RoofMeasures(RoofForm.PENT, length=length("2 m"), slope_length=length("175 mm"))
    with pytest.raises(Refused, match="176 mm"):
        take_off_shingles(build_roof(short), SQUARE_BUTT)


def test_packs_saved_are_those_that_row_by_row_would_take_more() -> None:
    # 42 and 11 with breakage are 55, five packs of 11; 47 and 11 are 60, six.
    takeoff = take_off_shingles(build_roof(APEX), SQUARE_BUTT, Packing(strips_per_pack=11))
    strips = takeoff.strips
    assert (strips.packs, strips.saved, strips.packs_saved) == (5, 5, 1)


def test_a_plan_that_is_not_proven_is_told_of() -> None:
    def unproven(_rows: Sequence[Row], _shingle: Shingle, ridge_pieces: int) -> CutPlan:
        return CutPlan(45, 41, False, False, (), (), 45, ridge_pieces, 47)

    takeoff = take_off_shingles(build_roof(APEX), SQUARE_BUTT, plan_cuts=unproven)
    assert takeoff.cautions == (
        "Strips: 45 found; not proven to be the fewest, could be as few as 41.",
        "Shingle nails: the count may be high, as the fewest pieces are not proven.",
    )
    assert as_json(takeoff)["proven"] is False


@pytest.mark.parametrize(
    ("eaves", "slope", "area_m2", "slope_mm"),
    [
        ("250 mm", "1200.2 mm", 0.3001, 1200.2),  # 0.30005 m²
        ("250 mm", "1200.125 mm", 0.3, 1200.13),
    ],
)
def test_figures_are_rounded_half_up(
    eaves: str, slope: str, area_m2: float, slope_mm: float
) -> None:
    # derived
    taped = RoofMeasures(RoofForm.LEAN_TO, eaves_length=length(eaves), slope_length=length(slope))
    figures = as_json(take_off_shingles(build_roof(taped), SQUARE_BUTT))
    assert figures["area_m2"] == area_m2
    assert sloped(figures)[0]["slope_mm"] == slope_mm


def test_a_roof_larger_than_any_garage_is_refused_before_it_is_counted() -> None:
    large = build_roof(replace(APEX, length=length("60 m"), span=length("9 m")))
    with pytest.raises(Refused, match="200 m² is the limit"):
        take_off(large, SQUARE_BUTT)
