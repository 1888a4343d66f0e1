"""Weather for laying: the hours of a day inside the trader's limits and inside daylight.

The forecast is what the trader typed from wherever they read it; nothing here says that it is safe.
"""

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import StrEnum
from math import ceil, floor

from domain.days.daylight import daylight
from domain.trader import WeatherLimits


@dataclass(frozen=True, slots=True)
class Forecast:
    """The forecast for a day, as the trader typed it. None: not known."""

    day: date
    dry_from: int | None
    """Hour of the day, 0 to 23, from which it is dry."""
    dry_until: int | None
    """Hour, 1 to 24, at which rain comes; both None with rain_all_day False means not known."""
    rain_all_day: bool = False
    low_c: Decimal | None = None
    """Lowest air temperature of the working day."""
    wind_mph: Decimal | None = None
    """Highest average wind."""
    gust_mph: Decimal | None = None
    version: int = 0


class Verdict(StrEnum):
    """What a day's forecast comes to."""

    GOOD = "dry hours inside the limits"
    POOR = "too bad to lay"
    UNKNOWN = "no forecast"


@dataclass(frozen=True, slots=True)
class Window:
    """The run of hours in which a roof can be laid."""

    verdict: Verdict
    words: str = ""
    """For the week, 11 characters at most: "dry 9–16", "rain 11 on", "dry, 4 °C", "wind 24".

    Wind in mph."""
    trouble: str = ""
    """What ends it or leaves none, in a word: "rain", "wind", "cold"; "" for nothing."""
    first: Decimal = Decimal(0)
    """Hour by the clock at which it opens."""
    last: Decimal = Decimal(0)
    """Hour at which it closes; as ``first`` if there is none."""

    @property
    def hours(self) -> Decimal:
        """Hours from the first to the last dry hour."""
        return self.last - self.first


def window(forecast: Forecast | None, limits: WeatherLimits) -> Window:
    """Judge a day by the limits: wind first, then rain, then cold."""
    if forecast is None:
        return Window(Verdict.UNKNOWN)
    windy = _wind_words(forecast, limits)
    if windy:
        return Window(Verdict.POOR, windy, "wind")
    dry = _dry_window(forecast)
    if dry.verdict is not Verdict.POOR and too_cold(forecast.low_c, limits):
        known = "dry, " if dry.verdict is Verdict.GOOD else ""
        return Window(Verdict.POOR, f"{known}{_whole(forecast.low_c, ROUND_FLOOR)} °C", "cold")
    return dry


def at_risk(found: Window, hours: Decimal) -> bool:
    """Tell whether weather stands in the way of so many hours' work; a day not known does not.

    Stripping begins only if what is stripped can be laid or sheeted before the window closes
    (common practice). Daylight alone too short for the hours is not the weather's doing.
    """
    return bool(found.trouble) and found.hours < hours


def too_cold(temperature_c: Decimal | None, limits: WeatherLimits) -> bool:
    """Tell whether the air is no warmer than the limit; not known is not too cold."""
    return temperature_c is not None and temperature_c <= limits.least_c


def too_windy(wind_mph: Decimal | None, limits: WeatherLimits) -> bool:
    """Tell whether an average wind, mph, is too strong to lay in; not known is not too strong.

    Whatever the trader's own limit for laying is, the one for being on a roof at all holds too.
    """
    return wind_mph is not None and (wind_mph >= limits.lay_mph or wind_mph > limits.never_mph)


def limits_in_words(limits: WeatherLimits) -> tuple[str, ...]:
    """Say when to lay, a sentence a limit; common practice but for the greatest wind."""
    # Forecasts give whole miles an hour: of these, the first that is too strong.
    gusts = ceil(limits.lay_mph * limits.gust_factor)
    most_gusts = floor(limits.never_mph * limits.gust_factor) + 1
    return (
        "Dry weather and a dry deck.",
        f"Air above {_plain(limits.least_c)} °C.",
        f"Lay in average winds under {_plain(limits.lay_mph)} mph, gusts under {gusts} mph.",
        (
            f"Get off the roof in winds over {_plain(limits.never_mph)} mph or gusts of "
            f"{most_gusts} mph or more."
        ),
        f"Unroll underlay or felt {limits.underlay_rest_min} minutes before use.",
        (
            "In the cold: keep shingles and rolls indoors overnight and seal tabs by hand "
            "with more mastic, never with a flame."
        ),
    )


def _wind_words(forecast: Forecast, limits: WeatherLimits) -> str:
    """The wind, mean or gusts, if it is too strong; empty if it is not."""
    if too_windy(forecast.wind_mph, limits):
        return f"wind {_whole(forecast.wind_mph, ROUND_HALF_UP)}"
    gust = forecast.gust_mph
    if gust is not None and too_windy(gust / limits.gust_factor, limits):
        return f"gust {_whole(gust, ROUND_HALF_UP)}"
    return ""


def _dry_window(forecast: Forecast) -> Window:
    """The dry hours of daylight, whatever wind and cold do."""
    if forecast.rain_all_day:
        return Window(Verdict.POOR, "rain", "rain")
    if forecast.dry_from is None and forecast.dry_until is None:
        return Window(Verdict.UNKNOWN)
    sunrise, sunset = daylight(forecast.day)
    dry_from, dry_until = forecast.dry_from or 0, forecast.dry_until or 24
    first, last = max(sunrise, Decimal(dry_from)), min(sunset, Decimal(dry_until))
    if first >= last:
        return Window(Verdict.POOR, "rain", "rain")
    trouble = "rain" if first > sunrise or last < sunset else ""
    if not trouble:
        words = "dry"
    elif forecast.dry_from is None:
        words = f"rain {dry_until} on"
    elif forecast.dry_until is None:
        words = f"dry {dry_from} on"
    else:
        words = f"dry {max(dry_from, floor(sunrise))}–{min(dry_until, ceil(sunset))}"
    return Window(Verdict.GOOD, words, trouble, first, last)


def _whole(number: Decimal | None, rounding: str) -> str:
    """A whole number with a true minus sign; a temperature is never shown warmer than it is."""
    return "" if number is None else f"{number.quantize(Decimal(1), rounding)}".replace("-", "−")


def _plain(number: Decimal) -> str:
    """A number without noughts that say nothing."""
    return f"{number.normalize():f}"
