"""Nails and mastic."""

from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import given

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import Piece, PieceKind, plan_cuts
from domain.setting_out.courses import Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.takeoff.fixings import MASTIC, Mastic, Nail, NailBoxes, cartridges, fix, nails_in_box
from tests import strategies

SHANK = Nail(head_diameter=Fraction(0), head_thickness=Fraction(0))


def pent(eaves: int, length: int) -> Roof:
    sizes = (Fraction(eaves), Fraction(length), Fraction(eaves), Fraction(0))
    return Roof(RoofForm.PENT, (Slope(*sizes, Finish.TOP),), ridge_runs=(), pitch=None)


def piece(u0: int, u1: int, tabs: int) -> Piece:
    return Piece(PieceKind.WHOLE, 0, 2, Fraction(u0), Fraction(u1), tabs)


def test_a_three_tab_strip_takes_4_nails_and_a_square_320() -> None:
    # at least 4 nails a three-tab strip, 80 strips a square: read and derived, NAVEDTRA 14044
    strips = [piece(1000 * n, 1000 * (n + 1), tabs=3) for n in range(80)]
    assert fix(pent(1000, 1000), [], strips[:1], 0, HEXAGONAL, NailBoxes()).shingle_nails == 4
    assert fix(pent(1000, 1000), [], strips, 0, HEXAGONAL, NailBoxes()).shingle_nails == 320


@given(slope=strategies.slopes(), shingle=strategies.shingles())
def test_every_cut_out_inside_a_piece_is_nailed_and_both_its_ends(
    slope: Slope, shingle: Shingle
) -> None:
    # common practice; counted on the lattice of each row, without what the cut plan says of tabs
    laid = rows_of_slope(0, slope, lay_courses(slope, shingle), shingle)[:2]
    pieces = plan_cuts(laid, shingle, 0).pieces
    expected = sum(_lattice_lines(piece, laid[piece.course - 1], shingle) + 2 for piece in pieces)
    assert fix(pent(1000, 1000), [], pieces, 0, shingle, NailBoxes()).shingle_nails == expected


def _lattice_lines(piece: Piece, row: Row, shingle: Shingle) -> int:
    """Count the lines u ≡ offset (mod a tab) strictly inside a piece."""
    first = floor((piece.u0 - row.offset) / shingle.tab) + 1
    last = ceil((piece.u1 - row.offset) / shingle.tab) - 1
    return last - first + 1


def test_edges_are_nailed_at_50_and_their_underlay_at_300() -> None:
    # common practice; derived for eaves and top of 1000, verges of 599
    fixings = fix(pent(1000, 599), [], [], 0, SQUARE_BUTT, NailBoxes())
    assert fixings.edge_nails == 2 * 21 + 2 * 12
    assert fixings.underlay_nails == 2 * 4 + 2 * 2
    longer = fix(pent(1000, 600), [], [], 0, SQUARE_BUTT, NailBoxes())
    assert longer.edge_nails == fixings.edge_nails + 2
    assert longer.underlay_nails == fixings.underlay_nails + 2


def test_hips_and_ridges_have_no_edge_nails() -> None:
    hips = (EdgeKind.HIP, EdgeKind.HIP)
    sizes = (Fraction(1000), Fraction(900), Fraction(400), Fraction(300))
    side = Slope(*sizes, Finish.RIDGE, *hips)
    roof = Roof(RoofForm.APEX, (side,), ridge_runs=(), pitch=None)
    assert fix(roof, [], [], 0, SQUARE_BUTT, NailBoxes()).edge_nails == 21


def test_ridge_pieces_take_two_nails_each() -> None:
    # common practice
    assert fix(pent(1000, 600), [], [], 19, SQUARE_BUTT, NailBoxes()).ridge_nails == 38


def test_strips_and_underlay_are_nailed_from_boxes_of_their_own() -> None:
    boxes = NailBoxes(shingle=20, felt=7)
    fixings = fix(pent(1000, 600), [], [piece(0, 1000, tabs=4)], 3, SQUARE_BUTT, boxes)
    assert (fixings.through_strips, fixings.underlay_nails) == (5 + 6 + 68, 14)
    assert (fixings.shingle_boxes, fixings.felt_boxes) == (4, 2)


@pytest.mark.parametrize(
    ("centres", "at_eaves", "at_verges"), [(50, 21, 12), (75, 14, 8), (100, 11, 6)]
)
def test_edge_strips_are_nailed_as_far_apart_as_the_trader_says(
    centres: int, at_eaves: int, at_verges: int
) -> None:
    # derived: ⌊1000 / centres⌋ + 1 along eaves and top, ⌊599 / centres⌋ + 1 along each verge
    as_nailed = replace(SQUARE_BUTT, edge_nail_centres=Fraction(centres))
    counted = fix(pent(1000, 599), [], [], 0, as_nailed, NailBoxes()).edge_nails
    assert counted == 2 * at_eaves + 2 * at_verges


def test_a_3_by_20_nail_has_1_110_grams_of_shank_and_901_make_a_kilogram() -> None:
    # derived: π/4·d²·L·7850 kg/m³
    assert round(SHANK.grams, 3) == Fraction("1.110")
    assert nails_in_box(SHANK, box_kg=Fraction(1)) == 901


def test_a_head_makes_the_box_hold_fewer() -> None:
    # derived: 9 × 1.2 mm of head is 0.6 g more
    assert nails_in_box(Nail(), box_kg=Fraction(1)) == 585


@pytest.mark.parametrize(
    ("bead", "count"), [("0", 0), ("10.96", 1), ("10.97", 2), ("21.92", 2), ("21.93", 3)]
)
def test_a_310_ml_cartridge_lays_10_96_metres_of_6_mm_bead(bead: str, count: int) -> None:
    # derived: volume over area
    assert cartridges(Fraction(bead) * 1000, MASTIC) == count


def test_a_thicker_bead_takes_more_cartridges() -> None:
    assert cartridges(Fraction(10_000), Mastic(diameter=Fraction(12))) == 4


def test_mastic_runs_along_the_edges_the_first_tabs_and_under_the_ridge() -> None:
    # worked example: 21.26 m for an apex of 2520 × 1062 with 19 ridge pieces; derived: twice
    # 2520 × 2 and 1062 × 2, a tab of 250 for 19 pieces and once more for the closing one, and 10 %
    side = Slope(Fraction(2520), Fraction(1062), Fraction(2520), Fraction(0), Finish.RIDGE)
    roof = Roof(RoofForm.APEX, (side, side), ridge_runs=(Fraction(2520),), pitch=None)
    fixings = fix(roof, [], [], 19, SQUARE_BUTT, NailBoxes())
    assert fixings.mastic == (4 * 2520 + 4 * 1062 + 20 * 250) * Fraction(11, 10)
    assert fixings.cartridges == 2
