"""Angles and pitches as they are typed."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.errors import Refused
from domain.exact import cosine
from domain.units import parse_angle
from tests.domain.test_units import HOSTILE


def test_a_pitch_needs_no_unit_but_a_number_of_degrees_does() -> None:
    assert parse_angle("Pitch", "1 in 4", bare=False) == parse_angle("Pitch", "3/12")
    with pytest.raises(Refused, match="Its unit is missing: give 30 deg"):
        parse_angle("Pitch", "30", bare=False)


@pytest.mark.parametrize(
    ("text", "rise", "run"),
    [
        ("3/12", 3, 12),
        ("3 / 12", 3, 12),
        ("4 in 12", 4, 12),
        ("1 in 4", 1, 4),
        ("1in4", 1, 4),
        ("1:40", 1, 40),
        ("12/12", 1, 1),
        ("24/12", 2, 1),
        ("4.5 IN 12", 9, 24),
        ("0/12", 0, 12),
    ],
)
def test_a_pitch_is_so_much_rise_in_so_much_run(text: str, rise: int, run: int) -> None:
    read = parse_angle("Pitch", f" {text} ")
    assert abs(float(read.degrees) - math.degrees(math.atan2(rise, run))) < 1e-12
    assert read.typed == text


@given(rise=st.integers(1, 400), run=st.integers(1, 400))
def test_the_cosine_of_a_pitch_is_its_run_over_its_slope(rise: int, run: int) -> None:
    found = cosine(parse_angle("Pitch", f"{rise} in {run}").degrees)
    assert abs(found**2 * (rise**2 + run**2) - run**2) < Fraction(1, 10**38)


@pytest.mark.parametrize("text", ["26.6", "26.6 deg", "26.6°", "26.6 degrees"])
def test_an_angle_is_read_exactly(text: str) -> None:
    assert parse_angle("Pitch", text).degrees == Fraction("26.6")


@pytest.mark.parametrize("text", [*HOSTILE, "1/6", "1 in 0", "-3/12", "-1", "91", "30 mm", "1 rad"])
def test_what_is_no_angle_is_refused(text: str) -> None:
    # A slope of 4 in 12 is "pitch 1/6" in American usage: read, NAVEDTRA 14044. To a British
    # roofer it would be 1 in 6, so it may pass for neither.
    with pytest.raises(Refused):
        parse_angle("Pitch", text)
