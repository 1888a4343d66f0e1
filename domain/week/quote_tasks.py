"""From the enquiry to the answer: visit, survey, quote."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

from domain.days.calendar import show_day, show_near
from domain.job.stage import Stage
from domain.job.to_send import Outgoing
from domain.page_names import PageName
from domain.week.tasks import Going, Task, task_of
from domain.week.tonight_order import TaskKind
from domain.week.week_data import WeekLine

_DAYS_BEFORE_RUN_OUT = 3
SEND = "Send the quote"


def _no_quote(line: WeekLine, _today: date) -> Task | None:
    """Speak of a roof without a quote: what stands in the way of sending one comes first.

    One that is to be tested cannot be quoted before.
    """
    waiting = line.surveyed and line.quote_sent_on is None and not line.to_be_tested
    if not waiting or line.accepted_on is not None or line.stage.rank > Stage.QUOTED.rank:
        return None
    since = line.visit_on or date.min
    if not line.survey_answered:
        return task_of(TaskKind.SURVEY, line, "Finish the survey", since)
    if line.quote_gross is None:
        return task_of(TaskKind.QUOTE, line, "Price it and quote", since)
    if line.stage is Stage.ENQUIRY:
        task = task_of(TaskKind.QUOTE, line, "Mark as surveyed", since, line.quote_gross)
        return replace(task, page_there=PageName.ENQUIRY, about="then the quote can be sent")
    task = task_of(TaskKind.QUOTE, line, SEND, since, line.quote_gross)
    return replace(task, to_send=Going(Outgoing.QUOTE))


def _unsent_quote(line: WeekLine, today: date) -> Task | None:
    """Speak of a quote that is final and waits to be sent: one that ran out meanwhile is no use."""
    if not line.quote_unsent or line.accepted_on is not None or line.quote_sent_on is None:
        return None
    since, gross = line.visit_on or date.min, line.quote_gross
    if line.valid_until is not None and line.valid_until < today:
        return task_of(TaskKind.QUOTE, line, "Price it again: ran out", since, gross)
    task = task_of(TaskKind.QUOTE, line, "Mark as sent: quote", since, gross)
    going = Going(Outgoing.QUOTE, line.quote_number)
    return replace(task, to_send=going, about=f"final, dated {show_day(line.quote_sent_on)}")


def _running_out(line: WeekLine, today: date) -> Task | None:
    """Speak of a quote shortly before it runs out, and from then on until it is answered."""
    if line.accepted_on is not None or line.quote_sent_on is None or line.quote_unsent:
        return None
    until = line.valid_until or line.quote_sent_on
    left = (until - today).days
    if left > _DAYS_BEFORE_RUN_OUT:
        return None
    if left < 0:
        words = "Ring: quote has run out"
        return task_of(TaskKind.RAN_OUT, line, words, until, line.quote_gross)
    words = f"Quote runs out {'' if left < 2 else 'on '}{show_near(until, today)}"
    return task_of(TaskKind.RUNS_OUT, line, words, until, line.quote_gross)


def _no_survey(line: WeekLine, today: date) -> Task | None:
    if line.surveyed or line.visit_on is None or line.visit_on > today:
        return None
    return task_of(TaskKind.SURVEY, line, "Fill in the survey", line.visit_on)


def _no_visit(line: WeekLine, today: date) -> Task | None:
    """Speak of an enquiry without a day, or without a time, for the visit."""
    if line.surveyed or line.stage.rank > Stage.SURVEY.rank:
        return None
    if line.visit_on is None:
        task = task_of(TaskKind.ARRANGE, line, "Arrange the visit", line.received_on)
        return replace(task, field="visit_on")
    if line.visit_at is None and line.visit_on > today:
        task = task_of(TaskKind.ARRANGE, line, "Agree a time to visit", line.visit_on)
        return replace(task, field="visit_at")
    return None


def _visit_tomorrow(line: WeekLine, today: date) -> Task | None:
    """Speak of a visit on the day before; one without a time waits for that."""
    if line.visit_on != today + timedelta(days=1) or line.visit_at is None:
        return None
    return task_of(TaskKind.VISIT, line, "Visit tomorrow", today + timedelta(days=1))


QUOTE_RULES: tuple[Callable[[WeekLine, date], Task | None], ...] = (
    _no_quote,
    _unsent_quote,
    _running_out,
    _no_survey,
    _no_visit,
    _visit_tomorrow,
)
"""What is asked of every job that has not ended, up to its quote."""
