"""Changes to a job that lacks nothing, each to one part of its record."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

from domain.checks.check import OtherWork
from domain.checks.stages import Situation
from domain.job import (
    BookedDay,
    Cover,
    Extra,
    ExtraState,
    Means,
    Usage,
)
from domain.trader import Van
from domain.units import Angle
from tests import priced
from tests.builders import (
    AGREED,
    LAY_DAY,
    acceptance,
    forecast,
    sent,
    stripping,
    trader,
)

Change = Callable[[Situation], Situation]

LAST_TO_CANCEL = AGREED + timedelta(days=14)
DAY_BEFORE = LAY_DAY - timedelta(days=1)
DAY_BEFORE_AGREED = AGREED - timedelta(days=1)


def job(**changes: Any) -> Change:
    return lambda s: replace(s, job=replace(s.job, **changes))


def part(name: str, /, **changes: Any) -> Change:
    """Change fields of a value that the job holds."""
    return lambda s: job(**{name: replace(getattr(s.job, name), **changes)})(s)


def surveyed(name: str, /, **changes: Any) -> Change:
    """Change fields of a value that the survey holds."""

    def change(situation: Situation) -> Situation:
        held = getattr(situation.job.survey, name)
        return part("survey", **{name: replace(held, **changes)})(situation)

    return change


def accepted(**changes: Any) -> Change:
    return job(quotes=(sent(acceptance=acceptance(**changes)),))


def to_accept(change: Change) -> Change:
    """Change a job whose quote was sent and is not accepted."""
    return both(job(quotes=(sent(),)), change)


def booked(*days: date, hours: int = 8) -> Change:
    return job(days=tuple(BookedDay(day, Decimal(hours)) for day in days))


def both(first: Change, second: Change) -> Change:
    return lambda s: second(first(s))


def early(**changes: Any) -> Change:
    """Book the last day on which the customer may cancel."""
    return both(booked(LAST_TO_CANCEL), accepted(**changes))


def forecast_of(typed: str = "d/12@8g14", *, today: date = AGREED) -> Change:
    return lambda s: replace(s, today=today, forecasts={LAY_DAY: forecast(LAY_DAY, typed)})


def over_night(first: date) -> Change:
    """Book a day to strip and the next to lay, both still to come."""
    days = (BookedDay(first, Decimal(4), "strip"), BookedDay(first + timedelta(days=1), Decimal(4)))
    return job(days=days, stripping=None, laying=None)


def sheeted(*, laid: bool = False) -> Change:
    """Strip the day before the roof is laid, and leave it sheeted."""
    sheeted = stripping(on=DAY_BEFORE, cover=Cover.SHEETED)
    return lambda s: job(stripping=sheeted, laying=s.job.laying if laid else None)(s)


def own(**changes: Any) -> Change:
    """Change the trader's your details."""
    return lambda s: replace(s, trader=trader(**changes))


def strips_used(used: str) -> Change:
    """Use so many strips of the ten estimated; the hours stay as they are."""
    row = Usage("strips", "strip", Decimal(10), Decimal(used))
    return lambda s: job(usages=(row, *(u for u in s.job.usages if u.unit == "hour")))(s)


def only_used(unit: str) -> Change:
    return lambda s: job(usages=tuple(u for u in s.job.usages if u.unit == unit))(s)


def extra(**changes: Any) -> Change:
    """Add boards found rotten, agreed by text."""
    agreed = Extra(
        "boards found rotten",
        Decimal("4.2"),
        "m",
        58_80,
        Decimal(0),
        ExtraState.AGREED,
        agreed_by="Mrs Adeyemi",
        agreed_on=LAY_DAY,
        means=Means.TEXT,
    )
    return job(extras=(replace(agreed, **changes),))


def pitch(degrees: str) -> Change:
    return surveyed("measures", pitch=Angle(Fraction(degrees), f"{degrees}°"))


def laden(payload: int) -> Change:
    """Carry what the worked example takes, 100.6 kg, in a van for so many kg."""
    van = Van(payload_kg=Decimal(payload))
    return both(own(van=van), job(quotes=(priced.accepted(priced.quote()),), stripping=None))


def beside(day: date, *, today: date = AGREED, kg: Fraction | None = None) -> Change:
    """Take back stripping and laying, and book another job of six hours for a day."""
    other = OtherWork(day, Decimal(6), "0017", "Mill Row", kg)
    bare = job(stripping=None, laying=None)
    return lambda s: replace(bare(s), today=today, others=(other,))
