"""Days: read as people type them, shown as they read them, and what the law makes of them.

Today is always passed in. Only :func:`bank_holidays` loads anything heavy, when it is called.
"""

import re
from calendar import monthrange
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time, timedelta
from decimal import Decimal
from functools import cache
from types import MappingProxyType

from domain.errors import Refused

NATIONS: Mapping[str, str] = MappingProxyType(
    {"England": "ENG", "Wales": "WLS", "Scotland": "SCT", "Northern Ireland": "NIR"}
)
"""The nations that keep bank holidays of their own, with their codes in ISO 3166-2:GB."""

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
_QUARTERS = {
    Decimal(0): "",
    Decimal("0.25"): "¼",
    Decimal("0.5"): "½",
    Decimal("0.75"): "¾",
}
_FIRST_YEAR, _LAST_YEAR = 2000, 2099  # a date outside them is a slip of the finger

_DATE_EXAMPLES = "Give a date such as 25 Nov, 25/11/2026, tomorrow, Thursday or +3."
_ISO = re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})")
_NUMBERS = re.compile(
    r"(?P<day>[0-9]{1,2})[-/.](?P<month>[0-9]{1,2})(?:[-/.](?P<year>[0-9]{4}|[0-9]{2}))?"
)
_NAMED = re.compile(
    r"(?:(?P<weekday>[a-z]{3,9}) )?(?P<day>[0-9]{1,2})(?:st|nd|rd|th)? ?"
    r"(?P<month>[a-z]{3,9})(?: (?P<year>[0-9]{4}|[0-9]{2}))?"
)
_OFFSET = re.compile(r"(?P<sign>[+-]) ?(?P<days>[0-9]{1,3})")
_NEAR = {"yesterday": -1, "today": 0, "tomorrow": 1}
_TIME = re.compile(r"(?P<hour>[0-9]{1,2})(?:[.:]?(?P<minute>[0-9]{2}))? ?(?P<half>am|pm)?")


@dataclass(frozen=True, slots=True)
class RuledOut:
    """Days on which a customer wants no work."""

    weekdays: frozenset[int]
    """Monday is 0."""
    dates: frozenset[date]

    def __contains__(self, day: date) -> bool:
        return day.weekday() in self.weekdays or day in self.dates


def show_day(day: date) -> str:
    """The day without its year: ``25 Nov``."""
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def show_weekday(day: date) -> str:
    """The day with its weekday and no month, for the seven of a week: ``Wed 25``."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day}"


def show_date(day: date) -> str:
    """The whole date: ``Wed 25 Nov 2026``; :func:`read_date` reads it back."""
    return f"{WEEKDAYS[day.weekday()][:3]} {show_day(day)} {day.year}"


def show_near(day: date, today: date) -> str:
    """The day as one speaks of it: ``today``, ``tomorrow``, ``Thursday``, else ``25 Nov``.

    A weekday's name alone means one of the six days after today.
    """
    ahead = (day - today).days
    if ahead in (0, 1):
        return ("today", "tomorrow")[ahead]
    return WEEKDAYS[day.weekday()] if 1 < ahead < 7 else show_day(day)


def show_time(moment: time) -> str:
    """The time by the 24-hour clock: ``09:30``."""
    return f"{moment:%H:%M}"


def show_hours(hours: Decimal) -> str:
    """So many hours, to the quarter if they are quarters: ``6½``, otherwise ``6.4``."""
    whole, part = divmod(hours, 1)
    quarter = _QUARTERS.get(part)
    if quarter is None:
        return f"{hours.normalize():f}"
    return quarter if quarter and not whole else f"{int(whole)}{quarter}"


def read_date(field: str, text: str, today: date) -> date:
    """Read a date: ``25 Nov``, ``25/11/2026``, ``2026-11-25``, ``tomorrow``, ``thu`` or ``+3``.

    Without a year it is the one nearest to today; a weekday is the next of its name after today.
    Raises :class:`Refused` for anything else, for a weekday that does not fit its date, and for
    years outside 2000 to 2099.
    """
    plain = _plain(text)
    day = _near(plain, today) or _written(field, text, plain, today)
    if day is None or not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        raise Refused(field, text, _DATE_EXAMPLES)
    return day


def read_past_date(field: str, text: str, today: date) -> date:
    """Read the date of what is done, as :func:`read_date`; one to come is :class:`Refused` too."""
    day = read_date(field, text, today)
    if day > today:
        raise Refused(field, text, "Give today or an earlier day.")
    return day


def read_time(field: str, text: str) -> time:
    """Read a time such as ``9.30``, ``14:00``, ``5 pm`` or ``noon``.

    Raises :class:`Refused` for anything else, and for an hour from 1 to 6 with neither am, pm nor
    a nought before it: nobody knows which is meant.
    """
    plain = "12 pm" if _plain(text) == "noon" else _plain(text)
    match = _TIME.fullmatch(plain)
    hour, minute = (int(match["hour"]), int(match["minute"] or 0)) if match else (24, 0)
    half = match["half"] if match else None
    if hour > 23 or minute > 59 or (half and not 1 <= hour <= 12):
        raise Refused(field, text, "Give a time such as 9.30, 14:00 or 5 pm.")
    if not half and 1 <= hour <= 6 and not plain.startswith("0"):
        raise Refused(field, text, f"Give {hour} pm, or 0{hour}:{minute:02d} for the morning.")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return time(hour, minute)


def read_ruled_out(field: str, text: str) -> RuledOut:
    """Read days such as ``Mondays, weekends, 3 December 2026``; an empty text rules out none.

    Raises :class:`Refused` for a part that is neither weekdays nor a date with its year.
    """
    weekdays: set[int] = set()
    dates: set[date] = set()
    for part in re.split(r"[,;\n]| and ", text):
        plain = _plain(part)
        named = _weekday(plain.removesuffix("s"))
        day = _whole_date(field, part, plain)
        if plain in ("weekends", "weekend"):
            weekdays |= {5, 6}
        elif named is not None:
            weekdays.add(named)
        elif day is not None:
            dates.add(day)
        elif part.strip():
            raise Refused(field, part.strip(), "Give weekdays, or dates with their year.")
    return RuledOut(frozenset(weekdays), frozenset(dates))


def cancellation_ends(told_on: date) -> date:
    """Return the last day of the 14 days in which a customer who was told may cancel.

    Consumer Contracts Regulations 2013 reg. 30 and 31: the end of 14 days after the day of the
    agreement, or after the day on which the customer was told of the right, if that was later.
    See :mod:`domain.days.cancellation` for when there is such a right, and what is assumed.
    """
    return told_on + timedelta(days=14)


def untold_cancellation_ends(agreed_on: date) -> date:
    """Return the last day to cancel if the customer is never told: 12 months more (reg. 31)."""
    return months_after(cancellation_ends(agreed_on), 12)


def months_after(day: date, months: int) -> date:
    """Return the same day so many months on (negative: back), or the last of a shorter month."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


@cache
def bank_holidays(nation: str, year: int) -> Mapping[date, str]:
    """Return the bank holidays of a nation in a year, with their names.

    As on GOV.UK's list, a holiday that falls at a weekend stands there by its substitute alone.
    Raises :class:`Refused` for a nation that is not one of :data:`NATIONS`.
    """
    from holidays import country_holidays

    if nation not in NATIONS:
        raise Refused("nation", nation, f"Give one of {', '.join(NATIONS)}.")
    known = country_holidays("GB", subdiv=NATIONS[nation], years=year, language="en_GB")
    return MappingProxyType(
        {
            day: name.replace("(observed)", "(substitute)")
            for day, name in sorted(known.items())
            if day.weekday() < 5
        }
    )


def _plain(text: str) -> str:
    """The text in small letters with single spaces; too long a one is nothing."""
    words = text.lower().replace("−", "-").replace(",", " ").split()
    return " ".join(words) if len(text) <= 40 else ""


def _near(plain: str, today: date) -> date | None:
    """Read what is said from today: a word, a weekday, or so many days on or back."""
    offset = _NEAR.get(plain)
    named, match = _weekday(plain), _OFFSET.fullmatch(plain)
    if named is not None:
        offset = (named - today.weekday() - 1) % 7 + 1
    elif match:
        offset = int(match["sign"] + match["days"])
    return None if offset is None else today + timedelta(days=offset)


def _written(field: str, text: str, plain: str, today: date) -> date | None:
    """Read a date by its numbers or month, in the year nearest to today if it has none."""
    whole = _whole_date(field, text, plain)
    if whole is not None:
        return whole
    match = _NUMBERS.fullmatch(plain) or _NAMED.fullmatch(plain)
    if match is None or match["year"]:
        return None
    years = (today.year - 1, today.year, today.year + 1)
    days = [day for year in years if (day := _made(match, year)) is not None]
    nearest = min(days, key=lambda day: abs((day - today).days), default=None)
    return nearest and _on_weekday(field, text, nearest, match)


def _whole_date(field: str, text: str, plain: str) -> date | None:
    """Read a date that has its year; None if it is none."""
    match = _ISO.fullmatch(plain) or _NUMBERS.fullmatch(plain) or _NAMED.fullmatch(plain)
    if match is None or not match["year"]:
        return None
    year = int(match["year"])
    day = _made(match, year + 2000 if year < 100 else year)
    return day and _on_weekday(field, text, day, match)


def _made(match: re.Match[str], year: int) -> date | None:
    """Make the date of a day and month in a year; None if there is none, or none near our time."""
    month = match["month"]
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        return None
    try:
        number = int(month) if month.isdecimal() else _month(month)
        return date(year, number, int(match["day"]))
    except ValueError:
        return None


def _on_weekday(field: str, text: str, day: date, match: re.Match[str]) -> date | None:
    """Return the day if the weekday written before it, if any, is its own."""
    said = match.groupdict().get("weekday")
    if not said:
        return day
    named = _weekday(said)
    if named is None:
        return None
    if named != day.weekday():
        right = f"{show_day(day)} {day.year} is a {WEEKDAYS[day.weekday()]}"
        raise Refused(field, text, f"{right}: give the date without the weekday, or another.")
    return day


def _weekday(word: str) -> int | None:
    """The weekday a word begins, Monday is 0, with three letters or more."""
    if len(word) < 3:
        return None
    starts = (n for n, name in enumerate(WEEKDAYS) if name.lower().startswith(word))
    return next(starts, None)


def _month(word: str) -> int:
    """The number of the month a word begins, 0 if it begins none."""
    starts = (n for n, name in enumerate(MONTHS, start=1) if name.lower().startswith(word))
    return next(starts, 0)
