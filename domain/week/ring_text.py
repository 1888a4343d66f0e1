"""The short message to a customer whose day the weather has spoilt."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from domain.days.calendar import WEEKDAYS, show_day
from domain.week.ringing import DayOffered
from domain.week.trouble import Trouble
from domain.week.week_data import WeekLine

_BAD = {"wind": "strong wind"}


@dataclass(frozen=True, slots=True)
class Message:
    """What is texted, in two lengths."""

    full: str
    brief: str
    """Without greeting and name, for where there is little room."""


def ring_text(
    line: WeekLine, wrong: Sequence[Trouble], offered: DayOffered | None, sender: str
) -> Message:
    """Say what is forecast, and ask for another day if there is one to offer.

    ``wrong`` has one day at least; ``sender`` is the trader's name.
    """
    bad = _BAD.get(wrong[0].against, wrong[0].against)
    days = _joined([each.day for each in wrong if each.against == wrong[0].against])
    news = f"{bad} is forecast for {days}"
    ask = "We will be in touch about another day."
    if offered is not None:
        ask = f"Would {_joined([each.day for each in offered.days])} suit instead?"
    return Message(
        f"Hello {line.customer}, {news}, so we cannot do your roof then. {ask} {sender}".strip(),
        f"{news[0].upper()}{news[1:]}. {ask}",
    )


def spoken(day: date) -> str:
    """The day as it is said to somebody: ``Tue 1 Dec``."""
    return f"{WEEKDAYS[day.weekday()][:3]} {show_day(day)}"


def _joined(days: Sequence[date]) -> str:
    """Days in a sentence, each once: ``Tue 1 Dec and Wed 2 Dec``."""
    *first, last = dict.fromkeys(map(spoken, days))
    return f"{', '.join(first)} and {last}" if first else last
