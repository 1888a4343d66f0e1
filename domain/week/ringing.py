"""Who is to be rung about the weather, and which days there are instead."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from domain.days.calendar import bank_holidays
from domain.days.dates import read_ruled_out
from domain.days.weather import Verdict, Window, against, too_short, window, windy
from domain.job.booked_day import BookedDay
from domain.week.days import by_day, lies_ahead, still_to_do
from domain.week.week_data import WeekData, WeekLine

_MOST = 7
"""Days that are offered."""
_FURTHEST = 28
"""Days on that a job is moved at the most: a forecast reaches three weeks."""


@dataclass(frozen=True, slots=True)
class DayOffered:
    """Where a job could be moved to: its days, all as many days on."""

    by: int
    """How many days on."""
    days: tuple[BookedDay, ...]
    windows: tuple[Window, ...]
    """Of each of the days."""
    beside: tuple[WeekLine, ...]
    """Other jobs on them, with which the hours fit all the same."""

    @property
    def is_forecast(self) -> bool:
        """Whether all of the days are known to be dry; otherwise there is no forecast yet."""
        return all(found.verdict is Verdict.GOOD for found in self.windows)


def days_to_move(line: WeekLine, today: date, troubled: Collection[date]) -> tuple[BookedDay, ...]:
    """Return the days of a job that a move takes along: all that lie ahead.

    Today's stays unless its weather is the trouble: its work may be done by now.
    """
    return tuple(
        booked
        for booked in sorted(line.days, key=lambda booked: booked.day)
        if lies_ahead(line, booked.day, today) and (booked.day > today or booked.day in troubled)
    )


def next_days(
    data: WeekData, line: WeekLine, days: Sequence[BookedDay], today: date
) -> tuple[DayOffered, ...]:
    """Return where the days of a job can be moved to, in the order of the calendar; a few.

    They move later by as many days each, so that their order and spacing stay. Every one of them
    is a working day of the trader and no bank holiday, not ruled out by the customer, outside the
    time in which they may cancel (unless they asked for it), and has the hours, beside what else
    is booked on it. Days that are known to be dry come before those of which nothing is known.
    Raises :class:`Refused` for days ruled out, or a nation, that cannot be read.
    """
    if not days:
        return ()
    rules = _Rules(data, line, today)
    offered = [found for by in range(1, _FURTHEST + 1) if (found := rules.offer(days, by))]
    offered.sort(key=lambda each: not each.is_forecast)  # each half stays in its order
    return tuple(offered[:_MOST])


class _Rules:
    """What a day has to be for one job."""

    def __init__(self, data: WeekData, line: WeekLine, today: date) -> None:
        self._trader, self._line, self._today = data.trader, line, today
        others = [other for other in data.lines if other.job_id != line.job_id]
        self._bookings = by_day(others, today)
        self._forecasts = {told.day: told for told in data.forecasts}
        self._ruled_out = read_ruled_out("ruled_out", line.ruled_out)

    def offer(self, days: Sequence[BookedDay], by: int) -> DayOffered | None:
        """The days so many days on, if all of them will do."""
        moved = tuple(replace(each, day=each.day + timedelta(days=by)) for each in days)
        if moved[0].day <= self._today or not all(map(self._suits, moved)):
            return None
        windows = tuple(self._window(each.day) for each in moved)
        if not all(map(self._fits, moved, windows)) or not self._calm_between(moved):
            return None
        return DayOffered(by, moved, windows, tuple(self._beside(moved)))

    def _suits(self, booked: BookedDay) -> bool:
        """Whether it is a day on which this trader works for this customer."""
        day, line = booked.day, self._line
        works = day.weekday() in self._trader.working_days or not self._trader.working_days
        early = line.service_ends is not None and day <= line.service_ends
        asked = line.early_request_on is not None and line.knows_right_ends
        free = day not in bank_holidays(self._trader.nation, day.year)
        return works and free and day not in self._ruled_out and (asked or not early)

    def _fits(self, booked: BookedDay, found: Window) -> bool:
        """Whether its hours go in with those booked beside it, in weather that is not bad."""
        if found.verdict is Verdict.POOR:
            return False
        others = still_to_do(self._bookings, booked.day, self._today)
        visits, limits = (*others, booked), self._trader.limits
        if others and sum(visit.hours for visit in visits) > self._trader.hours_a_day:
            return False
        return not (against(found, visits, limits) or too_short(found, visits, limits))

    def _calm_between(self, moved: Sequence[BookedDay]) -> bool:
        """Whether no day between them, on which the roof stands sheeted, has too much wind."""
        first, last = moved[0].day, moved[-1].day
        between = (first + timedelta(days=n) for n in range((last - first).days))
        told = (self._forecasts.get(day) for day in between)
        return not any(each is not None and windy(each, self._trader.limits) for each in told)

    def _window(self, day: date) -> Window:
        return window(day, self._forecasts.get(day), self._trader)

    def _beside(self, moved: Sequence[BookedDay]) -> Iterator[WeekLine]:
        """Each other job on any of the days, once."""
        seen: set[int] = set()
        for booked in moved:
            for other, _ in self._bookings.get(booked.day, ()):
                ahead = lies_ahead(other, booked.day, self._today)
                if ahead and other.job_id not in seen:
                    seen.add(other.job_id)
                    yield other
