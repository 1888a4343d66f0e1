"""Dates as people type them: the day before the month, always; today is passed in.

A weekday by itself is the next of its name after today, never today: for that one says today.
Of what is done it is the last of its name, today included: it is recorded in the evening.
``next tue`` is the Tuesday of next week, weeks beginning on Monday; ``tue week`` is a week after
the coming Tuesday.
"""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from domain.days.calendar import MONTHS, WEEKDAYS, months_after, show_day
from domain.errors import Refused
from domain.measure_grammar import NUMBER_WORDS

_FIRST_YEAR, _LAST_YEAR = 2000, 2099  # a date outside them is a slip of the finger

_EXAMPLES = "Give a date such as 25 Nov, 25/11/2026, tomorrow, Thursday or +3."
_FOR_SO_LONG = "Give a date such as 31 Mar 2028, or how long, such as 10 years."
_ISO = re.compile(r"(?P<year>[0-9]{4})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})")
_NUMBERS = re.compile(
    r"(?P<day>[0-9]{1,2})[-/.](?P<month>[0-9]{1,2})(?:[-/.](?P<year>[0-9]{4}|[0-9]{2}))?"
)
_NAMED = re.compile(
    r"(?:(?P<weekday>[a-z]{3,9}) )?(?P<day>[0-9]{1,2})(?:st|nd|rd|th)? ?(?:of )?"
    r"(?P<month>[a-z]{3,9})(?: (?P<year>[0-9]{4}|[0-9]{2}))?"
)
_OFFSET = re.compile(r"(?P<sign>[+-]) ?(?P<days>[0-9]{1,3})")
_NEAR = {"yesterday": -1, "today": 0, "tomorrow": 1}
_LENGTH_OF_TIME = re.compile(r"(?P<count>[0-9]{1,3}) ?(?P<unit>[a-z]+)")
_MONTHS_IN = dict.fromkeys(("year", "years", "yr", "yrs"), 12) | dict.fromkeys(
    ("month", "months", "mth", "mths"), 1
)
_DAYS_IN = {"day": 1, "days": 1, "week": 7, "weeks": 7, "wk": 7, "wks": 7, "fortnight": 14}


@dataclass(frozen=True, slots=True)
class RuledOut:
    """Days on which a customer wants no work."""

    weekdays: frozenset[int]
    """Monday is 0."""
    dates: frozenset[date]

    def __contains__(self, day: date) -> bool:
        return day.weekday() in self.weekdays or day in self.dates


def read_date(field: str, text: str, today: date, *, done: bool = False) -> date:
    """Read a date: ``25 Nov``, ``12.5.26``, ``2026-11-25``, ``tomorrow``, ``next tue`` or ``+3``.

    Without a year it is the one nearest to today. ``done`` says that the date is of what is done,
    so that a weekday is one gone by. Raises :class:`Refused` for anything else, for a day that is
    not in the calendar, for a weekday that does not fit its date, and for years outside 2000 to
    2099.
    """
    plain = _plain(text)
    day = _near(plain, today, done=done) or _written(field, text, plain, today)
    if day is None:
        raise Refused(field, text, _EXAMPLES)
    return _of_our_time(field, text, day)


def read_past_date(field: str, text: str, today: date) -> date:
    """Read the date of what is done, as :func:`read_date`; one to come is :class:`Refused` too."""
    day = read_date(field, text, today, done=True)
    if day > today:
        raise Refused(field, text, "Give today or an earlier day.")
    return day


def read_until(field: str, text: str, since: date, today: date) -> date:
    """Read a last day, as :func:`read_date` or so long ``since`` a day: ``10 years``, ``18 mths``.

    So many years on is the same day of the year. Raises :class:`Refused` as :func:`read_date` does.
    """
    plain = _plain(text)
    day = _after(plain, since) or _near(plain, today) or _written(field, text, plain, today)
    if day is None:
        raise Refused(field, text, _FOR_SO_LONG)
    return _of_our_time(field, text, day)


def read_ruled_out(field: str, text: str) -> RuledOut:
    """Read days such as ``Mondays, weekends, 3 December 2026``; an empty text rules out none.

    Raises :class:`Refused` for a part that is neither weekdays nor a date with its year.
    """
    weekdays: set[int] = set()
    dates: set[date] = set()
    for part in re.split(r"[,;\n]| and ", text):
        plain = _plain(part)
        named = weekday_of(plain.removesuffix("s"))
        day = _whole_date(field, part.strip(), plain)
        if plain in ("weekends", "weekend"):
            weekdays |= {5, 6}
        elif named is not None:
            weekdays.add(named)
        elif day is not None:
            dates.add(_of_our_time(field, part.strip(), day))
        elif part.strip():
            raise Refused(field, part.strip(), "Give weekdays, or dates with their year.")
    return RuledOut(frozenset(weekdays), frozenset(dates))


def _plain(text: str) -> str:
    """The text in small letters and single spaces, numbers in figures; too long a one is ""."""
    words = text.lower().replace("−", "-").replace(",", " ").split()
    return " ".join(NUMBER_WORDS.get(word, word) for word in words) if len(text) <= 40 else ""


def _near(plain: str, today: date, *, done: bool = False) -> date | None:
    """Read what is said from today: a word, a weekday, or so many days on or back."""
    offset, match = _NEAR.get(plain), _OFFSET.fullmatch(plain)
    word = plain.removeprefix("next ").removesuffix(" week")
    named = weekday_of(word)
    if match:
        offset = int(match["sign"] + match["days"])
    elif named is not None:
        coming = (named - today.weekday() - 1) % 7 + 1
        gone = -((today.weekday() - named) % 7)
        offset = {
            word: gone if done else coming,
            f"next {word}": named - today.weekday() + 7,
            f"{word} week": coming + 7,
        }.get(plain)
    return None if offset is None else today + timedelta(days=offset)


def _after(plain: str, since: date) -> date | None:
    """Read how long it is from a day on."""
    match = _LENGTH_OF_TIME.fullmatch(plain)
    if match is None:
        return None
    count, unit = int(match["count"]), match["unit"]
    if unit in _MONTHS_IN:
        return months_after(since, count * _MONTHS_IN[unit])
    return since + timedelta(days=count * _DAYS_IN[unit]) if unit in _DAYS_IN else None


def _written(field: str, text: str, plain: str, today: date) -> date | None:
    """Read a date by its numbers or month, in the year nearest to today if it has none."""
    whole = _whole_date(field, text, plain)
    match = _NUMBERS.fullmatch(plain) or _NAMED.fullmatch(plain)
    if whole is not None or match is None or match["year"]:
        return whole
    month = _month(field, text, match)
    if month is None:
        return None
    years, number = (today.year - 1, today.year, today.year + 1), int(match["day"])
    days = [date(year, month, number) for year in years if 1 <= number <= _days_in(year, month)]
    if not days and (number, month) == (29, 2):
        raise Refused(field, text, "29 Feb is in a leap year only: give its year too.")
    if not days:
        raise _no_such_day(field, text, today.year, month)
    return _on_weekday(field, text, min(days, key=lambda day: abs((day - today).days)), match)


def _whole_date(field: str, text: str, plain: str) -> date | None:
    """Read a date that has its year; None if it is none."""
    match = _ISO.fullmatch(plain) or _NUMBERS.fullmatch(plain) or _NAMED.fullmatch(plain)
    month = _month(field, text, match) if match and match["year"] else None
    if match is None or month is None:
        return None
    year, number = int(match["year"]), int(match["day"])
    year += 2000 if year < 100 else 0
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise _not_our_time(field, text)
    if not 1 <= number <= _days_in(year, month):
        raise _no_such_day(field, text, year, month)
    return _on_weekday(field, text, date(year, month, number), match)


def _on_weekday(field: str, text: str, day: date, match: re.Match[str]) -> date | None:
    """Return the day if the weekday written before it, if any, is its own."""
    said = match.groupdict().get("weekday")
    if not said:
        return day
    named = weekday_of(said)
    if named is None:
        return None
    if named != day.weekday():
        right = f"{show_day(day)} {day.year} is a {WEEKDAYS[day.weekday()]}"
        raise Refused(field, text, f"{right}: give the date without the weekday, or another.")
    return day


def _of_our_time(field: str, text: str, day: date) -> date:
    if not _FIRST_YEAR <= day.year <= _LAST_YEAR:
        raise _not_our_time(field, text)
    return day


def _not_our_time(field: str, text: str) -> Refused:
    return Refused(field, text, f"Give a year from {_FIRST_YEAR} to {_LAST_YEAR}.")


def _no_such_day(field: str, text: str, year: int, month: int) -> Refused:
    """Tell how many days the month has."""
    of_year = f" {year}" if month == 2 else ""
    words = f"{MONTHS[month - 1]}{of_year} has {_days_in(year, month)} days: give one of them."
    return Refused(field, text, words)


def _days_in(year: int, month: int) -> int:
    return monthrange(year, month)[1]


def weekday_of(word: str) -> int | None:
    """The weekday a word begins, Monday is 0, with three letters or more; None for another word."""
    if len(word) < 3:
        return None
    starts = (n for n, name in enumerate(WEEKDAYS) if name.lower().startswith(word))
    return 2 if word == "weds" else next(starts, None)


def _month(field: str, text: str, match: re.Match[str]) -> int | None:
    """The month as a number or as the word that begins its name; None if it is another word.

    Raises :class:`Refused` for a number that is no month's.
    """
    said = match["month"]
    if said.isdecimal() and not 1 <= int(said) <= 12:
        raise Refused(field, text, "The day comes first, then a month from 1 to 12: 25/11/2026.")
    if said.isdecimal():
        return int(said)
    starts = (n for n, name in enumerate(MONTHS, start=1) if name.lower().startswith(said))
    return next(starts, None)
