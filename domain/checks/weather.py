"""The checks of forecast and weather, each for the stage that asks it.

The limits are the trader's own; :mod:`domain.days.weather` says what is outside them.
"""

from functools import partial

from domain.checks.check import Check, Severity, Situation
from domain.days.weather import at_risk, too_cold, too_windy, window
from domain.job import Stage
from domain.page_names import PageName

_on_the_day = partial(Check, stage=Stage.LAID, severity=Severity.CAUTION, page=PageName.LAYING)


def _forecast_within_limits(situation: Situation) -> bool:
    """Tell whether no booked day still to come has a forecast outside the limits."""
    limits, forecasts = situation.trader.limits, situation.forecasts
    return not any(
        at_risk(window(forecasts.get(booked.day), limits), booked.hours)
        for booked in situation.job.days
        if booked.day >= situation.today
    )


def _not_cold(situation: Situation) -> bool:
    laying = situation.job.laying
    return laying is None or not too_cold(laying.temperature_c, situation.trader.limits)


def _not_windy(situation: Situation) -> bool:
    laying = situation.job.laying
    return laying is None or not too_windy(laying.wind_mph, situation.trader.limits)


FORECAST = Check(
    id="forecast",
    stage=Stage.BOOKED,
    severity=Severity.CAUTION,
    holds=_forecast_within_limits,
    words="Forecast good enough?",
    remedy="Move the day, or strip no more than you can lay or sheet over in the dry hours.",
    page=PageName.BOOKING,
)
"""Before a job is marked as booked: nothing is stripped on a day of rain, wind or cold."""

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
