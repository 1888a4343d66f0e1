"""What comes in rolls, as underlay is laid."""

from dataclasses import replace
from fractions import Fraction

import pytest
import shapely
from hypothesis import given

from domain.errors import Refused
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.takeoff.rolls import UNDERLAY, RollMaterial, lay_rolls, roll_rows
from tests import strategies


def rectangle(eaves: int, length: int, finish: Finish = Finish.RIDGE) -> Slope:
    return Slope(Fraction(eaves), Fraction(length), Fraction(eaves), Fraction(0), finish)


def roof(*slopes: Slope) -> Roof:
    return Roof(RoofForm.APEX, slopes, ridge_runs=(), pitch=None)


def roll(metres: int) -> RollMaterial:
    return replace(UNDERLAY, roll=Fraction(1000 * metres))


def test_an_apex_of_2520_by_1062_takes_four_rows_and_one_roll() -> None:
    # worked example
    lay = lay_rolls(roof(rectangle(2520, 1062), rectangle(2520, 1062)), UNDERLAY)
    assert (lay.rows, lay.rolls) == (4, 1)
    assert lay.laid == 4 * (2520 + 2 * 50)


def test_a_hip_roof_of_3_6_by_2_4_metres_takes_eight_rows_and_two_rolls() -> None:
    # worked example: pitch 30°, overhang 100
    hips = (EdgeKind.HIP, EdgeKind.HIP)
    length, inset = Fraction(1501), Fraction(1300)
    side = Slope(Fraction(3800), length, Fraction(1200), inset, Finish.RIDGE, *hips)
    end = Slope(Fraction(2600), length, Fraction(0), inset, Finish.POINT, *hips)
    lay = lay_rolls(roof(side, side, end, end), UNDERLAY)
    assert (lay.rows, lay.rolls) == (8, 2)


@pytest.mark.parametrize(
    ("finish", "longest"),
    [(Finish.RIDGE, 850), (Finish.TOP, 900), (Finish.ABUTMENT, 950), (Finish.POINT, 950)],
)
def test_one_row_reaches_over_the_eaves_and_what_the_finish_asks(
    finish: Finish, longest: int
) -> None:
    # 50 over the edges, 100 over a ridge, a width of 1000 and side laps of 100: common practice
    assert len(list(roll_rows(rectangle(2000, longest, finish), UNDERLAY))) == 1
    assert len(list(roll_rows(rectangle(2000, longest + 1, finish), UNDERLAY))) == 2
    assert len(list(roll_rows(rectangle(2000, longest + 900, finish), UNDERLAY))) == 2
    assert len(list(roll_rows(rectangle(2000, longest + 901, finish), UNDERLAY))) == 3


def test_a_slope_of_120_inches_takes_four_widths_of_36_inch_roll() -> None:
    # head lap 2 in, nothing over the edges: 1 + ⌈(120 − 36)/34⌉ = 4: read and derived,
    # NAVEDTRA 14044
    inch = strategies.INCH
    american = replace(UNDERLAY, width=36 * inch, side_lap=2 * inch, over_edge=Fraction(0))
    slope = Slope(240 * inch, 120 * inch, 240 * inch, Fraction(0), Finish.ABUTMENT)
    assert [row.length for row in roll_rows(slope, american)] == [240 * inch] * 4


def test_a_remnant_of_500_or_more_begins_a_row_that_the_next_roll_completes() -> None:
    # derived: rows of 2620 from 5 m; 2380 is left, and 340 of the next roll completes the row
    lay = lay_rolls(roof(rectangle(2520, 800), rectangle(2520, 800)), roll(5))
    assert lay.rolls == 2
    assert lay.laid == 2 * 2620 + 100


@pytest.mark.parametrize(("eaves", "laid"), [(2400, 2 * 2500 + 100), (2401, 2 * 2501)])
def test_a_remnant_under_500_that_cannot_do_the_row_is_waste(eaves: int, laid: int) -> None:
    # derived: rows of 2500 and 2501 leave 500 and 499 of a roll of 3 m
    lay = lay_rolls(roof(rectangle(eaves, 800), rectangle(eaves, 800)), roll(3))
    assert lay.rolls == 2
    assert lay.laid == laid


def test_a_remnant_under_500_does_a_row_that_it_is_long_enough_for() -> None:
    # derived: rows of 300 from 1 m: the third from the last 400 of the roll, 100 waste
    lay = lay_rolls(roof(*[rectangle(200, 800)] * 3), roll(1))
    assert lay.rolls == 1
    assert lay.laid == 3 * 300


def test_a_row_longer_than_a_roll_takes_end_laps() -> None:
    # derived: 4100 from rolls of 2 m: 2000, then 1900 and 200 more
    lay = lay_rolls(roof(rectangle(4000, 800)), roll(2))
    assert lay.rolls == 3
    assert lay.laid == 4100 + 2 * 100


def test_a_roll_too_short_to_be_one_is_refused() -> None:
    with pytest.raises(
        Refused, match=r"^Underlay roll: “999 mm” is not valid\. Give 1 m or more\.$"
    ):
        replace(UNDERLAY, roll=Fraction(999))


@given(slope=strategies.slopes())
def test_rows_are_as_long_as_the_slope_between_their_edges_and_what_goes_over(
    slope: Slope,
) -> None:
    # computed: shapely, the slope clipped to each band of the roll; 50 over a verge and 100 over a
    # hip: common practice
    top = float(slope.length)
    top_left, top_right = float(slope.inset), float(slope.inset + slope.top)
    polygon = shapely.Polygon([(0, 0), (float(slope.eaves), 0), (top_right, top), (top_left, top)])
    over = 200 if slope.left_edge is EdgeKind.HIP else 100
    for number, row in enumerate(roll_rows(slope, UNDERLAY)):
        low = 900 * number - 50
        assert row.number == number + 1
        assert row.low == low
        left, _, right, _ = polygon.intersection(shapely.box(-1e5, low, 1e5, low + 1000)).bounds
        assert float(row.length) == pytest.approx(right - left + over, abs=1e-6)


@given(slope=strategies.slopes())
def test_the_last_row_reaches_the_top_and_the_last_but_one_does_not(slope: Slope) -> None:
    reach = {Finish.RIDGE: 100, Finish.TOP: 50}.get(slope.finish, 0) + slope.length
    count = len(list(roll_rows(slope, UNDERLAY)))
    assert 900 * count + 50 >= reach
    if count > 1:
        assert 900 * (count - 1) + 50 < reach
