"""The whole of the first screen."""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from domain.money import Pence
from domain.week.days import DayView, by_day, plan_days
from domain.week.debts import Owed, owed_by_age
from domain.week.tasks import Task
from domain.week.tonight import tonight
from domain.week.week_data import WeekData


@dataclass(frozen=True, slots=True)
class Figures:
    """What the shown week came to, and what is owed altogether. Money with VAT."""

    quoted: Pence
    """In quotes sent."""
    accepted: Pence
    """In quotes accepted."""
    invoiced: Pence
    paid: Pence
    hours: Decimal
    """Recorded for jobs laid."""
    owed: Pence
    """On every invoice, whatever the week."""
    late: Pence
    """Of it, what is past its day."""
    by_age: tuple[Owed, ...]
    """What is owed, by how long it has been overdue."""


@dataclass(frozen=True, slots=True)
class Week:
    """Seven days, tonight's list and the figures."""

    monday: date
    days: tuple[DayView, ...]
    tonight: tuple[Task, ...]
    figures: Figures


def plan_week(data: WeekData, today: date, monday: date | None = None) -> Week:
    """Plan the week of a Monday, by default the one that holds today.

    Tonight's list and what is owed are those of today, whichever week is shown.
    """
    monday = monday or today - timedelta(days=today.weekday())
    bookings = by_day(data.lines, today)
    return Week(
        monday=monday,
        days=plan_days(data, monday, 7, today),
        tonight=tonight(data, bookings, today),
        figures=_figures(data, monday, today),
    )


def _figures(data: WeekData, monday: date, today: date) -> Figures:
    def of_week(day: date | None) -> bool:
        return day is not None and monday <= day < monday + timedelta(days=7)

    lines = data.lines
    bills = [bill for line in lines for bill in line.bills]
    return Figures(
        quoted=sum(line.quote_gross or 0 for line in lines if of_week(line.quote_sent_on)),
        accepted=sum(line.quote_gross or 0 for line in lines if of_week(line.accepted_on)),
        invoiced=sum(bill.gross for bill in bills if of_week(bill.issued_on)),
        paid=sum(pence for line in lines for day, pence in line.paid if of_week(day)),
        hours=sum((line.hours_used for line in lines if of_week(line.laid_on)), Decimal(0)),
        owed=sum(bill.owed for bill in bills),
        late=sum(bill.owed for bill in bills if bill.due_on < today),
        by_age=owed_by_age(bills, today),
    )
