"""The customer's yes: which quote it can be to, and what it brings with it."""

from dataclasses import replace

from domain.errors import NotNow
from domain.estimate.quoting import in_covering_of
from domain.job import Acceptance, Job


def accept(job: Job, acceptance: Acceptance) -> Job:
    """Return the job with an option of one of its quotes accepted, or the acceptance corrected.

    Of all its quotes one is accepted at the most, and the survey is then in the covering that was
    taken. Raises :class:`NotNow` if that quote was not sent, or if another option is invoiced
    already: who, when, how and the notice of the right to cancel can still be put right then.
    """
    of_quote = [q for q in job.quotes if acceptance.option_id in {o.id for o in q.options}]
    if not of_quote or of_quote[0].sent_on is None:
        raise NotNow("Only a quote that is marked as sent can be accepted.")
    taken = job.quote.accepted if job.quote else None
    is_same = taken is not None and taken.id == acceptance.option_id
    if job.documents and taken is not None and not is_same:
        raise NotNow("What was accepted is invoiced: it stays the covering agreed.")
    agreed = replace(of_quote[0], acceptance=acceptance)
    others = (replace(q, acceptance=None) for q in job.quotes)
    quotes = tuple(agreed if q.id == agreed.id else q for q in others)
    survey = job.survey
    if survey is not None and not is_same:
        survey = in_covering_of(survey, agreed.counting)
    return replace(job, quotes=quotes, survey=survey)
