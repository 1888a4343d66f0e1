"""Windows in which a roof can be laid, by the trader's limits."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.weather import (
    Forecast,
    Verdict,
    at_risk,
    limits_in_words,
    too_cold,
    too_windy,
    window,
)
from domain.trader import WeatherLimits
from domain.units import parse_speed
from tests.builders import forecast

LIMITS = WeatherLimits()
WINTER = date(2026, 11, 25)  # light from about 8 to 16


def test_the_limits_begin_as_the_trade_has_them() -> None:
    # Above 5 °C and underlay unrolled 30 minutes before: common practice.
    assert LIMITS.least_c == 5
    assert LIMITS.underlay_rest_min == 30
    # Gusts half as much again as the mean: common practice.
    assert LIMITS.gust_factor == Decimal("1.5")


def test_no_one_is_on_a_roof_over_23_mph() -> None:
    # HSE, construction FAQ on work at height: winds over 23 mph (Beaufort 5): quoted.
    assert LIMITS.never_mph == 23
    # 23 mph = 10.28 m/s, exact definition of the mile: computed.
    assert round(float(parse_speed("Wind", "10.28 m/s").mph), 1) == 23.0
    # Beaufort 5 is 8.0 to 10.7 m/s, WMO scale: read.
    assert parse_speed("Wind", "8.0 m/s").mph < LIMITS.never_mph < parse_speed("W", "10.7 m/s").mph


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"dry_from": 9, "dry_until": 15}, "dry 9–15"),
        ({"dry_from": 0, "dry_until": 11}, "dry 7–11"),
        ({"dry_from": None, "dry_until": 11}, "rain 11 on"),
        ({"dry_from": 11, "dry_until": None}, "dry 11 on"),
        ({}, "dry"),
        ({"dry_from": 0, "dry_until": None}, "dry"),
    ],
)
def test_a_dry_window_is_told_by_its_hours(changes: dict[str, int | None], words: str) -> None:
    found = window(forecast(WINTER, **changes), LIMITS)
    assert (found.verdict, found.words) == (Verdict.GOOD, words)


@pytest.mark.parametrize(
    ("changes", "words", "trouble"),
    [
        ({"rain_all_day": True}, "rain", "rain"),
        ({"dry_from": 17, "dry_until": 24}, "rain", "rain"),
        ({"low_c": Decimal(4)}, "dry, 4 °C", "cold"),
        ({"low_c": Decimal("-1.5")}, "dry, −2 °C", "cold"),
        ({"low_c": Decimal(2), "dry_from": None, "dry_until": None}, "2 °C", "cold"),
        ({"wind_mph": Decimal(24)}, "wind 24", "wind"),
        ({"gust_mph": Decimal("25.5")}, "gust 26", "wind"),
        ({"wind_mph": Decimal(20), "rain_all_day": True}, "wind 20", "wind"),
        ({"low_c": Decimal(4), "rain_all_day": True}, "rain", "rain"),
    ],
)
def test_a_day_without_a_window_says_why(
    changes: dict[str, Decimal | bool], words: str, trouble: str
) -> None:
    found = window(forecast(WINTER, **changes), LIMITS)
    assert (found.verdict, found.words, found.trouble) == (Verdict.POOR, words, trouble)
    assert found.hours == 0


@pytest.mark.parametrize("known", [None, Forecast(WINTER, None, None)])
def test_what_is_not_known_is_not_judged(known: Forecast | None) -> None:
    found = window(known, LIMITS)
    assert (found.verdict, found.words) == (Verdict.UNKNOWN, "")
    assert not at_risk(found, Decimal(8))


def test_a_window_keeps_within_daylight() -> None:
    found = window(forecast(WINTER, dry_from=6, dry_until=12), LIMITS)
    assert 7 < found.first < 8
    assert found.last == 12


def test_the_window_must_be_long_enough_for_the_work() -> None:
    short = window(forecast(dry_from=9, dry_until=13), LIMITS)
    assert short.hours == 4
    assert at_risk(short, Decimal("4.5"))
    assert not at_risk(short, Decimal(4))


def test_a_short_dry_day_is_not_the_weathers_doing() -> None:
    dry = window(forecast(WINTER), LIMITS)
    assert dry.hours < 9
    assert not at_risk(dry, Decimal(9))


def test_a_rest_of_the_day_too_windy_or_cold_is_at_risk_for_any_work() -> None:
    for changes in ({"wind_mph": Decimal(17)}, {"low_c": Decimal(5)}, {"rain_all_day": True}):
        assert at_risk(window(forecast(**changes), LIMITS), Decimal("0.5"))


def test_limits_are_the_traders_but_the_roofs_greatest_wind_holds_too() -> None:
    assert not too_cold(Decimal("5.1"), LIMITS)
    assert too_cold(Decimal("7.9"), WeatherLimits(least_c=Decimal(8)))
    assert not too_windy(Decimal("16.9"), LIMITS)
    assert not too_windy(Decimal(18), WeatherLimits(lay_mph=Decimal(20)))
    assert too_windy(Decimal("23.1"), WeatherLimits(lay_mph=Decimal(30)))
    assert not too_windy(Decimal(23), WeatherLimits(lay_mph=Decimal(30)))


def test_the_limits_are_said_with_their_figures() -> None:
    said = " ".join(limits_in_words(WeatherLimits(underlay_rest_min=45)))
    for figure in (
        "5 °C",
        "under 17 mph",
        "under 26 mph",
        "over 23",
        "35 mph or more",
        "45 minutes",
    ):
        assert figure in said
    assert "never with a flame" in said


hours = st.none() | st.integers(0, 24)
figures = st.none() | st.decimals(-20, 60, places=1)


@given(
    st.dates(date(2026, 1, 1), date(2026, 12, 31)), hours, hours, figures, figures, st.booleans()
)
def test_any_forecast_makes_a_window_within_the_day(
    day: date, first: int | None, last: int | None, low: Decimal, wind: Decimal, rain: bool
) -> None:
    found = window(Forecast(day, first, last, rain, low, wind), LIMITS)
    assert 0 <= found.first <= found.last <= 24
    assert len(found.words) <= 11
    assert (found.verdict is Verdict.GOOD) == (found.hours > 0)
    if found.verdict is Verdict.GOOD:
        assert not rain
        assert low is None or low > 5
        assert wind is None or wind < 17


def test_the_gusts_that_are_said_are_the_first_whole_ones_that_are_too_strong() -> None:
    limits = WeatherLimits(lay_mph=Decimal(16), never_mph=Decimal(24))  # gusts of 24 and over 36
    said = " ".join(limits_in_words(limits))
    assert "gusts under 24 mph" in said
    assert "gusts of 37 mph or more" in said
