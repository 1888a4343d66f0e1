"""Rounding in whole numbers alone is rounding all the same."""

from fractions import Fraction
from math import floor

from hypothesis import example, given
from hypothesis import strategies as st

from domain.exact import half_up


@given(st.fractions())
@example(Fraction(5, 2))
@example(Fraction(-5, 2))
def test_halves_go_up(value: Fraction) -> None:
    assert half_up(value) == floor(value + Fraction(1, 2))
