"""When the sun rises and sets at a place in Britain."""

from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import lru_cache

from domain.days.places import Place

_A_YEAR = 366


@lru_cache(maxsize=_A_YEAR)
def daylight(day: date, place: Place) -> tuple[Decimal, Decimal]:
    """Return sunrise and sunset in hours by the clock on the wall, to a hundredth of an hour.

    The sun's rim on a level horizon, raised by the air; up to the 61 degrees of Shetland, so that
    there is a sunrise every day. British Summer Time is counted in.
    """
    from astral import Observer
    from astral.sun import sunrise, sunset

    at = Observer(place.latitude, place.longitude)
    return _by_the_clock(sunrise(at, day), day), _by_the_clock(sunset(at, day), day)


def _by_the_clock(moment: datetime, day: date) -> Decimal:
    """Hours since midnight of a moment of the day that is given in Greenwich time."""
    seconds = moment.hour * 3600 + moment.minute * 60 + moment.second
    return (Decimal(seconds) / 3600).quantize(Decimal("0.01")) + _summer_time(day)


def _summer_time(day: date) -> int:
    """Hours the clock is put on: from the last Sunday of March to that of October.

    Reckoned here, so that no list of the world's time zones has to be there.
    """
    return int(_last_sunday(day.year, 3) <= day < _last_sunday(day.year, 10))


def _last_sunday(year: int, month: int) -> date:
    """The last Sunday of a month of 31 days."""
    last = date(year, month, 31)
    return last - timedelta(days=(last.weekday() + 1) % 7)
