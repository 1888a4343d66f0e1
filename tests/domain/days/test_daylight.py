"""Sunrise and sunset, held against another reckoning and against published tables."""

from datetime import UTC, date, datetime, time, timedelta
from math import acos, asin, cos, degrees, radians, sin, tan
from zoneinfo import ZoneInfo

import pytest
from astral.geocoder import all_locations, database
from hypothesis import given
from hypothesis import strategies as st

from domain.days.calendar import NATIONS
from domain.days.daylight import daylight
from domain.days.places import PLACES, Place, place_of
from domain.postcode import postcode_area

DATES = st.dates(date(2000, 1, 1), date(2099, 12, 31))
CLOCK = ZoneInfo("Europe/London")

TOWNS = {
    "Penzance": (50.118, -5.537),
    "Plymouth": (50.371, -4.143),
    "Brighton": (50.827, -0.140),
    "Cardiff": (51.481, -3.179),
    "Lowestoft": (52.475, 1.751),
    "Shrewsbury": (52.708, -2.754),
    "Holyhead": (53.309, -4.633),
    "Manchester": (53.480, -2.242),
    "Enniskillen": (54.344, -7.632),
    "Newcastle": (54.974, -1.613),
    "Glasgow": (55.861, -4.250),
    "Aberdeen": (57.148, -2.096),
    "Stornoway": (58.209, -6.387),
    "Lerwick": (60.155, -1.145),
}
"""Latitude and longitude in degrees: from memory."""


def reckoned(day: date, latitude: float, longitude: float) -> tuple[datetime, datetime]:
    """Sunrise and sunset by Jean Meeus, Astronomical Algorithms, chapter 25 (low accuracy), as in
    NOAA's solar calculator: from memory. Each is found anew for the moment it gives itself.
    """
    midnight = datetime.combine(day, time(), UTC)
    found = []
    for side in (-1, 1):
        moment = midnight + timedelta(hours=12)
        for _ in range(4):
            centuries = (moment - datetime(2000, 1, 1, 12, tzinfo=UTC)) / timedelta(days=36525)
            noon, half = _noon_and_half_day(centuries, latitude, longitude)
            moment = midnight + timedelta(minutes=noon + side * half)
        found.append(moment)
    return found[0], found[1]


def _noon_and_half_day(t: float, latitude: float, longitude: float) -> tuple[float, float]:
    """Minutes after midnight at which the sun is highest, and from there to its setting."""
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
    equation = 4 * degrees(
        y * sin(twice)
        - 2 * eccentricity * sin(anomaly)
        + 4 * eccentricity * y * sin(anomaly) * cos(twice)
        - y * y / 2 * sin(2 * twice)
        - 1.25 * eccentricity**2 * sin(2 * anomaly)
    )
    place = radians(latitude)
    half = acos(
        cos(radians(90.833)) / (cos(place) * cos(declination)) - tan(place) * tan(declination)
    )
    return 720 - 4 * longitude - equation, 4 * degrees(half)


def minutes_apart(day: date, latitude: float, longitude: float) -> float:
    """The most by which the program's sunrise or sunset is off, minutes."""
    ours = daylight(day, Place(latitude, longitude, ""))
    theirs = (m.astimezone(CLOCK) for m in reckoned(day, latitude, longitude))
    return max(
        abs(float(hours) * 60 - (m.hour * 60 + m.minute + m.second / 60))
        for hours, m in zip(ours, theirs, strict=True)
    )


@pytest.mark.parametrize("town", TOWNS)
def test_daylight_is_right_to_two_minutes_on_every_day_of_two_years(town: str) -> None:
    days = (date(2026, 1, 1) + timedelta(days=n) for n in range(731))
    assert max(minutes_apart(day, *TOWNS[town]) for day in days) <= 2


@given(DATES, st.floats(49, 61), st.floats(-8, 2))
def test_daylight_is_right_to_two_minutes_anywhere_in_this_century(
    day: date, latitude: float, longitude: float
) -> None:
    assert minutes_apart(day, latitude, longitude) <= 2
    sunrise, sunset = daylight(day, Place(latitude, longitude, ""))
    assert 0 < sunrise < sunset < 24


@pytest.mark.parametrize(
    ("day", "area", "rises", "sets"),
    [
        # A newspaper's table of 21 December 2018, inews.co.uk: read.
        (date(2018, 12, 21), "M", (8, 22), (15, 51)),
        (date(2018, 12, 21), "EH", (8, 41), (15, 39)),
        # A table of the first of each month in Manchester, whattime.city: read.
        (date(2026, 4, 1), "M", (6, 46), (19, 42)),
        (date(2026, 7, 1), "M", (4, 44), (21, 42)),
        (date(2026, 10, 1), "M", (7, 9), (18, 51)),
    ],
)
def test_daylight_is_that_of_published_tables(
    day: date, area: str, rises: tuple[int, int], sets: tuple[int, int]
) -> None:
    for hours, (hour, minute) in zip(daylight(day, PLACES[area]), (rises, sets), strict=True):
        assert abs(float(hours) * 60 - hour * 60 - minute) <= 6


def test_a_midwinter_day_is_over_an_hour_shorter_in_aberdeen_than_in_truro() -> None:
    days = [daylight(date(2026, 12, 21), PLACES[area]) for area in ("AB", "TR")]
    aberdeen, truro = (sets - rises for rises, sets in days)
    assert truro - aberdeen > 1


@pytest.mark.parametrize(
    ("address", "area"),
    [
        ("3 Tannery Row\nOsmerton\nSY8 1AA", "SY"),
        ("3 Tannery Row\nOsmerton SY8 1AA", "SY"),
        ("1 High Street\nLondon\nn1p 1aa\n", "N"),
        ("The Quay\nLerwick\nZE1 0LL", "ZE"),
        ("3 Tannery Row\nOsmerton", ""),
        ("", ""),
    ],
)
def test_a_place_is_found_by_the_first_letters_of_the_postcode(address: str, area: str) -> None:
    assert postcode_area(address) == area
    assert place_of(address, "Scotland") == PLACES.get(area, place_of("", "Scotland"))


def test_without_a_postcode_it_is_the_middle_of_the_nation() -> None:
    middles = {nation: place_of("", nation) for nation in NATIONS}
    assert len({place.latitude for place in middles.values()}) == 4
    assert not any(place.town for place in middles.values())
    assert place_of("1 Nowhere\nQQ1 1AA", "Wales") == middles["Wales"]


def test_every_postcode_area_lies_where_its_town_does() -> None:
    # Royal Mail has 121 postcode areas, and three more for Jersey, Guernsey and Man: memory.
    assert len(PLACES) == 124
    here = ("Europe/London", "Europe/Belfast")
    known = {each.name: each for each in all_locations(database()) if each.timezone in here}
    both = [(place, known[place.town]) for place in PLACES.values() if place.town in known]
    assert len({place.town for place, _ in both}) >= 8
    for place, there in both:
        assert abs(place.latitude - there.latitude) < 0.2, place.town
        assert abs(place.longitude - there.longitude) < 0.3, place.town
