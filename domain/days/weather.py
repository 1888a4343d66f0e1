"""Weather for laying: the hours of a day inside the trader's limits, working day and daylight.

The forecast is what the trader typed from wherever they read it; nothing here says that it is safe.
"""

from collections.abc import Iterable, Sequence
from datetime import date, time
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import StrEnum
from math import ceil, floor
from typing import NamedTuple

from domain.days.calendar import show_hours
from domain.days.daylight import daylight
from domain.days.forecast import Forecast, Sky
from domain.days.places import place_of
from domain.job.booked_day import BookedDay
from domain.trader import Trader, WeatherLimits

TOO_SHORT = "too short"


class Verdict(StrEnum):
    """What a day's forecast comes to."""

    GOOD = "dry hours inside the limits"
    POOR = "too bad to lay"
    UNKNOWN = "no forecast"


class Window(NamedTuple):
    """The run of hours in which a roof can be laid, by the clock, to the quarter inside it."""

    verdict: Verdict
    fair_hours: Decimal
    """What the trader's working day and daylight would give in fair weather."""
    words: str = ""
    """For the week, 11 characters at most: "dry 8½–15½", "rain", "wind 24", "cold 4 °C"; wind in
    mph. Empty for a day that is not known."""
    trouble: str = ""
    """What takes hours from it, in a word: "rain", "wind", "cold"; "" for nothing."""
    first: Decimal = Decimal(0)
    """Hour by the clock at which it opens; of a day not known, were it fair."""
    last: Decimal = Decimal(0)
    """Hour at which it closes; as ``first`` if there is none."""

    @property
    def hours(self) -> Decimal:
        """How long it is open."""
        return self.last - self.first


def window(day: date, forecast: Forecast | None, trader: Trader) -> Window:
    """Judge a day by the trader's limits, working day and daylight: wind, then rain, then cold.

    Of several dry spells the longest counts, the first of those as long; what comes after another
    opens once the deck has dried.
    """
    first, last = _working_light(day, trader)
    fair = last - first
    told, limits = forecast or Forecast(day), trader.limits
    windy, cold = _wind_words(told, limits), _cold_words(told, limits)
    if windy:
        return Window(Verdict.POOR, fair, windy, "wind")
    opens, closes = _longest(told.spells, first, last, limits)
    if told.sky in (Sky.DRY, Sky.RAIN) and opens >= closes:
        return Window(Verdict.POOR, fair, "rain", "rain")
    if cold:
        return Window(Verdict.POOR, fair, cold, "cold")
    if told.sky is Sky.UNKNOWN:
        return Window(Verdict.UNKNOWN, fair, first=first, last=last)
    shorter = "cold" if too_cold(told.low_c, limits) else "rain"
    words = f"dry {show_hours(opens)}–{show_hours(closes)}"
    trouble = shorter if closes - opens < fair else ""
    return Window(Verdict.GOOD, fair, words, trouble, opens, closes)


def against(found: Window, visits: Sequence[BookedDay], limits: WeatherLimits) -> str:
    """Say what weather stands in the way of the visits of one day: "rain", "wind", "cold".

    Nothing if it leaves the hours they need, takes none that the day has, or is not known.
    Stripping begins only if what is stripped can be laid or sheeted before the window closes
    (common practice).
    """
    return found.trouble if _needed(visits, limits) > found.hours else ""


def too_short(found: Window, visits: Sequence[BookedDay], limits: WeatherLimits) -> str:
    """Say that a day is too short for its visits in any weather: "too short: 8 h of 7½ h".

    Nothing if it is long enough. The hours are those booked; if they go in but the underlay's do
    not, both: "too short: 8 h of 7½ h with the underlay's ½ h".
    """
    booked, needed = _booked(visits), _needed(visits, limits)
    if needed <= found.fair_hours:
        return ""
    day = f"{show_hours(found.fair_hours)} h"
    if booked > found.fair_hours:
        return f"{TOO_SHORT}: {show_hours(booked)} h of {day}"
    underlay = f"the underlay's {show_hours(needed - booked)} h"
    return f"{TOO_SHORT}: {show_hours(needed)} h of {day} with {underlay}"


def room_for_work(found: Window, limits: WeatherLimits) -> Decimal:
    """Return the hours that one visit can be booked for in fair weather; a quarter at least."""
    return max(Decimal("0.25"), found.fair_hours - _resting(limits))


def windy(forecast: Forecast, limits: WeatherLimits) -> bool:
    """Tell whether the wind of a day is over the limits, by its figures or as it was said."""
    return bool(_wind_words(forecast, limits))


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
        f"After rain give the deck {limits.drying_min} minutes to dry.",
        f"Unroll underlay or felt {limits.underlay_rest_min} minutes before use.",
        (
            "In the cold: keep shingles and rolls indoors overnight and seal tabs by hand "
            "with more mastic, never with a flame."
        ),
    )


def _working_light(day: date, trader: Trader) -> tuple[Decimal, Decimal]:
    """The part of the working day that is light, to the quarter inside it; none if first is last.

    A window is never shown wider than it is.
    """
    sunrise, sunset = daylight(day, place_of(trader.address, trader.nation))
    first = _quarter(max(sunrise, _by_the_clock(trader.work_from)), ROUND_CEILING)
    last = _quarter(min(sunset, _by_the_clock(trader.work_until)), ROUND_FLOOR)
    return first, max(first, last)


def _longest(
    spells: Iterable[tuple[int, int]], first: Decimal, last: Decimal, limits: WeatherLimits
) -> tuple[Decimal, Decimal]:
    """The longest dry spell between two hours; between one spell and the next it rains."""
    drying = _quarter(Decimal(limits.drying_min) / 60, ROUND_CEILING)
    found = (first, first)
    for n, (dry_from, dry_until) in enumerate(spells):
        opens = max(first, dry_from + (drying if n else Decimal(0)))
        closes = min(last, Decimal(dry_until))
        if closes - opens > found[1] - found[0]:
            found = opens, closes
    return found


def _booked(visits: Iterable[BookedDay]) -> Decimal:
    return sum((visit.hours for visit in visits), Decimal(0))


def _needed(visits: Sequence[BookedDay], limits: WeatherLimits) -> Decimal:
    """The hours booked, and once a visit those that underlay lies unrolled; where any is laid."""
    laying = sum(1 for visit in visits if visit.hours and visit.task.strip().lower() != "strip")
    return _booked(visits) + laying * _resting(limits)


def _resting(limits: WeatherLimits) -> Decimal:
    return _quarter(Decimal(limits.underlay_rest_min) / 60, ROUND_CEILING)


def _wind_words(forecast: Forecast, limits: WeatherLimits) -> str:
    """The wind, mean or gusts, if it is too strong; empty if it is not."""
    if too_windy(forecast.wind_mph, limits):
        return f"wind {_whole(forecast.wind_mph, ROUND_HALF_UP)}"
    gust = forecast.gust_mph
    if gust is not None and too_windy(gust / limits.gust_factor, limits):
        return f"gust {_whole(gust, ROUND_HALF_UP)}"
    return "wind" if forecast.sky is Sky.WIND else ""


def _cold_words(forecast: Forecast, limits: WeatherLimits) -> str:
    """The cold, if there is no part of the day that was said to be warm enough; else nothing."""
    if too_cold(forecast.low_c, limits) and not forecast.dry_hours:
        return f"cold {_whole(forecast.low_c, ROUND_FLOOR)} °C"
    return "cold" if forecast.sky is Sky.COLD else ""


def _by_the_clock(moment: time) -> Decimal:
    return moment.hour + Decimal(moment.minute) / 60


def _quarter(hours: Decimal, rounding: str) -> Decimal:
    return (hours * 4).to_integral_value(rounding) / 4


def _whole(number: Decimal | None, rounding: str) -> str:
    """A whole number with a true minus sign; a temperature is never shown warmer than it is."""
    return "" if number is None else f"{number.quantize(Decimal(1), rounding)}".replace("-", "−")


def _plain(number: Decimal) -> str:
    """A number without noughts that say nothing."""
    return f"{number.normalize():f}"
