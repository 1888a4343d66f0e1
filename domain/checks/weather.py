"""The checks of forecast and weather, each for the stage that asks it.

The limits are the trader's own; :mod:`domain.days.weather` says what is outside them.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import partial

from domain.checks.check import Check, Part, Severity, Situation
from domain.days.weather import Window, against, too_cold, too_windy, window, windy
from domain.job import Cover, Job, Stage
from domain.page_names import PageName

_on_the_day = partial(Check, stage=Stage.LAID, severity=Severity.CAUTION, page=PageName.LAYING)


def _forecast_within_limits(situation: Situation) -> bool:
    """Tell whether no booked day still to come has a forecast outside the limits."""
    ahead = (booked for booked in situation.job.days if booked.day >= situation.today)
    limits = situation.trader.limits
    return not any(against(window_of(situation, day.day), (day,), limits) for day in ahead)


def window_of(situation: Situation, day: date) -> Window:
    """Return the window of a day, by the forecast that is recorded."""
    return window(day, situation.forecasts.get(day), situation.trader)


def _calm_nights(situation: Situation) -> bool:
    """Tell whether no roof is to stand sheeted through a night of too much wind.

    A night is part of the day before it and of the day after.
    """
    job, today = situation.job, situation.today
    nights = _nights_sheeted(job, today)
    days = {day + timedelta(days=n) for day in nights for n in (0, 1)}
    told = (situation.forecasts.get(day) for day in days)
    return not any(each is not None and windy(each, situation.trader.limits) for each in told)


def _nights_sheeted(job: Job, today: date) -> Iterator[date]:
    """The evenings from today on before nights in which the roof is under a tarpaulin.

    They are those from the stripping, or the first day booked, to the last day booked.
    """
    stripping = job.stripping
    if job.laying is not None or (stripping is not None and stripping.cover is Cover.LAID):
        return
    days = [booked.day for booked in job.days]
    if stripping is not None:
        days += [stripping.on, today + timedelta(days=1)]
    day = max(min(days, default=today), today)
    while day < max(days, default=today):
        yield day
        day += timedelta(days=1)


def _not_cold(situation: Situation) -> bool:
    laying = situation.job.laying
    return laying is None or not too_cold(laying.temperature_c, situation.trader.limits)


def _not_windy(situation: Situation) -> bool:
    laying = situation.job.laying
    return laying is None or not too_windy(laying.wind_mph, situation.trader.limits)


FORECAST = Check(
    id="forecast",
    part=Part.DAY,
    stage=Stage.BOOKED,
    severity=Severity.CAUTION,
    holds=_forecast_within_limits,
    words="Forecast good enough?",
    remedy="Move the day, or strip no more than you can lay or sheet over in the dry hours.",
    page=PageName.BOOKING,
)
"""Before a job is marked as booked: nothing is stripped on a day of rain, wind or cold."""

NIGHTS_BOOKED = Check(
    id="windy-night-booked",
    part=Part.DAY,
    stage=Stage.BOOKED,
    severity=Severity.CAUTION,
    holds=_calm_nights,
    words="No windy night while it is sheeted?",
    remedy="Strip and lay on the same day, move the days, or say how the tarpaulin is held down.",
    page=PageName.BOOKING,
)
"""Before a job is marked as booked: none is left under a tarpaulin in too much wind."""

NIGHTS_STRIPPED = replace(
    NIGHTS_BOOKED,
    id="windy-night",
    stage=Stage.STRIPPED,
    remedy="Lay it sooner, or say how the tarpaulin is held down.",
    page=PageName.STRIP,
)
"""The same before it is marked as stripped."""

WEATHER_ON_THE_DAY = (
    _on_the_day(
        id="laid-cold",
        holds=_not_cold,
        words="Warm enough on the day?",
        remedy="Seal the tabs by hand with more mastic, never with a flame, and say so.",
    ),
    _on_the_day(
        id="laid-windy",
        holds=_not_windy,
        words="Wind inside the limits on the day?",
        remedy="Check every tab and edge again, and say what you did.",
    ),
    _on_the_day(
        id="laid-damp",
        holds=lambda s: s.job.laying is None or s.job.laying.deck_dry is not False,
        words="Deck dry on the day?",
        remedy="Say how damp it was and what you did.",
    ),
)
"""Before a job is marked as laid: what the weather was while it was."""
