"""Windows in which a roof can be laid, by the trader's limits."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.daylight import daylight
from domain.days.forecast import Forecast, Sky
from domain.days.places import PLACES
from domain.days.weather import (
    Verdict,
    against,
    limits_in_words,
    too_cold,
    too_short,
    too_windy,
    window,
)
from domain.job import BookedDay
from domain.trader import Trader, WeatherLimits
from domain.units import parse_speed
from tests.builders import forecast

LIMITS = WeatherLimits()
IN_SHREWSBURY = Trader(address="3 Tannery Row\nOsmerton\nSY8 1AA")
WINTER, SUMMER = date(2026, 11, 25), date(2026, 6, 24)


def visit(hours: float | str, task: str = "strip, lay") -> tuple[BookedDay, ...]:
    return (BookedDay(WINTER, Decimal(hours), task),)


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
    ("day", "typed", "words"),
    [
        # By the sun alone, as reckoned for Shrewsbury: light from 7.52 to 16.02 on 25 November.
        (WINTER, "d", "dry 8–16"),
        (WINTER, "d0-24", "dry 8–16"),
        (WINTER, "d9-15", "dry 9–15"),
        (WINTER, "d6-12", "dry 8–12"),
        (WINTER, "r11", "dry 8–11"),
        (WINTER, "d11-24", "dry 11–16"),
        # In summer the working day is the shorter: common practice, half past seven to six.
        (SUMMER, "d", "dry 7½–18"),
        (SUMMER, "d5-21", "dry 7½–18"),
    ],
)
def test_a_window_is_told_by_its_hours_and_no_wider_than_it_is(
    day: date, typed: str, words: str
) -> None:
    found = window(day, forecast(day, typed), IN_SHREWSBURY)
    assert (found.verdict, found.words) == (Verdict.GOOD, words)
    sunrise, sunset = daylight(day, PLACES["SY"])
    assert sunrise <= found.first < found.last <= sunset
    assert Decimal("7.5") <= found.first < found.last <= 18


def test_the_working_day_is_the_traders() -> None:
    early = replace(IN_SHREWSBURY, work_from=time(6), work_until=time(14, 20))
    assert window(SUMMER, forecast(SUMMER, "d"), early).words == "dry 6–14¼"


def test_daylight_is_that_of_the_traders_place() -> None:
    midwinter = date(2026, 12, 21)
    fair = {
        area: window(midwinter, None, replace(IN_SHREWSBURY, address=f"Osmerton {area}1 1AA"))
        for area in ("TR", "AB")
    }
    assert fair["TR"].fair_hours - fair["AB"].fair_hours >= 1


@pytest.mark.parametrize(
    ("typed", "drying", "words"),
    [
        ("d9-12,14-17", 60, "dry 9–12"),
        ("d9-11,13-17", 60, "dry 14–17"),
        ("d9-11,13-17", 0, "dry 13–17"),
        ("d9-11,13-17", 80, "dry 14½–17"),
        ("d8-9,10-11", 60, "dry 8–9"),
        ("d8-10,12-15", 60, "dry 8–10"),  # as long as the other: the first
    ],
)
def test_after_rain_a_deck_dries_before_the_next_run_of_hours(
    typed: str, drying: int, words: str
) -> None:
    trader = replace(IN_SHREWSBURY, limits=WeatherLimits(drying_min=drying))
    assert window(SUMMER, forecast(SUMMER, typed), trader).words == words


@pytest.mark.parametrize(
    ("typed", "words", "trouble"),
    [
        ("r", "rain", "rain"),
        ("r7", "rain", "rain"),
        ("d17-24", "rain", "rain"),
        ("c", "cold", "cold"),
        ("w", "wind", "wind"),
        ("d/4", "cold 4 °C", "cold"),
        ("d/-1.5", "cold −2 °C", "cold"),
        ("r11/5", "cold 5 °C", "cold"),
        ("?/2", "cold 2 °C", "cold"),
        ("d9-16@24", "wind 24", "wind"),
        ("dg25.5", "gust 26", "wind"),
        ("r@20", "wind 20", "wind"),
        ("r/4", "rain", "rain"),
    ],
)
def test_a_day_without_a_window_says_why(typed: str, words: str, trouble: str) -> None:
    found = window(WINTER, forecast(WINTER, typed), IN_SHREWSBURY)
    assert (found.verdict, found.words, found.trouble) == (Verdict.POOR, words, trouble)
    assert found.hours == 0


def test_a_frosty_dawn_is_typed_by_its_warm_hours() -> None:
    found = window(WINTER, forecast(WINTER, "d11-16/-3"), IN_SHREWSBURY)
    assert (found.words, found.trouble) == ("dry 11–16", "cold")


@pytest.mark.parametrize("known", [None, Forecast(WINTER), forecast(WINTER, "?/9@5")])
def test_what_is_not_known_is_not_judged(known: Forecast | None) -> None:
    found = window(WINTER, known, IN_SHREWSBURY)
    assert (found.verdict, found.words) == (Verdict.UNKNOWN, "")
    assert found.hours == found.fair_hours == 8
    assert not against(found, visit(7), LIMITS)


@pytest.mark.parametrize(
    ("typed", "hours", "weather", "short"),
    [
        ("d", "7.5", "", ""),
        ("d", "8", "", "too short: 8½ h of 8 h with the underlay's ½ h"),
        ("d", "8.25", "", "too short: 8¼ h of 8 h"),
        ("?", "9", "", "too short: 9 h of 8 h"),
        ("d7-17", "9", "", "too short: 9 h of 8 h"),  # rain in the dark takes nothing
        ("r17", "9", "", "too short: 9 h of 8 h"),
        ("r13", "4.5", "", ""),
        ("r13", "4.75", "rain", ""),
        ("r13", "9", "rain", "too short: 9 h of 8 h"),
        ("d11-16/2", "5", "cold", ""),
        ("w", "0.25", "wind", ""),
        ("r", "0", "", ""),
    ],
)
def test_weather_and_a_short_day_are_told_apart(
    typed: str, hours: str, weather: str, short: str
) -> None:
    found = window(WINTER, forecast(WINTER, typed), IN_SHREWSBURY)
    assert against(found, visit(hours), LIMITS) == weather
    assert too_short(found, visit(hours), LIMITS) == short


def test_a_midwinter_day_is_too_short_for_eight_hours() -> None:
    day = date(2026, 12, 21)
    found = window(day, forecast(day, "d"), IN_SHREWSBURY)
    assert found.words == "dry 8½–15¾"
    assert too_short(found, visit(8), LIMITS) == "too short: 8 h of 7¼ h"


def test_underlay_lies_unrolled_once_a_visit_that_lays() -> None:
    found = window(SUMMER, forecast(SUMMER, "d"), IN_SHREWSBURY)
    assert found.hours == Decimal("10.5")
    assert not too_short(found, visit(5) + visit("4.5"), LIMITS)
    assert too_short(found, visit(5) + visit("4.75"), LIMITS)
    assert not too_short(found, visit("10.5", "strip"), LIMITS)
    assert too_short(found, visit("10.25", "strip, lay"), LIMITS)
    assert not too_short(found, visit("10.5"), WeatherLimits(underlay_rest_min=0))


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


@given(
    st.dates(date(2026, 1, 1), date(2026, 12, 31)),
    st.frozensets(st.integers(0, 23)),
    st.none() | st.integers(1, 23),
    st.none() | st.decimals(-20, 60, places=1),
    st.none() | st.decimals(0, 60, places=1),
    st.sampled_from(Sky),
    st.sampled_from(sorted(PLACES)),
)
def test_any_forecast_makes_a_window_inside_every_limit(
    day: date,
    dry: frozenset[int],
    rain: int | None,
    low: Decimal | None,
    wind: Decimal | None,
    sky: Sky,
    area: str,
) -> None:
    trader = replace(IN_SHREWSBURY, address=f"Osmerton {area}1 1AA")
    found = window(day, Forecast(day, sky, dry, rain, low, wind), trader)
    sunrise, sunset = daylight(day, PLACES[area])
    assert len(found.words) <= 11
    assert found.hours <= found.fair_hours
    assert (found.verdict is Verdict.POOR) == (found.hours == 0)
    if found.verdict is Verdict.GOOD:
        assert max(sunrise, Decimal("7.5")) <= found.first < found.last <= min(sunset, Decimal(18))
        assert sky in (Sky.DRY, Sky.RAIN)
        assert low is None or low > 5 or dry
        assert wind is None or wind < 17
    if found.verdict is Verdict.GOOD and sky is Sky.DRY and dry:
        assert set(range(floor(found.first), ceil(found.last))) <= dry


def test_the_gusts_that_are_said_are_the_first_whole_ones_that_are_too_strong() -> None:
    limits = WeatherLimits(lay_mph=Decimal(16), never_mph=Decimal(24))  # gusts of 24 and over 36
    said = " ".join(limits_in_words(limits))
    assert "gusts under 24 mph" in said
    assert "gusts of 37 mph or more" in said
