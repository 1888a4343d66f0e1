"""A job that ends with money asked for or held: credited, paid back, or a named part of it kept.

Money that was paid for work that is not done goes back within 14 days of the day we were told
(Consumer Contracts Regulations 2013, reg. 34: quoted); the project holds every job to it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from domain.accounts.credit_note import Credited
from domain.accounts.part_invoice import most_for_part
from domain.days.calendar import pay_back_by, show_date
from domain.errors import NotNow, Refused
from domain.job import Closing, Document, Ending, Job
from domain.money import Pence, show_money
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Settling:
    """What becomes of the money when a job ends."""

    credits: tuple[Credited, ...]
    """What is taken off its invoices, the newest first: the last one builds on the deposit's."""
    pay_back: Pence
    """What then stands to the customer's credit, and goes back."""
    owed: Pence
    """What they still owe of the part that is kept."""
    invoice: bool = False
    """Whether the part done is more than was asked for, and so is invoiced."""


def has_money(job: Job, trader: Trader, on: date) -> bool:
    """Whether an invoice stands, money of the customer's is held, or work is done, when it ends."""
    return bool(asked_for(job) or job.credit or most_for_part(job, trader, on))


def asked_for(job: Job) -> Pence:
    """What the invoices ask for, less what is credited: the most that can be kept."""
    return sum(left for _, left in _standing(job))


def settling(job: Job, closing: Closing, trader: Trader) -> Settling:
    """What the end of a job does to its money; the parts kept are those asked for first.

    Raises :class:`Refused` for more kept than was asked for, for a part kept without a reason, and
    for a day before the enquiry or after that on which it is recorded.
    """
    asked, done = asked_for(job), most_for_part(job, trader, closing.on)
    most = max(asked, done)
    if not 0 <= closing.kept <= most:
        why = "so much was agreed" if done > asked else "so much was asked for"
        words = f"Give {show_money(most)} or less: {why}."
        if not most:
            words = (
                "Nothing is invoiced and no work is done: leave it at 0.00, all of it goes back."
            )
        raise Refused("kept", show_money(closing.kept), words)
    if closing.kept and not closing.kept_why.strip():
        raise Refused("kept_why", "", "Say what it pays for, such as felt that was cut to size.")
    if closing.told_on is not None:
        _demand_between(job, closing.told_on, closing.on)
    notes, rest, owed, keeps = [], closing.kept, 0, job.credit
    for document, left in _standing(job):
        kept = min(rest, left)
        rest -= kept
        owed += max(0, kept - document.paid)
        keeps += max(0, document.paid - kept)
        if kept < left:
            notes.append(Credited(document.id or 0, left - kept, _reason(closing)))
    # What is invoiced besides takes what stands to their credit first.
    settled = min(rest, keeps)
    return Settling(tuple(reversed(notes)), keeps - settled, owed + rest - settled, rest > 0)


def to_pay_back(job: Job) -> tuple[Pence, date | None] | None:
    """What goes back to the customer of a job that ended, and by which day; None for nothing.

    The day is not known of a job that ended before it was asked for.
    """
    if job.ended is None or job.refundable <= 0:
        return None
    return job.refundable, pay_back_by(job.told_on) if job.told_on else None


def demand_unsettled(job: Job) -> None:
    """Raise :class:`NotNow` if a job that ended cannot be taken up again: a part was kept."""
    invoiced = job.invoice is not None
    if job.kept and (invoiced or any(document.credited for document, _ in _standing(job))):
        kept = show_money(job.kept)
        raise NotNow(
            f"Its money is settled: {kept} of it was kept. Add a new enquiry for them instead."
        )


def _standing(job: Job) -> Iterator[tuple[Document, Pence]]:
    """The invoices that stand, the oldest first, with what is left of each."""
    for document in job.documents:
        left = document.gross - document.credited - document.written_off
        if document.kind.asks and left:
            yield document, left


def _reason(closing: Closing) -> str:
    """What the credit note says: a part that is kept is named with its reason."""
    off = "The job was called off"
    if closing.ending is Ending.DECLINED:
        off = "The job did not go ahead"
    if not closing.kept:
        return f"{off}."
    return f"{off}. {show_money(closing.kept)} is kept for {closing.kept_why.strip()}."


def _demand_between(job: Job, told_on: date, today: date) -> None:
    if not job.enquiry.received_on <= told_on <= today:
        words = "Give a day from the enquiry on, up to today."
        raise Refused("told_on", show_date(told_on), words)
