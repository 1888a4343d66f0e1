"""Quotes: drafted, sent, accepted."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from domain.errors import NotNow
from domain.estimate.quoting import in_covering_of
from domain.job import Acceptance, Job, Quote
from domain.stages import send
from storage.actions.turns import keep_turn, situation_of
from storage.mapping.codec import cells_of
from storage.mapping.job import option_row, survey_row
from storage.reading import read_job
from storage.rows import AcceptanceRow, LineRow, OptionRow, QuoteRow
from storage.store import JobWork, Store


class QuoteActions(Store):
    """What is offered, and the customer's yes."""

    def save_quote(self, job: Job, quote: Quote) -> Job:
        """Keep a draft, in place of the draft of the same number.

        Raises :class:`NotNow` if the quote of that number was sent.
        """
        with self._on_job(job, f"quote {quote.number}") as work:
            for old in work.rows(QuoteRow, job_id=work.job_id, number=quote.number):
                _remove(work, old)
            draft = replace(quote, sent_on=None, holds_until=None)
            left_out = ("id", "options", "acceptance")
            key = work.key_of(QuoteRow(job_id=work.job_id, **cells_of(draft, *left_out)))
            for option in draft.options:
                kept = work.key_of(option_row(key, option))
                for line in option.lines:
                    work.add(LineRow(option_id=kept, **cells_of(line, "id")))
            return read_job(work.session, work.job_id)

    def send_quote(
        self, job: Job, sent_on: date, holds_until: date, notes: Mapping[str, str]
    ) -> Job:
        """Put on record that the newest quote was sent, which freezes it.

        The first one sent moves the job on to quoted; ``notes`` pass the cautions by check id.
        Raises :class:`NotNow` when there is no draft, or a stop stands in the way.
        """
        with self._on_job(job, "the sending of the quote") as work:
            situation = situation_of(work.session, work.job_id, sent_on)
            after = send(situation, holds_until, notes)
            row = work.session.get_one(QuoteRow, after.quotes[-1].id)
            work.change(row, sent_on=sent_on.isoformat(), holds_until=holds_until.isoformat())
            keep_turn(work, situation.job, after)
            return read_job(work.session, work.job_id)

    def accept_quote(self, job: Job, acceptance: Acceptance) -> Job:
        """Put the customer's yes on record, or correct it.

        The survey is then in the covering that was taken. Raises :class:`NotNow` if that quote was
        not sent, or another option is invoiced already: who, when, how, and the notice of the right
        to cancel can still be put right then.
        """
        with self._on_job(job, "the acceptance") as work:
            option = work.get(OptionRow, acceptance.option_id)
            quote = next((q for q in job.quotes if option and q.id == option.quote_id), None)
            if quote is None or quote.id is None or quote.sent_on is None:
                raise NotNow("Only a quote that was sent can be accepted.")
            taken = job.quote.accepted if job.quote else None
            is_same = taken is not None and taken.id == acceptance.option_id
            if job.documents and taken is not None and not is_same:
                raise NotNow("What was accepted is invoiced: it stays the covering agreed.")
            for other in job.quotes:
                former = work.get(AcceptanceRow, other.id)
                if former is not None and other.id != quote.id:
                    work.remove(former)
            row = AcceptanceRow(quote_id=quote.id, **cells_of(acceptance))
            work.put(row, quote.id)
            agreed = replace(quote, acceptance=acceptance)
            if job.survey is not None and not is_same:
                survey = in_covering_of(job.survey, agreed.counting)
                work.put(survey_row(work.job_id, survey), work.job_id)
            return read_job(work.session, work.job_id)


def _remove(work: JobWork, quote: QuoteRow) -> None:
    """Take a draft away with its options and lines; the database refuses a sent one."""
    for option in work.rows(OptionRow, quote_id=quote.id):
        for line in work.rows(LineRow, option_id=option.id):
            work.remove(line)
        work.remove(option)
    work.remove(quote)
