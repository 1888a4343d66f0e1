"""Sunrise and sunset, held against published tables."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.daylight import daylight

DATES = st.dates(date(2000, 1, 1), date(2099, 12, 31))
MANCHESTER, EDINBURGH = 53.48, 55.95


@pytest.mark.parametrize(
    ("day", "latitude", "rises", "sets"),
    [
        # A newspaper's table of 21 December 2018, inews.co.uk: read.
        (date(2018, 12, 21), MANCHESTER, (8, 22), (15, 51)),
        (date(2018, 12, 21), EDINBURGH, (8, 41), (15, 39)),
        # A table of the first of each month in Manchester, whattime.city: read.
        (date(2026, 4, 1), MANCHESTER, (6, 46), (19, 42)),
        (date(2026, 7, 1), MANCHESTER, (4, 44), (21, 42)),
        (date(2026, 10, 1), MANCHESTER, (7, 9), (18, 51)),
    ],
)
def test_daylight_is_that_of_published_tables(
    day: date, latitude: float, rises: tuple[int, int], sets: tuple[int, int]
) -> None:
    for hours, (hour, minute) in zip(daylight(day, latitude), (rises, sets), strict=True):
        assert abs(hours - hour - Decimal(minute) / 60) <= Decimal("0.1")  # six minutes


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # Summer Time Order 2002 and the Summer Time Act 1972, last Sundays of March and October:
        # memory.
        (date(2026, 3, 28), date(2026, 3, 29)),
        (date(2026, 10, 25), date(2026, 10, 24)),
    ],
)
def test_clocks_go_forward_and_back_on_the_last_sundays(before: date, after: date) -> None:
    change = daylight(after)[0] - daylight(before)[0]
    assert Decimal("0.9") < change < Decimal("1.1")


@given(DATES, st.floats(49, 61))
def test_the_sun_rises_and_sets_every_day_in_britain(day: date, latitude: float) -> None:
    sunrise, sunset = daylight(day, latitude)
    assert 0 < sunrise < sunset < 24
