"""The forecast of a day, as the trader typed it from wherever they read it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum


class Sky(StrEnum):
    """What a day is said to be in one word."""

    DRY = "dry"
    RAIN = "rain"
    COLD = "cold"
    """Too cold to lay, by the trader's own judgement."""
    WIND = "wind"
    """Too windy."""
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Forecast:
    """What is known of a day. None: not known."""

    day: date
    sky: Sky = Sky.UNKNOWN
    dry_hours: frozenset[int] = frozenset()
    """Of a dry day the hours that can be worked in, if they were given: 9 is from 9 to 10. They
    are inside every limit but the wind's, which is given for all of the day."""
    rain_from: int | None = None
    """Of a day of rain the hour, 1 to 23, until which it is dry."""
    low_c: Decimal | None = None
    """Lowest air temperature of the working day."""
    wind_mph: Decimal | None = None
    """Highest average wind."""
    gust_mph: Decimal | None = None
    version: int = 0

    @property
    def spells(self) -> tuple[tuple[int, int], ...]:
        """The dry hours run by run: from and until, hours of the day."""
        if self.sky is Sky.RAIN:
            return () if self.rain_from is None else ((0, self.rain_from),)
        if self.sky is not Sky.DRY:
            return ()
        return tuple(_runs(self.dry_hours)) if self.dry_hours else ((0, 24),)


def _runs(hours: frozenset[int]) -> Iterator[tuple[int, int]]:
    """Hours that follow each other, together."""
    for first in sorted(hour for hour in hours if hour - 1 not in hours):
        last = first
        while last in hours:
            last += 1
        yield first, last
