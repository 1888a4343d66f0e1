"""What is known without the solver: a plan at once, what it is held against, what is left over."""

import math
from collections.abc import Iterator
from fractions import Fraction

from hypothesis import given

from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.by_hand import by_hand, row_by_row
from domain.cutting.lays import classes_of
from domain.cutting.model import CutModel
from domain.cutting.plan import plan_cuts
from domain.setting_out.courses import Row
from tests.domain.cutting.roofs import hip_like_roofs, hip_roof, rectangle, small_roofs
from tests.domain.cutting.search import fewest
from tests.examples import examples

Roof = tuple[list[Row], Shingle, int]
NONE = Fraction(0)


def row(width: int) -> Row:
    return Row(0, 1, NONE, Fraction(width), NONE, NONE, NONE)


@examples(100)
@given(hip_like_roofs())
def test_a_plan_by_hand_is_one_the_model_knows(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    classes = classes_of(rows, shingle)
    plan = by_hand(classes, ridge_pieces, shingle)
    model = CutModel(classes, ridge_pieces, shingle, plan.strips)
    values, programme = model.values(plan), model.fewest_strips()
    assert programme.allows(values)
    assert programme.cost(values) == plan.strips
    again = model.choice(values)
    assert (again.lays, again.strips) == (plan.lays, plan.strips)
    assert model.values(again) == values


@examples(60)
@given(small_roofs())
def test_row_by_row_every_row_is_searched_by_itself(roof: Roof) -> None:
    rows, shingle, ridge_pieces = roof
    alone = sum(fewest([each], shingle, 0)[0] for each in rows)
    ridge = math.ceil(Fraction(ridge_pieces, shingle.tabs))
    assert row_by_row(classes_of(rows, shingle), ridge_pieces, shingle) == alone + ridge


def test_an_apex_shed_saves_5_strips_against_row_by_row() -> None:
    # 14 rows of 2,520 take three strips each, 19 ridge pieces five; the plan 42 (derived).
    rows = [r for s in (0, 1) for r in rectangle(s, SQUARE_BUTT, eaves=Fraction(2520), courses=7)]
    plan = plan_cuts(rows, SQUARE_BUTT, ridge_pieces=19)
    assert (plan.row_by_row, plan.strips) == (47, 42)


def test_who_watches_is_told_more_and_more_until_the_fewest_is_proven() -> None:
    rows = hip_roof(HEXAGONAL, eaves=(3800, 2600), ridge=1200, length=1501)
    told: list[tuple[int, int]] = []

    def watch(found: int, at_least: int) -> bool:
        told.append((found, at_least))
        return True

    plan = plan_cuts(rows, HEXAGONAL, ridge_pieces=70, watch=watch)
    found, at_least = zip(*told, strict=True)
    assert list(found) == sorted(found, reverse=True)
    assert list(at_least) == sorted(at_least)
    assert told[-1] == (plan.strips, plan.bound)
    assert plan.proven


def test_who_watches_can_stop_it_and_has_the_plan_by_hand() -> None:
    rows = hip_roof(HEXAGONAL, eaves=(3800, 2600), ridge=1200, length=1501)
    asked: Iterator[bool] = iter([False, False])
    plan = plan_cuts(rows, HEXAGONAL, ridge_pieces=70, watch=lambda *_: next(asked))
    by_hands = plan_cuts(rows, HEXAGONAL, ridge_pieces=70, time_limit_s=0)
    assert (plan.strips, plan.proven) == (by_hands.strips, False)
