"""The seven days side by side: the work, what the weather lets be done, the hours."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple, TypeAlias

from domain.days.calendar import show_hours
from domain.days.weather import TOO_SHORT, Verdict, against, too_short, window
from domain.job.booked_day import BookedDay
from domain.job.on_the_roof import Cover
from domain.job.stage import Stage
from domain.signs import Sign
from domain.week.week_data import WeekData, WeekLine

Bookings: TypeAlias = Mapping[date, Sequence[tuple[WeekLine, BookedDay]]]
"""What was done and what is booked, by day."""

_AT_RISK = Sign.CAUTION.value
_NO_HOURS = Decimal(0)


class PictureState(StrEnum):
    """The roof as it stands, for a small picture."""

    OLD = "old covering"
    BARE = "bare boards"
    SHEETED = "sheeted"
    LAID = "courses laid"
    CLOSED = "ridge on"


class Entry(NamedTuple):
    """One thing to do on a day."""

    job_id: int
    ref: str
    place: str
    stage: Stage
    picture: PictureState
    task: str
    """"strip, lay", "visit"."""
    hours: Decimal
    """Nothing for a visit, a day that was not booked, and one that is not needed any more."""
    is_work: bool
    """Whether it is work on the roof, not a visit."""


class DayView(NamedTuple):
    """One day of the week."""

    day: date
    is_today: bool
    is_past: bool
    entries: tuple[Entry, ...]
    """Work first, then visits."""
    weather: str
    """In 11 characters at most; empty while not known."""
    verdict: Verdict
    against: str
    """What stands in the way of all that is still to be done: "rain", "wind", "cold", or "too
    short: 8 h of 7½ h"; "" for nothing."""
    hours_booked: Decimal
    hours_free: Decimal
    """Of the trader's hours a day, as many as are in the window; none on a day off."""
    hours_over: Decimal
    """By how much what is booked is over the trader's hours a day; none once the day is past."""
    is_holiday: bool
    """Whether it is a bank holiday on which the trader would work otherwise."""

    @property
    def weather_words(self) -> str:
        """The weather, behind its sign on a day at risk: a caution, since waiting is no stop.

        Of a day that is too short in any weather it says that instead.
        """
        if self.against.startswith(TOO_SHORT):
            return f"{_AT_RISK} {self.against}"
        return f"{_AT_RISK} {self.weather}" if self.against else self.weather

    @property
    def hours_words(self) -> str:
        """Booked out of the day's hours: "6½ of 8 h", "9 h", "8 h free", "▲ 12 of 8 h".

        Empty on a day off or past. Of a day too short for its one job by how much: "8 of 7½ h".
        """
        booked = show_hours(self.hours_booked)
        is_too_short = self.against.startswith(TOO_SHORT)
        if self.hours_over and (not is_too_short or len(self.entries) > 1):
            whole = show_hours(self.hours_booked - self.hours_over)
            return f"{_AT_RISK} {booked} of {whole} h"
        if is_too_short:
            by_how_much = self.against.removeprefix(f"{TOO_SHORT}: ").partition(" with ")[0]
            return by_how_much.replace(" h of ", " of ")
        if not self.hours_free:
            none_booked = "holiday" if self.is_holiday and not self.is_past else ""
            return f"{booked} h" if self.hours_booked else none_booked
        whole = show_hours(self.hours_booked + self.hours_free)
        if self.hours_booked:
            return f"{booked} of {whole} h"
        return "" if self.is_past else f"{whole} h free"


def picture_of(stage: Stage, cover: Cover | None) -> PictureState:
    """Return how the roof of a job stands; ``cover`` is None until it has been stripped."""
    if stage is Stage.SIGNED_OFF:
        return PictureState.CLOSED
    if stage is Stage.LAID or cover is Cover.LAID:
        return PictureState.LAID
    if cover is Cover.SHEETED:
        return PictureState.SHEETED
    return PictureState.OLD if cover is None else PictureState.BARE


def by_day(lines: Iterable[WeekLine], today: date) -> Bookings:
    """Sort the work by its day: as recorded where it is, as booked where it is not.

    Jobs that have ended are left out.
    """
    bookings: dict[date, list[tuple[WeekLine, BookedDay]]] = {}
    for line in lines:
        for booked in _days_of(line, today) if line.ended is None else ():
            bookings.setdefault(booked.day, []).append((line, booked))
    return bookings


def _days_of(line: WeekLine, today: date) -> Iterator[BookedDay]:
    """Return the days of a job; no hours where none were booked, or none are needed any more.

    A booked day that has gone by counts only between stripping and laying, once they are recorded.
    """
    first, last = line.stripped_on, line.laid_on
    for booked in line.days:
        over = last is not None and booked.day > last
        before = first is not None and booked.day < first
        if booked.day >= today or not (over or before):
            yield replace(booked, hours=_NO_HOURS) if over else booked
    known = {booked.day for booked in line.days}
    recorded = [(day, task) for day, task in ((first, "strip"), (last, "lay")) if day]
    for day in {day for day, _ in recorded} - known:
        yield BookedDay(day, _NO_HOURS, ", ".join(task for on, task in recorded if on == day))


def lies_ahead(line: WeekLine, day: date, today: date) -> bool:
    """Tell whether the work booked for a day is still to be done, today's included."""
    recorded = line.laid_on is not None or line.stripped_on == day
    return day >= today and line.stage.rank < Stage.LAID.rank and not recorded


def still_to_do(bookings: Bookings, day: date, today: date) -> tuple[BookedDay, ...]:
    """Return the work booked for a day that lies ahead."""
    return tuple(booked for line, booked in bookings.get(day, ()) if lies_ahead(line, day, today))


def plan_days(data: WeekData, first: date, count: int, today: date) -> tuple[DayView, ...]:
    """Lay out so many days, such as the seven of a week."""
    bookings = by_day(data.lines, today)
    forecasts = {forecast.day: forecast for forecast in data.forecasts}
    days = []
    for day in (first + timedelta(days=n) for n in range(count)):
        found, limits = window(day, forecasts.get(day), data.trader), data.trader.limits
        ahead = still_to_do(bookings, day, today)
        entries = (
            *(_entry(line, booked) for line, booked in bookings.get(day, ())),
            *(_entry(line, None) for line in data.lines if _visited(line, day)),
        )
        hours = sum((entry.hours for entry in entries), _NO_HOURS)
        whole, works = data.trader.hours_a_day, _works_on(data, day)
        view = DayView(
            day=day,
            is_today=day == today,
            is_past=day < today,
            entries=entries,
            weather=found.words,
            verdict=found.verdict,
            against=against(found, ahead, limits) or too_short(found, ahead, limits),
            hours_booked=hours,
            hours_free=max(_NO_HOURS, min(whole, found.hours) - hours) if works else _NO_HOURS,
            hours_over=max(_NO_HOURS, hours - whole) if day >= today else _NO_HOURS,
            is_holiday=day in data.holidays and day.weekday() in data.trader.working_days,
        )
        days.append(view)
    return tuple(days)


def _visited(line: WeekLine, day: date) -> bool:
    return line.ended is None and line.visit_on == day


def _works_on(data: WeekData, day: date) -> bool:
    """Whether it is one of the trader's working days, and no bank holiday."""
    return day.weekday() in data.trader.working_days and day not in data.holidays


def _entry(line: WeekLine, booked: BookedDay | None) -> Entry:
    """What stands on a day: work that is booked, or a visit."""
    return Entry(
        job_id=line.job_id,
        ref=line.ref,
        place=line.place,
        stage=line.stage,
        picture=picture_of(line.stage, line.cover),
        task="visit" if booked is None else booked.task,
        hours=_NO_HOURS if booked is None else booked.hours,
        is_work=booked is not None,
    )
