"""Weights and what carries them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.takeoff.loads import Load, area_of_boards, boards_over


@pytest.mark.parametrize(
    ("kg", "limit", "times", "oversteps"),
    [(0, 25, 0, False), (25, 25, 1, False), (26, 25, 2, True), (701, 350, 3, True)],
)
def test_a_haul_goes_in_as_few_sacks_or_trips_as_hold_it(
    kg: int, limit: int, times: int, *, oversteps: bool
) -> None:
    load = Load(Fraction(kg), Fraction(limit))  # derived
    assert (load.times, load.oversteps) == (times, oversteps)


def test_a_limit_that_nobody_wrote_down_is_never_overstepped() -> None:
    assert (Load(Fraction(5000), None).times, Load(Fraction(5000), None).oversteps) == (None, False)


def test_boards_are_counted_at_what_one_covers() -> None:
    # derived: 1.2 m² of boards that cover 100 mm each is 12 m.
    assert boards_over(Fraction("1.2"), Fraction(100)) == 12
    assert area_of_boards(Fraction(12), Fraction(100)) == Fraction("1.2")


@given(st.fractions(0, 100), st.fractions(10, 300))
def test_area_and_metres_of_board_are_each_other_s_way_back(
    area: Fraction, cover: Fraction
) -> None:
    assert area_of_boards(boards_over(area, cover), cover) == area
