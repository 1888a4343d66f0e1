"""Both plans of a roof as they are kept, and what they leave over."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.fewest import fewest_of
from domain.cutting.offcuts import Offcut, offcuts_of
from domain.cutting.plan import CutPlan, plan_cuts
from domain.cutting.plans import fits
from domain.estimate.kept_plans import plans_of, plans_to_keep
from domain.estimate.pricing import option_of
from domain.estimate.quoting import basis_of
from domain.job import Stage
from domain.setting_out.courses import Row
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import Finish
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off_shingles, worked_out
from tests import builders, priced

NONE = Fraction(0)
DAY = date(2026, 4, 1)


@pytest.mark.parametrize(
    ("width", "ridge_pieces", "offcuts"),
    [
        (240, 0, (Offcut(3, 1),)),
        (250, 1, (Offcut(2, 1),)),
        (510, 0, (Offcut(1, 1),)),  # three tabs, the third trimmed
        (1000, 0, ()),
        (0, 2, (Offcut(2, 1),)),
    ],
)
def test_whole_tabs_that_nothing_needs_are_left_over(
    width: int, ridge_pieces: int, offcuts: tuple[Offcut, ...]
) -> None:
    rows = [Row(0, 2, NONE, Fraction(width), NONE, NONE, NONE)] if width else []
    slope = Slope(Fraction(width), Fraction(500), Fraction(width), NONE, Finish.RIDGE)
    plan = plan_cuts(rows, SQUARE_BUTT, ridge_pieces)
    ways = fewest_of(plan, [slope], SQUARE_BUTT).ways
    assert offcuts_of(ways, SQUARE_BUTT, ridge_pieces) == offcuts


def _worked() -> ShingleTakeOff:
    takeoff = worked_out(priced.worked_example())
    assert isinstance(takeoff, ShingleTakeOff)
    return takeoff


def test_plans_fit_the_roof_they_were_made_for_and_no_other() -> None:
    takeoff = _worked()
    rows, closing = takeoff.rows, takeoff.ridge_pieces
    wider = (replace(rows[0], u1=rows[0].u1 + 1), *rows[1:])
    moved = (replace(rows[0], u0=rows[0].u0 + 1, u1=rows[0].u1 + 1), *rows[1:])
    for plan in (takeoff.working, takeoff.fewest.ways):
        assert plan is not None
        assert fits(plan, rows, SQUARE_BUTT, closing)
        for other in (rows[1:], wider, moved):
            assert not fits(plan, other, SQUARE_BUTT, closing)
        assert not fits(plan, rows, SQUARE_BUTT, closing + 40)


def test_a_roof_is_counted_by_the_plans_that_were_kept_with_its_quote() -> None:
    takeoff = _worked()
    basis = basis_of(priced.quote(takeoffs=(takeoff,)))
    assert basis is not None
    option = option_of(basis, plans_to_keep(takeoff, DAY))
    quote = replace(priced.quote(), options=(option,))
    job = replace(builders.job_at(Stage.QUOTED), quotes=(quote,))
    kept = plans_of(job, "square-butt")
    assert kept is not None
    assert (kept.on, kept.fewest, kept.working) == (DAY, takeoff.fewest, takeoff.working)
    again = take_off_shingles(takeoff.roof, SQUARE_BUTT, takeoff.packing, _never, kept)
    assert again == takeoff
    assert plans_of(job, "hexagonal") is None


def _never(_rows: Sequence[Row], _shingle: Shingle, _ridge_pieces: int) -> CutPlan:
    raise AssertionError("It was worked out anew.")


def test_a_quote_that_kept_no_plans_or_none_that_can_be_read_is_worked_out_anew() -> None:
    made = priced.quote()
    for plans in ("", "{}", "not JSON", '{"on": "2026-04-01", "fewest": 3, "working": []}'):
        option = replace(made.options[0], plans=plans)
        job = replace(builders.job_at(Stage.QUOTED), quotes=(replace(made, options=(option,)),))
        assert plans_of(job, "square-butt") is None


def test_nails_bought_and_strips_needed_are_those_of_the_plan_to_work_by() -> None:
    # The fewest strips have 201 nails in the courses, the plan to work by 204 (setting out, 10).
    fewest, worked = priced.worked_example(), _worked()
    assert (fewest.fixings.shingle_nails, worked.fixings.shingle_nails) == (201, 204)
    bases = [basis_of(priced.quote(takeoffs=(each,))) for each in (fewest, worked)]
    nails = [int(basis.supplies[2].needed) for basis in bases if basis]
    assert nails == [429, 432]
