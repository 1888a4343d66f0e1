"""What comes next for one job, in the few words that its heading has room for."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta

from domain.checks.sending import waiting
from domain.days.calendar import show_day, show_near
from domain.job import Cover, Job, Outgoing, Stage

_A_DAY = timedelta(days=1)


def next_step(job: Job, today: date) -> str:
    """Say what comes next, with its day if it has one: ``next: lay, Thursday``.

    Empty for a job that has ended or is signed off.
    """
    step = _STEPS.get(job.stage)
    if step is None or job.ended is not None:
        return ""
    return "next: get it tested" if _is_to_be_tested(job) else step(job, today)


def _is_to_be_tested(job: Job) -> bool:
    """Tell whether what is still on the roof may hold asbestos."""
    waits = job.stripping is None and job.laying is None
    return waits and job.survey is not None and job.survey.old.may_hold_asbestos


def _visit(job: Job, today: date) -> str:
    visit = job.enquiry.visit_on
    return "next: arrange the visit" if visit is None else f"next: visit, {show_near(visit, today)}"


def _answer(job: Job, today: date) -> str:
    """Before the yes how long the quote holds, once it went out; after it the day."""
    quote = job.quote
    if quote is not None and quote.acceptance is not None:
        return _work(job, today) if job.days else "next: book a day"
    if quote is not None and waiting(job, Outgoing.QUOTE, quote.number):
        return "next: send the quote"
    if quote is None or quote.valid_until is None:
        return "next: wait for an answer"
    ran_out = quote.valid_until < today
    return f"{'ran out' if ran_out else 'valid until'} {show_day(quote.valid_until)}"


def _work(job: Job, today: date) -> str:
    """The next booked day's task: the day of the stripping is done once that is recorded."""
    if job.laying is not None:
        return "next: mark as laid" if job.usages else "next: record materials"
    done = job.stripping
    if done is not None and done.cover is Cover.OPEN:
        return "next: sheet the deck"
    since = today if done is None else max(today, done.on + _A_DAY)
    ahead = sorted((d for d in job.days if d.day >= since), key=lambda d: d.day)
    if ahead:
        return f"next: {ahead[0].task}, {show_near(ahead[0].day, today)}"
    if done is None:
        return "next: strip"
    return "next: record the laying" if done.cover is Cover.LAID else "next: book a day to lay"


def _word_and_invoice(job: Job, _today: date) -> str:
    return "next: sign off and invoice" if job.invoice is None else "next: sign off"


_STEPS: Mapping[Stage, Callable[[Job, date], str]] = {
    Stage.ENQUIRY: _visit,
    Stage.SURVEY: lambda _job, _today: "next: survey and quote",
    Stage.QUOTED: _answer,
    Stage.BOOKED: _work,
    Stage.STRIPPED: _work,
    Stage.LAID: _word_and_invoice,
}
