"""What needs doing tonight, in the order of what it costs to leave it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from domain.days.calendar import months_after, show_day, show_hours, show_near
from domain.days.weather import against, too_short, window, windy
from domain.job.on_the_roof import Cover
from domain.page_names import PageName
from domain.starting_rates import CHARGES, WORK_RATES, starting_rates
from domain.trader import Trader
from domain.week.days import Bookings, lies_ahead, still_to_do
from domain.week.money_tasks import (
    MONEY_RULES,
    overdue,
    pay_back,
    statements,
    unsent,
    with_vat_day,
)
from domain.week.quote_tasks import QUOTE_RULES, SEND
from domain.week.tasks import Task, task_of
from domain.week.tonight_order import TaskKind, TaskSign
from domain.week.trouble import is_answered, troubles
from domain.week.week_data import WeekData, WeekLine
from domain.week.work_tasks import SOON, WORK_RULES, deck_open

_DAYS_WITHOUT_SECOND = 3  # a stick stays in a coat at times
RULES = (*WORK_RULES, *MONEY_RULES, *QUOTE_RULES)
"""What is asked of every job that has not ended."""


def tonight(data: WeekData, bookings: Bookings, today: date) -> tuple[Task, ...]:
    """List what needs doing: by kind, within a kind the larger sum and then the earlier first.

    A job that has not ended, and is not signed off and paid, stands in it or has a date ahead.
    """
    tasks = [
        *_rings(data, bookings, today),
        *_too_short(data, bookings, today),
        *_tarpaulins(data, today),
        *_deliveries(data),
        *_papers(data, bookings, today),
        *_starting_rates(data.trader, today),
        *_second_backup(data, today),
    ]
    for line in data.lines:
        tasks += [*unsent(line), *overdue(line, today), *statements(line, today)]
        rules = RULES if line.ended is None else (deck_open, pay_back)
        found = (task for rule in rules if (task := rule(line, today)) is not None)
        vat = data.trader.vat_registered
        tasks += (with_vat_day(task, line, today) if vat else task for task in found)
        if line.ended is None:
            tasks += _snags(line)
    said = _with_own_name(_with_rain(tasks, data, today), data.trader)
    shown = (task for task in said if not _waits(task, data) and not _is_ordered(task, data))
    return tuple(sorted(shown, key=lambda task: task.rank))


def _waits(task: Task, data: WeekData) -> bool:
    """Whether it was put off, or a tarpaulin tied down; any other stop is shown all the same."""
    stays = task.sign is TaskSign.STOP and task.kind is not TaskKind.TARPAULIN
    if task.job_id is None or stays:
        return False
    return (task.job_id, task.kind.value) in data.put_off


def _is_ordered(task: Task, data: WeekData) -> bool:
    """Whether what it asks to be ordered is ordered: it is asked for again if it does not come."""
    return task.kind is TaskKind.ORDER and task.job_id in data.ordered


def _deliveries(data: WeekData) -> Iterator[Task]:
    """Make a task of every order that should be here by now."""
    places = {line.job_id: line.place for line in data.lines}
    for each in data.deliveries:
        who = ", ".join(filter(None, (each.merchant, f"for {places.get(each.job_id, '')}")))
        words = "Has the rest come?" if each.part else "Has it come?"
        about = f"ordered for {show_day(each.expected_on)}"
        yield Task(TaskKind.DELIVERY, words, who, each.expected_on, job_id=each.job_id, about=about)


def _with_rain(tasks: Iterable[Task], data: WeekData, today: date) -> Iterator[Task]:
    """The tasks; the question whether a deck is closed says so if rain is forecast for today."""
    forecast = next((f for f in data.forecasts if f.day == today), None)
    wet = window(today, forecast, data.trader).trouble == "rain"
    for task in tasks:
        closed = task.kind is TaskKind.CLOSED
        yield replace(task, words="Rain: is the deck closed?") if wet and closed else task


def _with_own_name(tasks: Iterable[Task], trader: Trader) -> Iterator[Task]:
    """The tasks; no quote can be sent before the trader's own name and address are known."""
    known = bool(trader.name.strip() and trader.address.strip())
    for task in tasks:
        first = replace(
            task,
            words="Fill in your details",
            about="the quote goes out in your name",
            page_there=PageName.TRADER,
            field="name",
            to_send=None,
        )
        yield task if known or task.words != SEND else first


def _rings(data: WeekData, bookings: Bookings, today: date) -> Iterator[Task]:
    """Make a task of every job on a day whose weather stands in the way; its first such day.

    None of a day about which the customer was rung already.
    """
    rung: set[int] = set()
    for trouble in troubles(data, bookings, today):
        day = trouble.day
        when = show_near(day, today)
        on = "" if when in ("today", "tomorrow") else "on "
        for line, _ in bookings[day]:
            if line.job_id in rung or not lies_ahead(line, day, today):
                continue
            if not is_answered(line, trouble.forecast):
                rung.add(line.job_id)
                words = f"Ring: {trouble.against} {on}{when}"
                about = f"{trouble.window.words}; {show_hours(trouble.hours)} h booked"
                yield replace(task_of(TaskKind.RING, line, words, day), about=about)


def _too_short(data: WeekData, bookings: Bookings, today: date) -> Iterator[Task]:
    """Make a task of every coming day that no weather makes long enough for what is booked on it.

    It is of the job with the most hours there. A day whose weather is rung about is not named too.
    """
    limits = data.trader.limits
    forecasts = {forecast.day: forecast for forecast in data.forecasts}
    for day in sorted(on for on in bookings if today <= on <= today + timedelta(days=SOON)):
        found, ahead = (
            window(day, forecasts.get(day), data.trader),
            still_to_do(bookings, day, today),
        )
        words = "" if against(found, ahead, limits) else too_short(found, ahead, limits)
        if words:
            there = [each for each in bookings[day] if lies_ahead(each[0], day, today)]
            line, booked = max(there, key=lambda each: each[1].hours)
            task = task_of(TaskKind.SHORT, line, f"Too short: {show_near(day, today)}", day)
            field = f"day{line.days.index(booked) + 1}"
            yield replace(task, about=f"{words}: split the work or move a day", field=field)


def _tarpaulins(data: WeekData, today: date) -> Iterator[Task]:
    """Make a task of every roof that stands sheeted into a night of too much wind."""
    days = (today, today + timedelta(days=1))
    told = (forecast for forecast in data.forecasts if forecast.day in days)
    if any(windy(forecast, data.trader.limits) for forecast in told):
        for line in data.lines:
            if line.ended is None and line.cover is Cover.SHEETED and line.laid_on is None:
                yield task_of(TaskKind.TARPAULIN, line, "Tie down: windy night", today)


def _snags(line: WeekLine) -> Iterator[Task]:
    since = line.laid_on or date.min
    for words in line.open_snags:
        yield task_of(TaskKind.SNAG, line, f"Put right: {words}", since)


def _papers(data: WeekData, bookings: Bookings, today: date) -> Iterable[Task]:
    """Make a task of every paper of the trader's own that has a month or less to run.

    One that has run out by then stops the next booked day.
    """
    soon = [today + timedelta(days=n) for n in range(SOON + 1)]
    ahead = (d for d in soon if any(lies_ahead(line, d, today) for line, _ in bookings.get(d, ())))
    work = next(ahead, None)
    papers = (
        ("Renew waste carrier", "registration", data.trader.waste_expires, "waste_expires"),
        ("Renew insurance", "policy", data.trader.liability_expires, "liability_expires"),
    )
    for words, what, until, field in papers:
        if until is not None and today >= months_after(until, -1):
            ended = until < today
            kind = TaskKind.EXPIRED if work is not None and until < work else TaskKind.RENEW
            who = f"{what} {'expired' if ended else 'runs out'} {show_near(until, today)}"
            yield Task(kind, words, who, until, field=field)


def _starting_rates(trader: Trader, today: date) -> Iterator[Task]:
    """Speak of rates that are still figures to begin with; to a new book set-up speaks of them."""
    starting = starting_rates(trader.rates)
    if starting and trader.name.strip():
        first = next(name for name in (*CHARGES, *WORK_RATES) if name in starting)
        who = f"{len(starting)} starting figure{'s' if len(starting) > 1 else ''}"
        yield Task(TaskKind.RATES, "Confirm your rates", who, today, field=first)


def _second_backup(data: WeekData, today: date) -> Iterator[Task]:
    """Speak of backups that would go with the machine: they lie nowhere else."""
    folder, since = data.trader.backup_folder, data.second_backup_on
    if not folder:
        words, who = "Choose a backup folder", "on a stick, or synced"
        yield Task(TaskKind.BACKUP, words, who, today, field="backup_folder")
    elif since is not None and (today - since).days >= _DAYS_WITHOUT_SECOND:
        who = f"none since {show_near(since, today)}: {folder}"
        yield Task(TaskKind.BACKUP, "Second backup missing", who, since, field="backup_folder")
