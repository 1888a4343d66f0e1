"""Marking as sent: a paper is made final first, then it goes out."""

from dataclasses import replace
from datetime import date

from domain.errors import NotNow
from domain.job import Job, Outgoing, Quote, ToSend


def waiting(job: Job, paper: Outgoing, number: int) -> ToSend | None:
    """Return the paper of a job if it is final and waits to be sent."""
    return next(
        (
            each
            for each in job.to_send
            if (each.paper, each.number, each.sent_on) == (paper, number, None)
        ),
        None,
    )


def mark_sent(job: Job, paper: Outgoing, number: int, today: date) -> ToSend:
    """Return a waiting paper as sent: on the day that it bears, or today if that is later.

    Raises :class:`NotNow` for one that does not wait.
    """
    found = waiting(job, paper, number)
    if found is None:
        raise NotNow(f"This {paper} is marked as sent already.")
    return replace(found, sent_on=max(today, _dated(job, paper, number) or today))


def went_out_on(job: Job, quote: Quote) -> date | None:
    """Return the day on which a quote was sent; None while it is a draft or waits."""
    for each in job.to_send:
        if (each.paper, each.number) == (Outgoing.QUOTE, quote.number):
            return each.sent_on
    return quote.sent_on


def _dated(job: Job, paper: Outgoing, number: int) -> date | None:
    """The day that a paper bears."""
    if paper is Outgoing.QUOTE:
        return next((q.sent_on for q in job.quotes if q.number == number), None)
    asking = (d for d in job.documents if d.kind.asks)
    return next((d.issued_on for d in asking if d.number == number), None)
