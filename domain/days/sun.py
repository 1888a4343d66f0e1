"""When the sun rises and sets, in Greenwich time.

By Jean Meeus, Astronomical Algorithms, chapter 25 (low accuracy), as in NOAA's solar calculator:
from memory, and held against a library and published tables by its tests. Reckoned here, since
loading that library took a thirtieth of the time until the week stands.
"""

from datetime import UTC, date, datetime, time, timedelta
from math import acos, asin, cos, degrees, radians, sin, tan

_EPOCH = datetime(2000, 1, 1, 12, tzinfo=UTC)
_CENTURY = timedelta(days=36525)
_RIM_ON_HORIZON = radians(90.833)
"""From straight above: the sun's rim on a level horizon, raised by the air."""


def sunrise_and_sunset(day: date, latitude: float, longitude: float) -> tuple[datetime, datetime]:
    """Return both, at a place in degrees, where west is negative.

    Each is found anew for the moment it gave itself. Raises :class:`ValueError` where the sun does
    not rise or does not set on that day.
    """
    rises, sets = (_crosses(day, latitude, longitude, side) for side in (-1, 1))
    return rises, sets


def _crosses(day: date, latitude: float, longitude: float, side: int) -> datetime:
    """The moment at which the sun crosses the horizon: -1 is the side of the morning."""
    midnight = datetime.combine(day, time(), UTC)
    moment = midnight + timedelta(hours=12)
    for _ in range(3):
        noon, half = _noon_and_half_day((moment - _EPOCH) / _CENTURY, latitude, longitude)
        moment = midnight + timedelta(minutes=noon + side * half)
    return moment


def _noon_and_half_day(t: float, latitude: float, longitude: float) -> tuple[float, float]:
    """Minutes after midnight at which the sun is highest, and from there to its setting.

    ``t`` is the moment in centuries since the year 2000.
    """
    mean_longitude = (280.46646 + t * (36000.76983 + t * 0.0003032)) % 360
    anomaly = radians(357.52911 + t * (35999.05029 - 0.0001537 * t))
    eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t)
    centre = (
        sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + sin(2 * anomaly) * (0.019993 - 0.000101 * t)
        + sin(3 * anomaly) * 0.000289
    )
    node = radians(125.04 - 1934.136 * t)
    apparent = radians(mean_longitude + centre - 0.00569 - 0.00478 * sin(node))
    seconds = 21.448 - t * (46.8150 + t * (0.00059 - t * 0.001813))
    tilt = radians(23 + (26 + seconds / 60) / 60 + 0.00256 * cos(node))
    declination = asin(sin(tilt) * sin(apparent))
    y, twice = tan(tilt / 2) ** 2, 2 * radians(mean_longitude)
    equation_of_time = 4 * degrees(
        y * sin(twice)
        - 2 * eccentricity * sin(anomaly)
        + 4 * eccentricity * y * sin(anomaly) * cos(twice)
        - y * y / 2 * sin(2 * twice)
        - 1.25 * eccentricity**2 * sin(2 * anomaly)
    )
    place = radians(latitude)
    half = acos(
        cos(_RIM_ON_HORIZON) / (cos(place) * cos(declination)) - tan(place) * tan(declination)
    )
    return 720 - 4 * longitude - equation_of_time, 4 * degrees(half)
