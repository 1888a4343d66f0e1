"""Times of day as people type them and as they read them."""

import re
from datetime import time

from domain.errors import Refused
from domain.measure_grammar import NUMBER_WORDS

_EXAMPLES = "Give a time such as 9.30, half 9, 14:00 or 5 pm."
_HALF = r"(?: ?(?P<half>am|pm))?"
_FIGURES = re.compile(
    rf"(?P<hour>[0-9]{{1,2}})(?:[.:]?(?P<minute>[0-9]{{2}}))?(?: o'clock)?{_HALF}"
)
_SPOKEN = re.compile(
    r"(?:(?P<half_past>half) ?(?:past )?|(?P<by>quarter|[0-9]{1,2})(?: minutes)? (?P<way>past|to) )"
    rf"(?P<hour>[0-9]{{1,2}}){_HALF}"
)
_NOONS = ("noon", "midday")


def show_time(moment: time) -> str:
    """The time by the 24-hour clock: ``09:30``."""
    return f"{moment:%H:%M}"


def read_time(field: str, text: str) -> time:
    """Read a time such as ``9.30``, ``0930``, ``half 9``, ``quarter to 9``, ``5 pm`` or ``noon``.

    Half 9 is half past 9. Raises :class:`Refused` for anything else, and for an hour from 1 to 6
    with neither am, pm nor a nought before it: nobody knows which is meant.
    """
    plain = _plain(text)
    match = _FIGURES.fullmatch(plain)
    spoken = _SPOKEN.fullmatch(plain)
    hour, minute = (
        _hour_and_minute(match) if match else _hours_spoken(spoken) if spoken else (24, 0)
    )
    half = (match or spoken or {"half": None})["half"]
    if hour > 23 or minute > 59 or (half and not 1 <= hour <= 12):
        raise Refused(field, text, _EXAMPLES)
    if not half and 1 <= hour <= 6 and not plain.startswith("0"):
        to_the_minute = f"{hour}.{minute:02d}" if minute else f"{hour}"
        morning = f"0{hour}:{minute:02d} for the morning"
        raise Refused(field, text, f"Give {to_the_minute} pm, or {morning}.")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return time(hour, minute)


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
