"""The whole of the first screen."""

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import NamedTuple

from domain.money import Pence
from domain.week.days import DayView, by_day, lies_ahead, plan_days
from domain.week.debts import Owed, owed_by_age
from domain.week.tasks import Task
from domain.week.tonight import tonight
from domain.week.week_data import WeekData, WeekLine

DAYS = 7
_THURSDAY = 3
_NO_HOURS = Decimal(0)


class Figures(NamedTuple):
    """What seven days came to or are to bring, and what is owed altogether. Money with VAT."""

    lie_ahead: bool
    """Whether none of the days has gone by: then what is booked tells of them."""
    quoted: Pence
    """In quotes sent."""
    accepted: Pence
    """In quotes accepted."""
    invoiced: Pence
    paid: Pence
    hours: Decimal
    """Recorded for jobs laid."""
    booked: Pence
    """In the quotes of the jobs whose last booked day it has."""
    hours_booked: Decimal
    """On its days."""
    to_come_in: Pence
    """Owed on invoices that are due in it."""
    owed: Pence
    """On every invoice, whatever the week."""
    late: Pence
    """Of it, what is past its day."""
    by_age: tuple[Owed, ...]
    """What is owed, by how long it has been overdue."""


class Week(NamedTuple):
    """Seven days, tonight's list and the figures."""

    first: date
    days: tuple[DayView, ...]
    tonight: tuple[Task, ...]
    figures: Figures

    @property
    def last(self) -> date:
        """The last of the seven days."""
        return self.days[-1].day


def monday_of(day: date) -> date:
    """The Monday of the week that holds a day."""
    return day - timedelta(days=day.weekday())


def first_shown(today: date, weeks_on: int = 0) -> date:
    """The first of the seven days that are shown, so many weeks on; negative: back.

    Until Wednesday they begin on Monday; from Thursday on with today, so that what comes after the
    weekend is in sight.
    """
    first = today if today.weekday() >= _THURSDAY else monday_of(today)
    return first + timedelta(weeks=weeks_on)


def plan_week(data: WeekData, today: date, weeks_on: int = 0) -> Week:
    """Plan the seven days that are shown today, or those so many weeks on.

    Tonight's list and what is owed are those of today, whichever week is shown. The other figures
    are those of the days that are shown.
    """
    first = first_shown(today, weeks_on)
    bookings = by_day(data.lines, today)
    days = plan_days(data, first, DAYS, today)
    return Week(
        first=first,
        days=days,
        tonight=tonight(data, bookings, today),
        figures=_figures(data, days, today),
    )


def _figures(data: WeekData, days: Sequence[DayView], today: date) -> Figures:
    first, last = days[0].day, days[-1].day

    def of_week(day: date | None) -> bool:
        return day is not None and first <= day <= last

    lines = data.lines
    bills = [bill for line in lines for bill in line.bills]
    return Figures(
        lie_ahead=first >= today,
        quoted=sum(line.quote_gross or 0 for line in lines if of_week(line.quote_sent_on)),
        accepted=sum(line.quote_gross or 0 for line in lines if of_week(line.accepted_on)),
        invoiced=sum(bill.gross for bill in bills if of_week(bill.issued_on)),
        paid=sum(pence for line in lines for day, pence in line.paid if of_week(day)),
        hours=sum((line.hours_used for line in lines if of_week(line.laid_on)), _NO_HOURS),
        booked=sum(line.quote_gross or 0 for line in lines if of_week(_last_day(line, today))),
        hours_booked=sum((day.hours_booked for day in days), _NO_HOURS),
        to_come_in=sum(bill.owed for bill in bills if of_week(bill.due_on)),
        owed=sum(bill.owed for bill in bills),
        late=sum(bill.owed for bill in bills if bill.due_on < today),
        by_age=owed_by_age(bills, today),
    )


def _last_day(line: WeekLine, today: date) -> date | None:
    """The last booked day on which there is still something to do."""
    ahead = [b.day for b in line.days if line.ended is None and lies_ahead(line, b.day, today)]
    return max(ahead, default=None)
