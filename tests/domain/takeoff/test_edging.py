"""Edge strips, and the pieces over ridges and hips."""

from fractions import Fraction

import pytest

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.square_butt import SQUARE_BUTT
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.takeoff.edging import edge_strips, ridge_pieces


def roof(*slopes: Slope) -> Roof:
    return Roof(RoofForm.APEX, slopes, ridge_runs=(), pitch=None)


def rectangle(eaves: int, length: int, finish: Finish) -> Slope:
    return Slope(Fraction(eaves), Fraction(length), Fraction(eaves), Fraction(0), finish)


def hip_side(eaves: int, top: int) -> Slope:
    """Give a slope whose only free edge is its eaves."""
    hips = (EdgeKind.HIP, EdgeKind.HIP)
    inset = Fraction(eaves - top, 2)
    return Slope(Fraction(eaves), Fraction(1501), Fraction(top), inset, Finish.RIDGE, *hips)


def test_the_edge_strips_of_an_apex() -> None:
    # worked example: eaves 2520, verges 1062, no strip at the ridge
    slope = rectangle(2520, 1062, Finish.RIDGE)
    assert edge_strips(roof(slope, slope), SQUARE_BUTT) == 11


def test_a_top_edge_has_edge_strips_and_an_abutment_has_none() -> None:
    # derived, runs of 1000, 600, 600 and 1000 with the corners: 1000; 600, 400 left; 400 and 250,
    # 750 left; 750 and 300
    assert edge_strips(roof(rectangle(900, 500, Finish.TOP)), SQUARE_BUTT) == 4
    assert edge_strips(roof(rectangle(900, 500, Finish.ABUTMENT)), SQUARE_BUTT) == 3


def test_a_hip_roof_has_edge_strips_along_its_eaves_alone() -> None:
    # worked example: hexagonal, eaves of 3800 and 2600
    slopes = (hip_side(3800, 1200), hip_side(3800, 1200), hip_side(2600, 0), hip_side(2600, 0))
    assert edge_strips(roof(*slopes), HEXAGONAL) == 14


@pytest.mark.parametrize(
    ("first", "second", "strips"),
    [
        (900, 900, 2),  # each run takes a strip whole
        (901, 900, 3),  # 51 of a second strip; its 949 and 101 of a third do the next run
        (700, 1000, 2),  # 200 left, and 950 more do the next run
        (701, 1000, 3),  # 199 left is waste, and the next run takes two strips
    ],
)
def test_runs_overrun_their_corners_and_strips_lap(first: int, second: int, strips: int) -> None:
    # 50 at each corner, 50 a lap, remnants from 200 on are laid: common practice; counts derived
    assert edge_strips(roof(hip_side(first, 0), hip_side(second, 0)), SQUARE_BUTT) == strips


def test_a_remnant_under_200_is_waste_even_where_a_run_could_use_it() -> None:
    # derived: 850 leaves 150, which would do for a run of 50 + 100
    assert edge_strips(roof(hip_side(750, 0), hip_side(50, 0)), SQUARE_BUTT) == 2
    assert edge_strips(roof(hip_side(700, 0), hip_side(50, 0)), SQUARE_BUTT) == 1


@pytest.mark.parametrize(("run", "pieces"), [(2520, 19), (145, 2), (146, 3)])
def test_ridge_pieces_expose_145_and_one_more_closes_the_run(run: int, pieces: int) -> None:
    # 145 along the run: common practice; 2520 takes 19: worked example
    assert ridge_pieces([Fraction(run)], SQUARE_BUTT) == pieces


def test_every_run_has_its_closing_piece() -> None:
    assert ridge_pieces([Fraction(145)] * 3, SQUARE_BUTT) == 6
    assert ridge_pieces([], SQUARE_BUTT) == 0
