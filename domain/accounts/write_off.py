"""What is owed given up with a reason, or taken back: nobody is told, and no credit note written.

A trader registered for VAT gets it back of a debt that is over six months old, reckoned from the
later of the due day and the supply, once it is written off (HMRC VBDR1500: read; from which of the
two the months run, from memory). A credit note is never for a bad debt (HMRC VATREC13040: read).
"""

from dataclasses import dataclass
from datetime import date, timedelta

from domain.accounts.credit_note import invoice_of, left_of, part_credited
from domain.days.calendar import months_after, show_date
from domain.errors import NotNow, Refused
from domain.job import Document, Job, WriteOff
from domain.money import Pence, show_money
from domain.tax import VatTotals

RELIEF_AFTER = 6
"""Months that a debt has to be old before its VAT is given back."""


@dataclass(frozen=True, slots=True)
class GivenUp:
    """What is asked of the book: which invoice, since when, and why."""

    document_id: int
    on: date
    reason: str


def write_off(job: Job, given_up: GivenUp) -> WriteOff:
    """All that is owed on an invoice, given up.

    Raises :class:`NotNow` if it is no invoice or nothing is owed on it, :class:`Refused` without a
    reason and for a day before it was issued.
    """
    invoice = invoice_of(job, given_up.document_id)
    if invoice.owed <= 0:
        raise NotNow(f"Nothing is owed on {invoice.label}, so there is nothing to write off.")
    reason = _reason(given_up, "why it will not be paid, such as moved away")
    _demand_not_before(invoice.issued_on, given_up, "the invoice's")
    return WriteOff(
        document_id=given_up.document_id,
        on=given_up.on,
        pence=invoice.unsettled,
        vat=vat_back(job, invoice) if given_up.on >= relief_from(invoice) else 0,
        reason=reason,
    )


def taken_back(job: Job, given_up: GivenUp) -> WriteOff:
    """The counter-entry that takes the write-off of an invoice back: it is owed again.

    Raises :class:`NotNow` if none stands, :class:`Refused` without a reason and for a day before
    it.
    """
    before = standing_on(job, invoice_of(job, given_up.document_id))
    if before is None:
        raise NotNow("Nothing of that invoice is written off.")
    reason = _reason(given_up, "what happened, such as paid after all")
    _demand_not_before(before.on, given_up, "the write-off's")
    return WriteOff(
        document_id=before.document_id,
        on=given_up.on,
        pence=before.pence,
        vat=before.vat,
        reason=reason,
        takes_back=before.id,
    )


def _reason(given_up: GivenUp, what: str) -> str:
    if reason := given_up.reason.strip():
        return reason
    raise Refused("reason", "", f"Say {what}.")


def _demand_not_before(day: date, given_up: GivenUp, whose: str) -> None:
    if given_up.on < day:
        raise Refused("on", show_date(given_up.on), f"Give a day on or after {whose}.")


def standing_on(job: Job, invoice: Document) -> WriteOff | None:
    """The write-off of an invoice that was not taken back; None for none."""
    gone = {each.takes_back for each in job.write_offs}
    stand = (
        each
        for each in job.write_offs
        if each.document_id == invoice.id and each.takes_back is None and each.id not in gone
    )
    return next(stand, None)


def relief_from(invoice: Document) -> date:
    """The first day on which the VAT of what is owed is given back."""
    since = max(invoice.due_on, invoice.tax_point)
    return months_after(since, RELIEF_AFTER) + timedelta(days=1)


def vat_back(job: Job, invoice: Document) -> Pence:
    """The VAT in all that is unsettled on an invoice; nothing while not registered."""
    return owed_totals(job, invoice).vat_whole


def owed_totals(job: Job, invoice: Document) -> VatTotals:
    """What is unsettled on an invoice by rate, as a part of what its credit notes left of it."""
    return part_credited(left_of(job, invoice), invoice.unsettled)


def vat_words(job: Job, invoice: Document, on: date) -> str:
    """What becomes of the VAT if it is written off on a day; nothing where there is none."""
    vat, since = vat_back(job, invoice), relief_from(invoice)
    if not vat:
        return ""
    if on >= since:
        return f"The VAT in it, {show_money(vat)}, can be claimed back from HMRC."
    words = f"The VAT in it, {show_money(vat)}, comes back only if it is written off"
    return f"{words} from {show_date(since)} on."
