from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.cut_list import cut_list_of
from domain.cutting.lays import Lay, lays_of
from domain.cutting.model import CountedPlan
from domain.cutting.plan import TIME_LIMIT_S, CutPlan, plan_cuts
from domain.integer_programme import Answer, Programme, Watch, minimise
from domain.setting_out.courses import Row
from tests.domain.cutting.replay import replay
from tests.domain.cutting.roofs import (
    SHINGLES,
    hip_like_roofs,
    hip_roof,
    hipped,
    rectangle,
    rectangular_roofs,
    small_hips,
    small_roofs,
)
from tests.domain.cutting.search import fewest
from tests.examples import examples

Roof = tuple[list[Row], Shingle, int]


def nails(plan: CutPlan) -> int:
    return sum(piece.cutouts_inside + 2 for piece in plan.pieces)


def row(width: Fraction | int, offset: Fraction | int = 0, loss: tuple[int, int] = (0, 0)) -> Row:
    left, right = map(Fraction, loss)
    return Row(0, 1, Fraction(0), Fraction(width), Fraction(offset), left, right)


# The three roofs that the rules of setting out work through; their figures stand there (derived).


def test_an_apex_shed_takes_42_strips_and_201_nails() -> None:
    rows = [r for s in (0, 1) for r in rectangle(s, SQUARE_BUTT, eaves=Fraction(2520), courses=7)]
    plan = plan_cuts(rows, SQUARE_BUTT, ridge_pieces=19)
    replay(plan, rows, SQUARE_BUTT, 19)
    assert (plan.strips, plan.proven, plan.pieces_proven, nails(plan)) == (42, True, True, 201)


def test_a_pent_in_feet_takes_35_strips_and_186_nails() -> None:
    eaves = 8 * Fraction("304.8") + 2 * 50
    rows = rectangle(0, SQUARE_BUTT, eaves=eaves, courses=13)
    plan = plan_cuts(rows, SQUARE_BUTT, ridge_pieces=0)
    replay(plan, rows, SQUARE_BUTT, 0)
    assert (plan.strips, plan.proven, plan.pieces_proven, nails(plan)) == (35, True, True, 186)


def test_a_hexagonal_hip_takes_116_strips_and_409_nails() -> None:
    rows = hip_roof(HEXAGONAL, eaves=(3800, 2600), ridge=1200, length=1501)
    assert len(rows) == 40
    plan = plan_cuts(rows, HEXAGONAL, ridge_pieces=70)
    replay(plan, rows, HEXAGONAL, 70)
    assert (plan.strips, plan.proven, plan.pieces_proven, nails(plan)) == (116, True, True, 409)


@examples(220)
@given(small_roofs())
@pytest.mark.long
def test_no_search_finds_fewer_strips_or_pieces(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    plan = plan_cuts(rows, shingle, ridge_pieces)
    replay(plan, rows, shingle, ridge_pieces)
    assert plan.proven
    assert plan.pieces_proven
    assert (plan.strips, len(plan.pieces)) == fewest(rows, shingle, ridge_pieces)


@examples(100)
@given(small_hips())
def test_no_search_finds_fewer_for_courses_between_hips(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    plan = plan_cuts(rows, shingle, ridge_pieces)
    replay(plan, rows, shingle, ridge_pieces)
    assert plan.pieces_proven
    assert (plan.strips, len(plan.pieces)) == fewest(rows, shingle, ridge_pieces)


@examples(50)
@given(rectangular_roofs())
def test_a_rectangular_roof_can_be_laid_as_planned_and_is_proven(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    plan = plan_cuts(rows, shingle, ridge_pieces)
    replay(plan, rows, shingle, ridge_pieces)
    assert plan.proven
    assert plan.pieces_proven


@examples(50)
@given(hip_like_roofs())
def test_ragged_rows_can_be_laid_as_planned(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    replay(plan_cuts(rows, shingle, ridge_pieces), rows, shingle, ridge_pieces)


def test_a_right_and_a_left_piece_share_a_tab() -> None:
    # 125 + 510 of the first row take three tabs between them, and leave one for the second row.
    rows = [row(635, offset=125), replace(row(20), course=2)]
    assert plan_cuts(rows, SQUARE_BUTT, ridge_pieces=0).strips == 1


def test_an_end_piece_is_not_laid_narrower_than_100_mm() -> None:
    # 1000 + 50 would leave three tabs for ridge pieces, but 50 is too narrow (common practice).
    plan = plan_cuts([row(1050)], SQUARE_BUTT, ridge_pieces=3)
    assert plan.strips == 2
    assert all(piece.length >= 100 for piece in plan.pieces)


def test_what_a_hip_takes_off_an_end_piece_does_not_count_towards_100_mm() -> None:
    plan = plan_cuts([row(1400, loss=(0, 130))], SQUARE_BUTT, ridge_pieces=0)
    assert plan.pieces_proven
    assert all(piece.length - 130 >= 100 for piece in plan.pieces if piece.kind == "right")


def test_an_end_piece_of_just_100_mm_is_laid() -> None:
    # The left piece has 200 of its 1000 where it is nailed; any shorter one would have none.
    assert lays_of(row(1100, loss=(800, 0)), SQUARE_BUTT) == (Lay(left=4, right=1),)


def test_a_row_that_no_lay_suits_is_laid_all_the_same() -> None:
    plan = plan_cuts([row(1050, loss=(500, 500))], SQUARE_BUTT, ridge_pieces=0)
    assert (plan.strips, len(plan.pieces)) == (2, 2)


def test_a_row_narrower_than_100_mm_is_one_piece() -> None:
    (piece,) = plan_cuts([row(40)], SQUARE_BUTT, ridge_pieces=0).pieces
    assert (piece.kind.value, int(piece.length), piece.tabs) == ("row", 40, 1)


def test_a_strip_is_cut_ridge_pieces_first_and_its_offcut_spare() -> None:
    (strip,) = plan_cuts([row(300)], SQUARE_BUTT, ridge_pieces=2).cut_list
    assert [int(cut) for cut in strip.cuts] == [250, 500, 800]
    assert [f"{part.kind} {part.start}–{part.end}" for part in strip.parts] == [
        "ridge 0–500",
        "row 500–800",
        "spare 800–1000",
    ]


def test_two_left_pieces_of_a_strip_stand_behind_what_is_spare_of_it() -> None:
    # Of rows of 2100 and 1100 the left pieces take a tab each of one strip, and leave two.
    rows = [row(2100), replace(row(1100), course=2)]
    plan = plan_cuts(rows, SQUARE_BUTT, ridge_pieces=0)
    replay(plan, rows, SQUARE_BUTT, 0)
    assert ["spare", "left", "left"] in [
        [part.kind.value for part in strip.parts] for strip in plan.cut_list
    ]


def test_a_row_as_long_as_a_strip_is_not_cut() -> None:
    plan = plan_cuts([row(1000)], SQUARE_BUTT, ridge_pieces=0)
    assert (plan.strips, plan.whole_strips, plan.cut_list) == (1, 1, ())


def test_ridge_pieces_alone_are_cut_from_whole_strips() -> None:
    plan = plan_cuts([], HEXAGONAL, ridge_pieces=7)
    assert (plan.strips, plan.proven, plan.pieces) == (3, True, ())
    replay(plan, [], HEXAGONAL, 7)


@pytest.mark.parametrize("shingle", SHINGLES)
def test_nothing_takes_no_strips(shingle: Shingle) -> None:
    plan = plan_cuts([], shingle, ridge_pieces=0)
    assert plan == CutPlan(0, 0, True, True, (), (), 0, 0, 0)


def test_a_strip_that_nothing_is_cut_from_is_not_counted() -> None:
    unused = CountedPlan(lays=(), shares=(), patterns=(((4,), 1), ((1, 1, 1, 1), 1)))
    _, strips = cut_list_of(unused, SQUARE_BUTT, ridge_pieces=2)
    assert [[part.ridge_pieces for part in strip.parts] for strip in strips] == [[2, 0]]


def test_pieces_are_not_proven_fewest_unless_strips_are(monkeypatch: pytest.MonkeyPatch) -> None:
    answers: list[Answer] = []

    def doubt_the_first(
        programme: Programme,
        start: Sequence[int],
        time_limit_s: float,
        floor: int,
        watch: Watch | None,
    ) -> Answer:
        answer = minimise(programme, start, time_limit_s, floor, watch)
        answers.append(answer if answers else replace(answer, bound=answer.bound - 1))
        return answers[-1]

    monkeypatch.setattr("domain.cutting.plan.minimise", doubt_the_first)
    plan = plan_cuts([row(1400)], SQUARE_BUTT, ridge_pieces=0)
    assert [answer.proven for answer in answers] == [False, True]
    assert (plan.strips, plan.bound, plan.proven, plan.pieces_proven) == (2, 1, False, False)


@examples(30)
@given(hip_like_roofs())
def test_without_time_there_is_a_plan_that_claims_no_more_than_it_knows(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    plan = plan_cuts(rows, shingle, ridge_pieces, time_limit_s=0)
    replay(plan, rows, shingle, ridge_pieces)
    best = plan_cuts(rows, shingle, ridge_pieces)
    assert plan.bound <= best.bound <= best.strips <= plan.strips <= plan.row_by_row


@pytest.mark.parametrize(("slopes", "is_given"), [(4, True), (24, False)])
def test_only_a_roof_that_the_solver_is_done_with_in_time_is_given_to_it(
    monkeypatch: pytest.MonkeyPatch, slopes: int, is_given: bool
) -> None:
    # of 4 slopes no two are alike, nor of 24: the solver would not hear the clock
    limits: list[float] = []

    def told(programme: Programme, start: Sequence[int], limit: float, **_: object) -> Answer:
        limits.append(limit)
        return Answer(tuple(start), programme.cost(start), 0, 0.0)

    monkeypatch.setattr("domain.cutting.plan.minimise", told)
    rows = [
        row
        for n in range(slopes)
        for row in hipped(n, SQUARE_BUTT, eaves=3000 + 137 * n, top=900 + 71 * n, length=2000)
    ]
    assert not plan_cuts(rows, SQUARE_BUTT, ridge_pieces=0).proven
    assert [0 < limit < TIME_LIMIT_S for limit in limits] == [is_given, is_given]


def test_the_plan_is_the_same_however_the_rows_are_listed() -> None:
    rows = hip_roof(HEXAGONAL, eaves=(2600, 1800), ridge=800, length=1040)
    plan = plan_cuts(rows, HEXAGONAL, ridge_pieces=30)
    assert plan == plan_cuts(rows[::-1], HEXAGONAL, ridge_pieces=30)
