"""What is said once nothing is left tonight: tomorrow, and the money that is due."""

from collections.abc import Iterator
from datetime import date, timedelta

from domain.days.calendar import show_date, show_hours
from domain.days.clock import show_time
from domain.money import show_money
from domain.week.days import plan_days
from domain.week.week_data import WeekData

_A_WEEK = timedelta(days=7)


def tomorrow(data: WeekData, today: date, key: str) -> Iterator[str]:
    """Say what is to be done tomorrow, from when, in which weather; then what is due in a week.

    ``key`` is that which saves what is taken along.

    Work begins with the trader's working day; how long the way there takes is not known.
    """
    (day,) = plan_days(data, today + timedelta(days=1), 1, today)
    title = f"Tomorrow, {show_date(day.day)}"
    if not day.entries:
        yield f"{title}: nothing is booked."
    for entry in day.entries:
        hours = f", {show_hours(entry.hours)} h" if entry.is_work and entry.hours else ""
        start = f", from {show_time(data.trader.work_from)}" if entry.is_work else ""
        yield f"{title}: {entry.task} at {entry.place}{hours}{start}."
    if any(entry.is_work for entry in day.entries):
        weather = day.weather_words or "no forecast yet"
        yield f"Weather: {weather}. {key} saves site sheet and load list."
    bills = (bill for line in data.lines for bill in line.bills)
    due = sum(bill.owed for bill in bills if today <= bill.due_on < today + _A_WEEK)
    if due:
        yield f"Due to you in the next seven days: {show_money(due)}."
