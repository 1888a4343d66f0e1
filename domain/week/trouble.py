"""Days whose weather stands in the way of what is booked for them."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from domain.days.forecast import Forecast
from domain.days.weather import Window, against, window
from domain.week.days import Bookings, by_day, lies_ahead, still_to_do
from domain.week.week_data import WeekData, WeekLine


class Trouble(NamedTuple):
    """A day whose weather stands in the way of what is booked for it."""

    forecast: Forecast
    window: Window
    against: str
    """"rain", "wind" or "cold"."""
    hours: Decimal
    """Booked on it, for all jobs together."""

    @property
    def day(self) -> date:
        """The day."""
        return self.forecast.day


def troubles(data: WeekData, bookings: Bookings, today: date) -> Iterator[Trouble]:
    """Return every day whose weather stands in the way of work that lies ahead, the first first."""
    for forecast in sorted(data.forecasts, key=lambda told: told.day):
        found = window(forecast.day, forecast, data.trader)
        ahead = still_to_do(bookings, forecast.day, today)
        trouble = against(found, ahead, data.trader.limits)
        if trouble:
            hours = sum((visit.hours for visit in ahead), Decimal(0))
            yield Trouble(forecast, found, trouble, hours)


def is_answered(line: WeekLine, forecast: Forecast) -> bool:
    """Tell whether the customer said that a day stays, and its forecast is still the same."""
    if not line.rung:
        return False
    from domain.days.forecast_line import show_token  # not needed at the first paint

    told = forecast.day, show_token(forecast)
    return any((rung.day, rung.forecast) == told for rung in line.rung)


def troubles_of(data: WeekData, line: WeekLine, today: date) -> tuple[Trouble, ...]:
    """Return the troubles of one job's days that nobody has answered for yet."""
    own = {booked.day for booked in line.days if lies_ahead(line, booked.day, today)}
    found = troubles(data, by_day(data.lines, today), today)
    return tuple(
        trouble
        for trouble in found
        if trouble.day in own and not is_answered(line, trouble.forecast)
    )
