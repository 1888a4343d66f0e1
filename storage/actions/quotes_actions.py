"""Quotes: drafted, sent, accepted."""

from dataclasses import replace
from datetime import date

from domain.accounts.as_sent import as_it_stands
from domain.checks.sending import mark_sent
from domain.checks.stages import send
from domain.estimate.accepting import accept
from domain.job import Acceptance, Job, Outgoing, Quote, Sending, ToSend
from domain.snapshot import to_json
from storage.actions.stages_actions import save_stage, situation_of
from storage.database import Database, JobTransaction
from storage.mapping.codec import cells_of
from storage.mapping.whole_job import option_row
from storage.queries import read_job
from storage.rows import AcceptanceRow, LineRow, OptionRow, QuoteRow, SurveyRow, ToSendRow


class QuoteActions(Database):
    """What is offered, and the customer's yes."""

    def save_quote(self, job: Job, quote: Quote) -> Job:
        """Keep a draft, in place of the draft of the same number; the same again is kept once.

        Raises :class:`NotNow` if the quote of that number was sent.
        """
        with self._on_job(job, f"quote {quote.number} saved") as work:
            draft = replace(quote, sent_on=None, valid_until=None, sent_as="")
            if _without_ids(draft) in map(_without_ids, job.quotes):
                return job
            for old in work.rows(QuoteRow, job_id=work.job_id, number=quote.number):
                _remove(work, old)
            left_out = ("id", "options", "acceptance")
            key = work.key_of(QuoteRow(job_id=work.job_id, **cells_of(draft, *left_out)))
            for option in draft.options:
                kept = work.key_of(option_row(key, option))
                for line in option.lines:
                    work.add(LineRow(option_id=kept, **cells_of(line, "id")))
            return read_job(work.tables, work.job_id)

    def send_quote(self, job: Job, sending: Sending) -> Job:
        """Record that the newest quote was sent, which freezes it with all that it says.

        The first one sent moves the job on to quoted.
        Raises :class:`NotNow` when there is no draft, or a stop stands in the way.
        """
        with self._on_job(job, "quote marked as sent") as work:
            self._freeze(work, sending)
            return read_job(work.tables, work.job_id)

    def make_final(self, job: Job, sending: Sending) -> Job:
        """As :meth:`send_quote`, but it waits to be sent: :meth:`mark_sent` records that it was."""
        with self._on_job(job, "quote made final") as work:
            number = self._freeze(work, sending)
            waits = ToSend(Outgoing.QUOTE, number)
            work.add(ToSendRow(job_id=work.job_id, **cells_of(waits, "id")))
            return read_job(work.tables, work.job_id)

    def mark_sent(self, job: Job, paper: Outgoing, number: int, today: date) -> Job:
        """Record that a final quote, or an issued invoice, was sent, at the earliest on its day.

        Raises :class:`NotNow` for one that does not wait.
        """
        with self._on_job(job, f"{paper} {number} marked as sent") as work:
            sent = mark_sent(job, paper, number, today)
            row = work.get_one(ToSendRow, sent.id)
            work.change(row, **cells_of(sent, "id"))
            return read_job(work.tables, work.job_id)

    def _freeze(self, work: JobTransaction, sending: Sending) -> int:
        """Freeze the newest quote; return its number."""
        situation = situation_of(work.tables, work.job_id, sending.on, self._path)
        after = send(situation, sending.valid_until, sending.notes)
        newest = after.quotes[-1]
        row = work.get_one(QuoteRow, newest.id)
        until = sending.valid_until.isoformat()
        says = to_json(as_it_stands(situation.job, situation.trader, situation.job.quotes[-1]))
        work.change(row, sent_on=sending.on.isoformat(), holds_until=until, sent_as=says)
        save_stage(work, situation.job, after)
        return newest.number

    def accept_quote(self, job: Job, acceptance: Acceptance) -> Job:
        """Record the customer's yes, or correct it: the rules are :func:`accept`'s."""
        with self._on_job(job, "acceptance recorded") as work:
            after = accept(job, acceptance)
            for was, now in zip(job.quotes, after.quotes, strict=True):
                _keep_acceptance(work, was, now)
            if after.survey is not None and after.survey != job.survey:
                work.put(SurveyRow(job_id=work.job_id, **cells_of(after.survey)), work.job_id)
            return read_job(work.tables, work.job_id)


def _without_ids(quote: Quote) -> Quote:
    """The quote as it is priced, whatever the numbers of its rows."""
    options = (
        replace(option, id=None, lines=tuple(replace(line, id=None) for line in option.lines))
        for option in quote.options
    )
    return replace(quote, id=None, options=tuple(options))


def _keep_acceptance(work: JobTransaction, was: Quote, now: Quote) -> None:
    """Write what changed of the acceptance of one quote."""
    key = now.id or 0
    if now.acceptance is not None:
        work.put(AcceptanceRow(quote_id=key, **cells_of(now.acceptance)), key)
    elif was.acceptance is not None:
        work.remove(work.get_one(AcceptanceRow, key))


def _remove(work: JobTransaction, quote: QuoteRow) -> None:
    """Take a draft away with its options and lines; the database refuses a sent one."""
    for option in work.rows(OptionRow, quote_id=quote.id):
        for line in work.rows(LineRow, option_id=option.id):
            work.remove(line)
        work.remove(option)
    work.remove(quote)
