"""What is laid along breaks, valleys and walls, where no edge is free."""

from fractions import Fraction
from typing import Any

import pytest

from domain.coverings.square_butt import SQUARE_BUTT
from domain.papers.blocks import Table
from domain.papers.takeoff_paper import takeoff_paper
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.takeoff.edging import edge_strips
from domain.takeoff.figures_for_programs import as_json
from domain.takeoff.rolls import UNDERLAY, roll_rows
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off
from domain.takeoff.surveyfile import read_survey_file

APEX_PAST_EDGE = """
covering = "square-butt"
past_edge = "10 mm"
[roof]
form = "apex"
length = "2.4 m"
span = "1.8 m"
rise = "450 mm"
eaves_overhang = "50 mm"
verge_overhang = "60 mm"
"""
STEEP_BARN = """
covering = "square-butt"
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
BARN = """
covering = "square-butt"
[roof]
form = "barn"
length = "3 m"
lower_run = "600 mm"
lower_rise = "800 mm"
upper_run = "800 mm"
upper_rise = "600 mm"
"""
VALLEY = """
covering = "square-butt"
[roof]
form = "slopes"
pitch = "35 deg"
[[roof.slope]]
eaves = "2 m"
top = "2.6 m"
inset = "0 mm"
length = "1.2 m"
finish = "abutment"
left_edge = "abutment"
right_edge = "valley"
[[roof.slope]]
eaves = "1 m"
top = "1.6 m"
inset = "-600 mm"
length = "1.2 m"
finish = "ridge"
left_edge = "valley"
"""


def counted(survey: str) -> ShingleTakeOff:
    read = read_survey_file(survey)
    takeoff = take_off(build_roof(read.measures), read.covering, read.packing)
    assert isinstance(takeoff, ShingleTakeOff)
    return takeoff


def sloped(finish: Finish, left: EdgeKind, right: EdgeKind) -> Slope:
    sizes = (Fraction(2000), Fraction(1200), Fraction(2000), Fraction(0))
    return Slope(*sizes, finish, left, right)


@pytest.mark.parametrize(
    ("left", "right", "over"),
    [
        # common practice: 50 over a free edge, 100 over a hip and through a valley, none at a wall
        (EdgeKind.VERGE, EdgeKind.VERGE, 100),
        (EdgeKind.HIP, EdgeKind.VALLEY, 200),
        (EdgeKind.ABUTMENT, EdgeKind.VERGE, 50),
        (EdgeKind.ABUTMENT, EdgeKind.ABUTMENT, 0),
    ],
)
def test_underlay_runs_on_as_the_side_asks(left: EdgeKind, right: EdgeKind, over: int) -> None:
    slope = sloped(Finish.RIDGE, left, right)
    assert [row.length for row in roll_rows(slope, UNDERLAY)] == [2000 + over] * 2


@pytest.mark.parametrize(
    ("finish", "length", "count"),
    # derived: a second row when 50 below and what goes over the top pass 1000
    [
        (Finish.RIDGE, 850, 1),
        (Finish.RIDGE, 851, 2),
        (Finish.ABUTMENT, 950, 1),
        (Finish.ABUTMENT, 951, 2),
    ],
)
def test_underlay_is_carried_over_a_ridge_and_ends_at_a_wall(
    finish: Finish, length: int, count: int
) -> None:
    slope = Slope(Fraction(2000), Fraction(length), Fraction(2000), Fraction(0), finish)
    assert len(list(roll_rows(slope, UNDERLAY))) == count


def test_no_edge_strip_lies_on_a_break_a_valley_or_against_a_wall() -> None:
    # derived: eaves of 2000 and 100 for the corners, then 50 of lap a strip: three strips
    slope = sloped(Finish.ABUTMENT, EdgeKind.VALLEY, EdgeKind.ABUTMENT)
    assert edge_strips(Roof(RoofForm.SLOPES, (slope,), (), None), SQUARE_BUTT) == 3


def test_a_barn_roof_is_taken_off_whole() -> None:
    takeoff = counted(BARN)
    figures = as_json(takeoff)
    # derived: 3, 4, 5 on both slopes; nothing is covered at a break
    assert [slope.length for slope in takeoff.roof.slopes] == [1000] * 4
    assert [courses.covered for courses in takeoff.courses] == [0, 0, 125, 125]
    # derived: verges of 1000 eight times, eaves and break of 3000 twice each, every 50
    assert figures["edge_nails"] == 8 * 21 + 4 * 61
    assert takeoff.ridge_pieces == 22
    assert figures["flashing_m"] == figures["valley_m"] == 0


def test_strips_are_bent_over_a_break_and_begin_again_at_it() -> None:
    # worked example: agreed by two who set it out apart
    figures = as_json(counted(STEEP_BARN))
    slopes: Any = figures["slopes"]
    lower, _, upper, _ = slopes
    assert (lower["slope_mm"], lower["courses"], lower["exposure_mm"]) == (907, 7, 129.57)
    assert lower["chalk_lines_mm"][-1] == 1117.43
    assert (upper["slope_mm"], upper["courses"], upper["exposure_mm"]) == (894, 6, 128.17)
    keys = ("cut_plan_strips", "edge_strips", "packs", "underlay_rows")
    assert [figures[key] for key in keys] == [88, 22, 6, 6]
    keys = ("shingle_nails", "edge_nails", "underlay_nails", "mastic_m")
    assert [figures[key] for key in keys] == [442, 400, 50, 44.99]


def test_a_steep_slope_has_spots_under_its_tabs_and_is_told_of() -> None:
    takeoff = counted(STEEP_BARN)
    assert "Slopes 1 and 2: over 60°. Two spots of mastic under each tab" in takeoff.cautions[0]
    # derived: 13 tabs a row of 3100, seven rows twice, 50 each and 10 %
    less = counted(STEEP_BARN.replace("700 mm", "690 mm"))  # 59.9°
    assert takeoff.fixings.mastic - less.fixings.mastic > 2 * 7 * 13 * 50 * Fraction(11, 10) - 100
    assert less.cautions == ()


def test_strips_past_the_edge_lower_the_lines_and_widen_the_rows() -> None:
    # By hand: 1062 + 10 − 125 = 947 in 7 courses of 135.29; 10 more at each verge.
    takeoff = counted(APEX_PAST_EDGE)
    (courses, _) = takeoff.courses
    assert courses.exposure == Fraction(947, 7)
    assert list(courses.chalk_lines[:2]) == [Fraction(330), 330 + Fraction(947, 7)]
    assert {(int(row.u0), int(row.u1)) for row in takeoff.rows} == {(-10, 2530)}
    assert courses.butt(1) == -10


def test_flashing_and_valley_are_lines_of_the_take_off() -> None:
    takeoff = counted(VALLEY)
    figures = as_json(takeoff)
    # derived: 2.6 m at the top and 1.2 m at the side; √(1.2² + 0.6²) = 1.3416
    assert (figures["flashing_m"], figures["valley_m"]) == (3.8, 1.34)
    tables = [block for block in takeoff_paper(takeoff).blocks if isinstance(block, Table)]
    lines = [row for row in tables[0].rows if row[0] in {"Flashing", "Valley lining"}]
    assert [row[2] for row in lines] == ["3.8 m", "1.34 m"]
    (edges,) = [table for table in tables if "Edges" in table.heading]
    assert edges.rows[0] == ("1", "eaves 2,000", "abutment 1,200", "valley 1,342", "abutment 2,600")
