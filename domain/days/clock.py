"""Times of day as people type them and as they read them."""

import re
from datetime import time
from functools import cache

from domain.errors import Refused
from domain.measure_grammar import NUMBER_WORDS

_EXAMPLES = "Give a time such as 9.30, half 9, 14:00 or 5 pm."
_HALF = r"(?: ?(?P<half>am|pm))?"
_NOONS = ("noon", "midday")


def show_time(moment: time) -> str:
    """The time by the 24-hour clock: ``09:30``."""
    return f"{moment:%H:%M}"


def say_time(moment: time) -> str:
    """The time as it is spoken: ``half past 2 pm``."""
    hour = moment.hour % 12 or 12
    words = {
        0: str(hour),
        15: f"quarter past {hour}",
        30: f"half past {hour}",
        45: f"quarter to {hour % 12 + 1}",
    }
    clock = words.get(moment.minute, f"{hour}.{moment.minute:02d}")
    if (moment.hour, moment.minute) == (12, 0):
        return "noon"
    return f"{clock} {'am' if moment.hour < 12 else 'pm'}"


def read_time(field: str, text: str, *, by_day: bool = False) -> time:
    """Read a time such as ``9.30``, ``0930``, ``half 9``, ``quarter to 9``, ``5 pm`` or ``noon``.

    Half 9 is half past 9. An hour from 1 to 6 with neither am, pm nor a nought before it is that of
    the afternoon where nothing is done at night, ``by_day``. Raises :class:`Refused` for it
    elsewhere, where nobody knows which is meant, and for anything else.
    """
    plain = _plain(text)
    match = _figures().fullmatch(plain)
    spoken = _spoken().fullmatch(plain)
    hour, minute = (
        _hour_and_minute(match) if match else _hours_spoken(spoken) if spoken else (24, 0)
    )
    half = (match or spoken or {"half": None})["half"]
    if hour > 23 or minute > 59 or (half and not 1 <= hour <= 12):
        raise Refused(field, text, _EXAMPLES)
    either = not half and 1 <= hour <= 6 and not plain.startswith("0")
    if either and not by_day:
        to_the_minute = f"{hour}.{minute:02d}" if minute else f"{hour}"
        morning = f"0{hour}:{minute:02d} for the morning"
        raise Refused(field, text, f"Give {to_the_minute} pm, or {morning}.")
    if half or either:
        hour = hour % 12 + (0 if half == "am" else 12)
    return time(hour, minute)


@cache
def _figures() -> re.Pattern[str]:
    """What a time in figures looks like: made when one is first read, not for the first paint."""
    return re.compile(
        rf"(?P<hour>[0-9]{{1,2}})(?:[.:]?(?P<minute>[0-9]{{2}}))?(?: o'clock)?{_HALF}"
    )


@cache
def _spoken() -> re.Pattern[str]:
    return re.compile(
        r"(?:(?P<half_past>half) ?(?:past )?"
        r"|(?P<by>quarter|[0-9]{1,2})(?: minutes)? (?P<way>past|to) )"
        rf"(?P<hour>[0-9]{{1,2}}){_HALF}"
    )


def _plain(text: str) -> str:
    """The text in small letters and single spaces, numbers in figures; too long a one is ""."""
    words = text.lower().replace("’", "'").replace("m.", "m").split()
    plain = " ".join(NUMBER_WORDS.get(word, word) for word in words) if len(text) <= 40 else ""
    plain = plain.replace("a.m", "am").replace("p.m", "pm").replace("half-past", "half past")
    return "12 pm" if plain in _NOONS else plain


def _hour_and_minute(match: re.Match[str]) -> tuple[int, int]:
    return int(match["hour"]), int(match["minute"] or 0)


def _hours_spoken(match: re.Match[str]) -> tuple[int, int]:
    """Hour and minute of a clock of 12 hours; hour 24 for what no clock shows."""
    hour, by = int(match["hour"]), match["by"]
    minutes = 30 if match["half_past"] else 15 if by == "quarter" else int(by)
    if not 1 <= hour <= 12 or not 0 < minutes < 60:
        return 24, 0
    after_twelve = (hour * 60 + (-minutes if match["way"] == "to" else minutes)) % 720
    return after_twelve // 60 or 12, after_twelve % 60
