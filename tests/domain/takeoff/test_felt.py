"""Felt in rolls. Figures: the trade's rules of laying worked by hand, computed; common practice."""

import json
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.felt import FELT
from domain.coverings.registry import COVERINGS
from domain.errors import Refused
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.takeoff.felt_takeoff import FeltTakeOff, felt_roll_material, lay_felt
from domain.takeoff.figures_for_programs import as_json
from domain.takeoff.packing import Packing
from domain.takeoff.rolls import roll_rows
from domain.takeoff.roof_takeoff import take_off
from domain.takeoff.surveyfile import read_survey_file
from domain.units import parse_angle, parse_length
from tests import builders, strategies

ROLL = Packing().felt_roll
BARN = """
covering = "felt"
[roof]
form = "barn"
length = "3 m"
lower_run = "400 mm"
lower_rise = "700 mm"
upper_run = "800 mm"
upper_rise = "400 mm"
eaves_overhang = "50 mm"
verge_overhang = "50 mm"
"""


def felted(roof: Roof, packing: Packing | None = None) -> FeltTakeOff:
    takeoff = take_off(roof, FELT, packing)
    assert isinstance(takeoff, FeltTakeOff)
    return takeoff


def rectangle(eaves: int, length: int, finish: Finish = Finish.RIDGE) -> Slope:
    return Slope(Fraction(eaves), Fraction(length), Fraction(eaves), Fraction(0), finish)


def roof(*slopes: Slope, ridges: tuple[int, ...] = ()) -> Roof:
    return Roof(RoofForm.APEX, slopes, tuple(map(Fraction, ridges)), parse_angle("Pitch", "20"))


def hip_roof() -> Roof:
    """3.6 m by 2.4 m, pitch 30°, eaves overhang 100 mm: slopes of 1501, hips of 1986."""
    return build_roof(
        RoofMeasures(
            RoofForm.HIP,
            length=parse_length("Length", "3.6 m"),
            span=parse_length("Span", "2.4 m"),
            pitch=parse_angle("Pitch", "30"),
            eaves_overhang=parse_length("Eaves overhang", "100 mm"),
        )
    )


def test_an_apex_of_2520_by_1062_is_felted_by_these_figures() -> None:
    # By hand: 1062 + 50 − 1000 = 112 over one width, so two rows a slope, each 2520 + 2 × 50 long.
    # Three of 2620 leave 2140 of a roll of 10 m: the fourth begins with them, and 2620 − 2140 + 150
    # follow from a second roll, with one end lap. The 9370 that are left of it give three strips of
    # capping, of one of which the ridge takes 2620.
    # Stuck: two side laps, the end lap across 1000, both edges of the capping.
    # Nails at 50: eaves 51 and two verges of 22 a slope; 53 a side lap; 53 a capping edge.
    assert as_json(felted(build_roof(builders.measures()))) == {
        "area_m2": 5.3525,
        "slopes": 2 * [{"slope_mm": 1062.0, "rows": 2, "row_lengths_mm": [2620.0, 2620.0]}],
        "felt_rows": 4,
        "sheet_rolls": 2,
        "capping_strips": 1,
        "capping_rolls": 0,
        "felt_rolls": 2,
        "felt_m": 11.5,  # 10.48 + 0.15 off the lengths, 2.62 / 3 of a roll's length for the capping
        "side_lap_m": 5.24,
        "end_laps": 1,
        "edge_nails": 190,
        "lap_nails": 106,
        "capping_nails": 106,
        "adhesive_m": 11.48,
        "adhesive_tins": 1,
    }


def test_the_figures_can_be_written_as_json() -> None:
    assert json.loads(json.dumps(as_json(felted(hip_roof()))))["felt_rows"] == 8


def test_nothing_is_carried_over_a_hip_and_the_capping_covers_it() -> None:
    # By hand: rows lie from −50 to 950 and from 875 to 1501; a hip moves in 1300 over 1501.
    takeoff = felted(hip_roof())
    in_at_875 = Fraction(1300 * 875, 1501)
    side = (Fraction(3800), 3800 - 2 * in_at_875)
    end = (Fraction(2600), 2600 - 2 * in_at_875)
    assert takeoff.lay.rows == (side, side, end, end)
    # √(1501² + 1300²) is 1985.7: 1300 and four of 2085.7, 9643 in all, come from one strip. The
    # rows leave 347 of their last roll, too little for any.
    assert (takeoff.lay.capping.rolls, takeoff.lay.capping_rolls) == (1, 1)
    assert takeoff.fixings.capping_nails == 2 * (27 + 4 * 42)
    assert takeoff.fixings.edge_nails == 2 * (77 + 53)


def test_a_pent_has_no_capping_and_turns_down_over_its_top_edge() -> None:
    # By hand: 900 + 50 + 50 is one width exactly; one more millimetre wants a second row.
    one = felted(roof(rectangle(2000, 900, Finish.TOP)))
    assert [len(rows) for rows in one.lay.rows] == [1]
    assert (one.lay.capping_rolls, one.fixings.capping_nails, one.lay.rolls) == (0, 0, 1)
    assert one.fixings.adhesive == 0
    two = felted(roof(rectangle(2000, 901, Finish.TOP)))
    assert [len(rows) for rows in two.lay.rows] == [2]


@pytest.mark.parametrize(
    ("finish", "short"), [(Finish.RIDGE, 50), (Finish.POINT, 50), (Finish.ABUTMENT, 0)]
)
def test_a_row_more_is_wanted_every_925_above_950(finish: Finish, short: int) -> None:
    # By hand: 950 + 50 is one width, each row more gains 1000 − 75; 50 short of a ridge or point.
    for rows, longest in ((1, 950 + short), (2, 1875 + short), (3, 2800 + short)):
        for length, wanted in ((longest, rows), (longest + 1, rows + 1)):
            assert [len(r) for r in felted(roof(rectangle(2000, length, finish))).lay.rows] == [
                wanted
            ]


def test_three_strips_of_capping_come_from_a_roll() -> None:
    # By hand: 9.9 m + 0.1 m is a roll of sheet and a strip of 10 m; a fourth run begins another.
    three = lay_felt(roof(rectangle(9900, 900), ridges=(9900,) * 3), FELT, ROLL)
    four = lay_felt(roof(rectangle(9900, 900), ridges=(9900,) * 4), FELT, ROLL)
    assert (three.capping.rolls, three.capping_rolls) == (3, 1)
    assert (four.capping.rolls, four.capping_rolls) == (4, 2)


def test_what_the_sheets_leave_is_cut_into_capping_first() -> None:
    # By hand: 9 m + 0.1 m leaves 900; two runs of 700 take a strip of it each, since 200 is waste,
    # and one of 1000 begins with the third and takes 1000 − 900 + 150 of a strip of a fresh roll.
    lay = lay_felt(roof(rectangle(9000, 900), ridges=(600, 600, 900)), FELT, ROLL)
    cut = [(piece.stock, int(piece.length)) for piece in lay.capping.pieces]
    assert cut == [(1, 900), (2, 250), (2, 650), (3, 200), (3, 700)]
    assert (lay.capping.rolls, lay.capping_rolls) == (3, 0)
    # Less than 500 gives none.
    assert lay_felt(roof(rectangle(9500, 900), ridges=(600,)), FELT, ROLL).capping_rolls == 1


def test_no_lap_lies_near_a_break() -> None:
    # worked example: 907 and 894 up, 3100 along. By hand: the second row would begin at 875, within
    # 75 of the break, and begins at 757; four of 3200 leave 6800 of the second roll for the ridge.
    takeoff = felted(build_roof(read_survey_file(BARN).measures))
    assert [list(map(int, rows)) for rows in takeoff.lay.rows] == [[3200] * 2, [3200] * 2, [], []]
    (_, surface, break_at), *_ = takeoff.roof.surfaces
    lows = [row.low for row in roll_rows(surface, felt_roll_material(FELT, ROLL), break_at)]
    assert lows == [-50, 757]
    assert (takeoff.lay.lengths.rolls, takeoff.lay.capping_rolls) == (2, 0)
    fixings = takeoff.fixings
    assert (fixings.lap_nails, fixings.capping_nails, fixings.edge_nails) == (130, 130, 274)
    assert fixings.adhesive == 12_800


@given(st.integers(400, 3000), st.integers(400, 3000))
def test_felt_goes_over_any_break_and_up_to_the_ridge(lower: int, upper: int) -> None:
    surface = rectangle(2000, lower + upper)
    rows = list(roll_rows(surface, felt_roll_material(FELT, ROLL), Fraction(lower)))
    lows = [row.low for row in rows]
    assert all(not lower - 150 < low < lower + 75 for low in lows[1:])
    assert all(before + 1000 - after >= 75 for before, after in pairwise(lows))
    assert lows[-1] + 1000 >= lower + upper - 50
    assert len(rows) == 1 or lows[-2] + 1000 < lower + upper - 50


def test_a_slope_that_widens_upward_is_lapped_along_its_shorter_row() -> None:
    # By hand: the left edge is square, the right one 900 further out at the top, 1800 up.
    slope = Slope(Fraction(2000), Fraction(1800), Fraction(2900), Fraction(0), Finish.RIDGE)
    lay = lay_felt(roof(slope), FELT, ROLL)
    # Rows reach up to 950 and 1800: 2000 + 475 and 2000 + 900, turned down at both ends.
    assert lay.rows == ((Fraction(2575), Fraction(3000)),)
    assert lay.side_laps == (Fraction(2575),)


def test_a_row_is_carried_through_a_valley_and_ends_at_a_wall() -> None:
    # By hand: 100 beyond a valley as underlay is, 0 at a wall, 50 at a verge; common practice.
    beside = {EdgeKind.VALLEY: 2150, EdgeKind.ABUTMENT: 2050, EdgeKind.HIP: 2050}
    for edge, length in beside.items():
        slope = replace(rectangle(2000, 900), right_edge=edge)
        assert lay_felt(roof(slope), FELT, ROLL).rows == ((Fraction(length),),)


def test_a_roll_that_is_too_short_and_a_pitch_too_low_are_refused() -> None:
    with pytest.raises(Refused, match=r"^Felt roll: “999 mm” is not valid\. Give 1 m or more\.$"):
        felted(hip_roof(), Packing(felt_roll=Fraction(999)))
    flat = RoofMeasures(
        RoofForm.PENT,
        length=parse_length("Length", "2.4 m"),
        span=parse_length("Span", "1.8 m"),
        pitch=parse_angle("Pitch", "1"),
    )
    with pytest.raises(Refused, match=r"1\.5° is the least for felt"):
        take_off(build_roof(flat), COVERINGS["felt"])


@given(strategies.slopes())
def test_no_row_is_shorter_than_the_slope_it_covers(slope: Slope) -> None:
    """Sampled at many heights: each lies in a row that reaches from side to side."""
    (rows,) = lay_felt(roof(slope), FELT, ROLL).rows
    short = 50 if slope.finish in (Finish.RIDGE, Finish.POINT) else 0
    for step in range(41):
        v = (slope.length - short) * step / 40
        within = [row for j, row in enumerate(rows) if 925 * j - 50 <= v <= 925 * j + 950]
        wide = slope.right(v) - slope.left(v)
        assert within
        assert min(within) >= wide


@given(st.lists(strategies.slopes(), min_size=1, max_size=3), st.integers(2, 20))
def test_so_many_rolls_are_enough_and_no_fewer_could_be(pieces: list[Slope], metres: int) -> None:
    """Replayed piece by piece in another way: whole rolls are counted out as they are laid."""
    roll = Fraction(1000 * metres)
    lay = lay_felt(roof(*pieces), FELT, roll)
    left, begun, laps = Fraction(0), 0, 0
    for need in (row for slope in lay.rows for row in slope):
        covered = Fraction(0)
        if left >= need or left >= 500:
            covered, left = min(left, need), left - min(left, need)
        else:
            left = Fraction(0)
        first = not covered
        while covered < need:
            begun += 1
            gain = min(roll, need - covered + (0 if first else 150))
            covered, left = covered + gain - (0 if first else 150), roll - gain
            laps, first = laps + (not first), False
    assert (lay.lengths.rolls, lay.lengths.end_laps) == (begun, laps)
    assert lay.lengths.rolls >= ceil(lay.lengths.laid / roll)


@given(st.lists(strategies.slopes(), min_size=1, max_size=3))
def test_totals_add_up(pieces: list[Slope]) -> None:
    takeoff = felted(roof(*pieces, ridges=(3000, 4000)))
    lay, fixings = takeoff.lay, takeoff.fixings
    rows = sum(sum(slope) for slope in lay.rows)
    assert lay.lengths.laid == rows + 150 * lay.lengths.end_laps
    assert lay.rolls == lay.lengths.rolls + lay.capping_rolls
    assert fixings.nails == fixings.edge_nails + fixings.lap_nails + fixings.capping_nails
    across = 1000 * lay.lengths.end_laps + 300 * lay.capping.end_laps
    assert fixings.adhesive == sum(lay.side_laps) + across + 2 * 7200


@given(st.lists(strategies.slopes(), min_size=1, max_size=3), st.integers(2, 20))
def test_every_length_is_known_by_its_roll_and_they_add_up(
    pieces: list[Slope], metres: int
) -> None:
    lay = lay_felt(roof(*pieces), FELT, Fraction(1000 * metres))
    lengths = lay.lengths.pieces
    assert sum(piece.length for piece in lengths) == lay.lengths.laid
    for roll in range(1, lay.lengths.rolls + 1):
        cut = [piece.length for piece in lengths if piece.stock == roll]
        assert 0 < sum(cut) <= 1000 * metres
    for run, row in enumerate(row for slope in lay.rows for row in slope):
        laid = [piece for piece in lengths if piece.run == run]
        assert laid[0].start == 0
        assert laid[-1].end == row
        assert all(before.end - after.start == 150 for before, after in pairwise(laid))
