"""Days: shown as people read them, and what the law makes of them.

:mod:`domain.days.dates` reads them. Only :func:`bank_holidays` loads anything
heavy, when it is called.
"""

from collections.abc import Collection, Mapping
from datetime import date, timedelta
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


def show_day(day: date) -> str:
    """The day without its year: ``25 Nov``."""
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def show_weekday(day: date) -> str:
    """The day with its weekday and no month, for the seven of a week: ``Wed 25``."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day}"


def show_date(day: date) -> str:
    """The whole date: ``Wed 25 Nov 2026``; :func:`domain.days.dates.read_date` reads it back."""
    return f"{WEEKDAYS[day.weekday()][:3]} {show_day(day)} {day.year}"


def show_week(first: date) -> str:
    """Seven days by the first and the last of them: ``29 Jun to 5 Jul``, ``15 to 21 Jun``."""
    last = first + timedelta(days=6)
    begins = f"{first.day}" if first.month == last.month else show_day(first)
    return f"{begins} to {show_day(last)}"


def show_in_full(day: date) -> str:
    """``31 January 2033``: a last day, of which nobody asks what weekday it is."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def show_near(day: date, today: date) -> str:
    """The day as one speaks of it: ``today``, ``tomorrow``, ``Thursday``, else ``25 Nov``.

    A weekday's name alone means one of the six days after today.
    """
    ahead = (day - today).days
    if ahead in (0, 1):
        return ("today", "tomorrow")[ahead]
    return WEEKDAYS[day.weekday()] if 1 < ahead < 7 else show_day_from(day, today)


def show_day_from(day: date, today: date) -> str:
    """The day without its year, as ``25 Nov``; with it where another of that name is nearer."""
    return show_day(day) if is_nearest(day, today) else f"{show_day(day)} {day.year}"


def is_nearest(day: date, today: date) -> bool:
    """Whether a day is meant if no year is said: it lies within half a year of today."""
    return months_after(today, -6) < day < months_after(today, 6)


def show_hours(hours: Decimal) -> str:
    """So many hours, to the quarter if they are quarters: ``6½``, otherwise ``6.4``."""
    whole, part = divmod(hours, 1)
    quarter = _QUARTERS.get(part)
    if quarter is None:
        return f"{hours.normalize():f}"
    return quarter if quarter and not whole else f"{int(whole)}{quarter}"


def cancellation_ends(told_on: date) -> date:
    """Return the last day of the 14 days in which a customer who was told may cancel.

    Consumer Contracts Regulations 2013 reg. 30 and 31: the end of 14 days after the day of the
    agreement, or after the day on which the customer was told of the right, if that was later.
    See :mod:`domain.days.cancellation` for when there is such a right, and what is assumed.
    """
    return told_on + timedelta(days=14)


def pay_back_by(told_on: date) -> date:
    """Return the day by which money goes back to a customer: 14 days after we were told.

    Consumer Contracts Regulations 2013 reg. 34, quoted; held to for any job that is called off.
    """
    return told_on + timedelta(days=14)


def untold_cancellation_ends(agreed_on: date) -> date:
    """Return the last day to cancel if the customer is never told: 12 months more (reg. 31)."""
    return months_after(cancellation_ends(agreed_on), 12)


def right_to_cancel_ends(agreed_on: date, notice_on: date | None) -> date:
    """Return the last day to cancel for a customer who may.

    A notice given with the agreement or before it leaves 14 days from the agreement, one given
    later 14 days from the notice, and none at all 12 months more.
    """
    latest = untold_cancellation_ends(agreed_on)
    if notice_on is None:
        return latest
    return min(cancellation_ends(max(agreed_on, notice_on)), latest)


def months_after(day: date, months: int) -> date:
    """Return the same day so many months on (negative: back), or the last of a shorter month."""
    month = day.year * 12 + day.month - 1 + months
    last = _first_of(month + 1) - timedelta(days=1)
    return last.replace(day=min(day.day, last.day))


def _first_of(month: int) -> date:
    """The first day of a month, counted from the year 0."""
    return date(month // 12, month % 12 + 1, 1)


def working_day(day: date, by: int, weekdays: Collection[int], nation: str) -> date:
    """Return the first working day after ``day``, or before it for a negative ``by``.

    ``weekdays`` are those worked on, Monday is 0; with none of them every day is one. A bank
    holiday of the nation is none. Raises :class:`Refused` as :func:`bank_holidays` does.
    """
    step = timedelta(days=1 if by > 0 else -1)
    day += step
    while (weekdays and day.weekday() not in weekdays) or day in bank_holidays(nation, day.year):
        day += step
    return day


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
