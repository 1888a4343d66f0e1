"""When the sun rises and sets in Britain: enough to plan a day's work by, to a few minutes."""

from datetime import date, timedelta
from decimal import Decimal
from math import acos, cos, degrees, pi, radians, sin, tan

_LONGITUDE = -2.0  # degrees, the middle of Britain: a degree away is four minutes
_HORIZON = 90.833  # degrees from overhead: the sun's rim, raised by the air


def daylight(day: date, latitude: float = 53.0) -> tuple[Decimal, Decimal]:
    """Return sunrise and sunset in hours by the clock on the wall, to a hundredth of an hour.

    The usual formula: declination and equation of time as a short Fourier series of the day of
    the year (J. W. Spencer, 1971; known from memory). Latitude in degrees, up to the 61 of
    Shetland, so that there is a sunrise every day. British Summer Time is counted in.
    """
    year = 2 * pi / 365 * (day.timetuple().tm_yday - 1)
    tilt = (
        0.006918
        - 0.399912 * cos(year)
        + 0.070257 * sin(year)
        - 0.006758 * cos(2 * year)
        + 0.000907 * sin(2 * year)
        - 0.002697 * cos(3 * year)
        + 0.00148 * sin(3 * year)
    )
    ahead = 229.18 * (  # minutes by which a sundial is ahead of the clock
        0.000075
        + 0.001868 * cos(year)
        - 0.032077 * sin(year)
        - 0.014615 * cos(2 * year)
        - 0.040849 * sin(2 * year)
    )
    place = radians(latitude)
    half_day = degrees(
        acos(cos(radians(_HORIZON)) / (cos(place) * cos(tilt)) - tan(place) * tan(tilt))
    )
    noon = 12 - _LONGITUDE / 15 - ahead / 60 + _summer_time(day)
    return _hours(noon - half_day / 15), _hours(noon + half_day / 15)


def _summer_time(day: date) -> int:
    """Hours the clock is put on: from the last Sunday of March to that of October."""
    return int(_last_sunday(day.year, 3) <= day < _last_sunday(day.year, 10))


def _last_sunday(year: int, month: int) -> date:
    """The last Sunday of a month of 31 days."""
    last = date(year, month, 31)
    return last - timedelta(days=(last.weekday() + 1) % 7)


def _hours(hours: float) -> Decimal:
    return Decimal(hours).quantize(Decimal("0.01"))
