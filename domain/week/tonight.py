"""What needs doing tonight, in the order of what it costs to leave it."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta

from domain.days.calendar import months_after, show_near
from domain.days.weather import against, window, windy
from domain.job.on_the_roof import Cover
from domain.job.stage import Stage
from domain.money import Pence
from domain.week.days import Bookings, lies_ahead, still_to_do
from domain.week.tasks import Task
from domain.week.tonight_order import TaskKind
from domain.week.week_data import WeekData, WeekLine

_ORDER_DAYS = 7  # ahead of a booked day; common practice
_DAYS_BEFORE_RUN_OUT = 3
_DAYS_AFTER_RUN_OUT = 14
_DAYS_WITHOUT_SECOND = 3  # a stick stays in a coat at times


def tonight(data: WeekData, bookings: Bookings, today: date) -> tuple[Task, ...]:
    """List what needs doing: by kind, within a kind the earliest first."""
    tasks = [
        *_rings(data, bookings, today),
        *_tarpaulins(data, today),
        *_papers(data, today),
        *_second_backup(data, today),
    ]
    for line in data.lines:
        tasks += _overdue(line, today)
        if line.ended is None:
            tasks += _snags(line)
            tasks += (task for rule in _RULES if (task := rule(line, today)) is not None)
    return tuple(sorted(tasks, key=lambda task: task.rank))


def _task(
    kind: TaskKind, line: WeekLine, words: str, since: date, amount: Pence | None = None
) -> Task:
    who = ", ".join(part for part in (line.customer, line.place) if part)
    return Task(kind, words, who, since, amount, line.job_id)


def _rings(data: WeekData, bookings: Bookings, today: date) -> Iterator[Task]:
    """Make a task of every job on a day whose weather stands in the way; its first such day."""
    rung: set[int] = set()
    for forecast in sorted(data.forecasts, key=lambda o: o.day):
        found = window(forecast.day, forecast, data.trader)
        ahead = still_to_do(bookings, forecast.day, today)
        trouble = against(found, ahead, data.trader.limits)
        if not trouble:
            continue
        when = show_near(forecast.day, today)
        on = "" if when in ("today", "tomorrow") else "on "
        for line, _ in bookings[forecast.day]:
            if lies_ahead(line, forecast.day, today) and line.job_id not in rung:
                rung.add(line.job_id)
                words = f"Ring: {trouble} {on}{when}"
                yield _task(TaskKind.RING, line, words, forecast.day)


def _tarpaulins(data: WeekData, today: date) -> Iterator[Task]:
    """Make a task of every roof that stands sheeted into a night of too much wind."""
    days = (today, today + timedelta(days=1))
    told = (forecast for forecast in data.forecasts if forecast.day in days)
    if any(windy(forecast, data.trader.limits) for forecast in told):
        for line in data.lines:
            if line.ended is None and line.cover is Cover.SHEETED and line.laid_on is None:
                yield _task(TaskKind.TARPAULIN, line, "Tie down: windy night", today)


def _deck_open(line: WeekLine, _today: date) -> Task | None:
    if line.cover is not Cover.OPEN or line.stripped_on is None or line.laid_on is not None:
        return None
    return _task(TaskKind.SHEET, line, "Sheet it: roof left open", line.stripped_on)


def _no_invoice(line: WeekLine, _today: date) -> Task | None:
    if line.stage.rank < Stage.LAID.rank or any(not bill.deposit for bill in line.bills):
        return None
    since = line.laid_on or date.min
    return _task(TaskKind.INVOICE, line, "Send the invoice", since, line.quote_gross)


def _open_extra(line: WeekLine, _today: date) -> Task | None:
    """Speak of extras still to agree: done first and agreed later, they are never paid."""
    if not line.extras_open:
        return None
    words = "Agree the extra" if line.extras_open == 1 else f"Agree {line.extras_open} extras"
    return _task(TaskKind.EXTRA, line, words, line.stripped_on or date.min)


def _not_called_laid(line: WeekLine, _today: date) -> Task | None:
    """Speak of a roof that is laid and recorded: its invoice waits until it is marked as laid."""
    recorded = line.laid_on is not None and line.usage_recorded
    if line.stage.rank >= Stage.LAID.rank or not recorded:
        return None
    since = line.laid_on or date.min
    return _task(TaskKind.LAID, line, "Mark as laid", since, line.quote_gross)


def _no_deposit(line: WeekLine, _today: date) -> Task | None:
    """Speak of a deposit that was agreed, until it is asked for or the work has begun."""
    begun = line.stripped_on or line.laid_on
    if not line.deposit or line.accepted_on is None or line.bills or begun:
        return None
    words = "Send the deposit invoice"
    return _task(TaskKind.DEPOSIT, line, words, line.accepted_on, line.deposit)


def _no_day(line: WeekLine, _today: date) -> Task | None:
    if line.accepted_on is None or line.days or line.stripped_on or line.laid_on:
        return None
    return _task(TaskKind.BOOK, line, "Book a day", line.accepted_on, line.quote_gross)


def _snags(line: WeekLine) -> Iterator[Task]:
    since = line.laid_on or date.min
    for words in line.open_snags:
        yield _task(TaskKind.SNAG, line, f"Put right: {words}", since)


def _overdue(line: WeekLine, today: date) -> Iterator[Task]:
    """Make a task of every invoice past its day; a job that has ended owes it all the same."""
    for bill in line.bills:
        late = (today - bill.due_on).days
        if bill.owed > 0 and late > 0:
            words = f"Overdue {late} day{'' if late == 1 else 's'}"
            yield _task(TaskKind.OVERDUE, line, words, bill.due_on, bill.owed)


def _no_order(line: WeekLine, today: date) -> Task | None:
    ahead = [b.day for b in line.days if lies_ahead(line, b.day, today)]
    soon = today + timedelta(days=_ORDER_DAYS)
    if line.materials_in_hand or line.stripped_on or not ahead or min(ahead) > soon:
        return None
    return _task(TaskKind.ORDER, line, f"Order for {show_near(min(ahead), today)}", min(ahead))


def _not_recorded(line: WeekLine, today: date) -> Task | None:
    """Ask for what was used once the last day has come; before that, for what stripping found."""
    days = sorted(b.day for b in line.days if b.day <= today)
    if line.usage_recorded or not days or line.stage.rank < Stage.BOOKED.rank:
        return None
    last = max(b.day for b in line.days)
    if line.laid_on is not None or last <= today:
        return _task(TaskKind.USED, line, "Record materials used", last)
    if line.stripped_on is None:
        return _task(TaskKind.USED, line, "Record the stripping", days[0])
    return None


def _untested(line: WeekLine, _today: date) -> Task | None:
    """Speak of an old covering that may hold asbestos for as long as it is on the roof."""
    if not line.to_be_tested:
        return None
    words, since = "Get it tested: asbestos?", line.visit_on or date.min
    return _task(TaskKind.TEST, line, words, since, line.quote_gross)


def _no_quote(line: WeekLine, _today: date) -> Task | None:
    """Speak of a roof without a quote; one that is to be tested cannot be quoted before."""
    waiting = line.surveyed and line.quote_sent_on is None and not line.to_be_tested
    if not waiting or line.stage.rank > Stage.SURVEY.rank:
        return None
    return _task(
        TaskKind.QUOTE, line, "Send the quote", line.visit_on or date.min, line.quote_gross
    )


def _lapsing(line: WeekLine, today: date) -> Task | None:
    """Speak of a quote shortly before it runs out, and for a while after."""
    until = line.valid_until
    if until is None or line.accepted_on is not None or line.quote_sent_on is None:
        return None
    left = (until - today).days
    if 0 <= left <= _DAYS_BEFORE_RUN_OUT:
        when = show_near(until, today)
        words = f"Quote runs out {'' if left < 2 else 'on '}{when}"
        return _task(TaskKind.QUOTE_RUNS_OUT, line, words, until, line.quote_gross)
    if -_DAYS_AFTER_RUN_OUT <= left < 0:
        return _task(
            TaskKind.QUOTE_RUNS_OUT, line, "Ring: quote has run out", until, line.quote_gross
        )
    return None


def _no_visit(line: WeekLine, today: date) -> Task | None:
    """Speak of an enquiry without a day for the visit, from the day after it came."""
    waiting = line.visit_on is None and not line.surveyed
    if not waiting or line.stage.rank > Stage.SURVEY.rank or line.received_on >= today:
        return None
    return _task(TaskKind.ARRANGE, line, "Arrange the visit", line.received_on)


def _no_survey(line: WeekLine, today: date) -> Task | None:
    if line.surveyed or line.visit_on is None or line.visit_on > today:
        return None
    return _task(TaskKind.SURVEY, line, "Fill in the survey", line.visit_on)


def _visit_tomorrow(line: WeekLine, today: date) -> Task | None:
    if line.visit_on is None or line.visit_on != today + timedelta(days=1):
        return None
    return _task(TaskKind.VISIT, line, "Visit tomorrow", line.visit_on)


def _papers(data: WeekData, today: date) -> Iterable[Task]:
    """Make a task of every paper of the trader's own that has a month or less to run."""
    papers = (
        ("Renew waste carrier", "registration", data.trader.waste_expires),
        ("Renew insurance", "policy", data.trader.liability_expires),
    )
    for words, what, until in papers:
        if until is not None and today >= months_after(until, -1):
            ended = "expired" if until < today else "runs out"
            yield Task(TaskKind.PAPERS, words, f"{what} {ended} {show_near(until, today)}", until)


def _second_backup(data: WeekData, today: date) -> Iterator[Task]:
    """Speak of backups that would go with the machine: they lie nowhere else."""
    folder, since = data.trader.backup_folder, data.second_backup_on
    if not folder:
        yield Task(TaskKind.BACKUP, "Choose a backup folder", "on a stick, or synced", today)
    elif since is not None and (today - since).days >= _DAYS_WITHOUT_SECOND:
        who = f"none since {show_near(since, today)}: {folder}"
        yield Task(TaskKind.BACKUP, "Second backup missing", who, since)


_RULES: tuple[Callable[[WeekLine, date], Task | None], ...] = (
    _deck_open,
    _no_invoice,
    _open_extra,
    _not_called_laid,
    _no_deposit,
    _no_day,
    _no_order,
    _not_recorded,
    _untested,
    _no_quote,
    _lapsing,
    _no_visit,
    _no_survey,
    _visit_tomorrow,
)
"""What is asked of every job that has not ended."""
