"""A payment cancelled as a mistake, or money paid back to the customer: each with a note.

The payment itself never changes: an entry of its own kind names it and gives its reason, and a note
with a number of its own says so to the customer.
"""

from dataclasses import dataclass, replace
from datetime import date

from domain.accounts.invoice import Buyer, Seller, buyer_of, seller_of
from domain.accounts.own_receipts import with_receipts
from domain.accounts.receipt import Settled, owed_after
from domain.days.calendar import show_date
from domain.errors import NotNow, Refused
from domain.job import Allocation, Document, DocumentKind, Job, Payment
from domain.money import Pence, show_money
from domain.snapshot import to_json
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class GivenBack:
    """What is asked of the book: which payment, how much of it, since when, and why."""

    kind: DocumentKind
    """A mistake or a refund."""
    payment_id: int
    pence: Pence
    on: date
    reason: str


@dataclass(frozen=True, slots=True)
class CounterNote:
    """What the note says: which payment, what becomes of its receipt, what is owed again."""

    kind: DocumentKind
    number: int
    issued_on: date
    seller: Seller
    buyer: Buyer
    ref: str
    """The job's reference."""
    place: str
    """Where the roof is: its address in a line, or what the place is called."""
    receipt: str
    """The number of the payment's receipt, as people write it."""
    received_on: date
    method: str
    pence: Pence
    reason: str
    owed_again: tuple[Settled, ...]
    """What of it had settled which invoice; none of a refund."""
    left: Pence
    """What is owed on the job's invoices afterwards."""
    paid_back_on: date | None = None
    """The day of a refund; None of a mistake, and of a note that is older than this."""
    cis: Pence = 0
    """What of a mistake a contractor was taken to have deducted: it did not come in."""

    @property
    def money(self) -> Pence:
        """What of it had come in."""
        return self.pence - self.cis

    def document(self) -> Document:
        """The numbered document to record; it asks for nothing."""
        return Document(
            kind=self.kind,
            number=self.number,
            issued_on=self.issued_on,
            tax_point=self.received_on,
            due_on=self.issued_on,
            gross=self.pence,
            snapshot=to_json(self),
        )


def counter_note(
    job: Job, back: GivenBack, trader: Trader, number: int, issued_on: date
) -> CounterNote:
    """The note for what is given back; ``job`` is as it stood before.

    A mistake cancels the whole payment, and what it had settled is owed again. A refund pays
    back of what stands to the customer's credit out of that payment. Raises :class:`NotNow` if the
    payment was cancelled already or nothing of it can be paid back, :class:`Refused` for a sum
    that is not all of the mistake, more than the credit, or none, a missing reason, and a day
    before the money came.
    """
    payment = payment_of(job, back.payment_id)
    demand_possible(payment, back)
    labels = {each.id: each.label for each in (*job.documents, *job.settled_elsewhere)}
    again = payment.standing if back.kind is DocumentKind.MISTAKE else ()
    return CounterNote(
        kind=back.kind,
        number=number,
        issued_on=issued_on,
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        receipt=receipt_of(job, payment).label,
        received_on=payment.received_on,
        method=payment.method,
        pence=back.pence,
        reason=back.reason,
        owed_again=tuple(Settled(labels[part.document_id], part.money) for part in again),
        left=owed_after(job.documents, map(_less, again)),
        paid_back_on=back.on if back.kind is DocumentKind.REFUND else None,
        cis=payment.cis if back.kind is DocumentKind.MISTAKE else 0,
    )


def _less(part: Allocation) -> Allocation:
    return replace(part, pence=-part.pence, cis=-part.cis)


def payment_of(job: Job, payment_id: int) -> Payment:
    """Return a payment of a job. Raises :class:`NotNow` if it has none of that number."""
    found = next((payment for payment in job.payments if payment.id == payment_id), None)
    if found is None:
        raise NotNow("Choose a receipt of this job.")
    return found


def receipt_of(job: Job, payment: Payment) -> Document:
    """Return the receipt of a payment: each payment is recorded with its own."""
    return next(receipt for each, receipt in with_receipts(job) if each.id == payment.id)


def payment_behind(job: Job, receipt: Document) -> Payment:
    """Return the payment that a receipt was given for."""
    return next(payment for payment, each in with_receipts(job) if each.id == receipt.id)


def demand_possible(payment: Payment, back: GivenBack) -> None:
    """Raise what :func:`counter_note` does of a payment that cannot be given back so."""
    if payment.is_mistake:
        raise NotNow("That payment was cancelled already.")
    if not back.reason.strip():
        raise Refused("reason", "", "Say what happened, such as cheque returned.")
    if back.on < payment.received_on:
        raise Refused("on", show_date(back.on), "Give a day on or after the one it came in on.")
    if back.kind is DocumentKind.MISTAKE:
        if payment.counter_entries:
            raise NotNow("Part of it was paid back, so the payment did come: it is no mistake.")
        if back.pence != payment.pence:
            whole = show_money(payment.pence)
            raise Refused("amount", show_money(back.pence), f"A mistake is all of it: {whole}.")
    elif not payment.unallocated:
        raise NotNow("Nothing of it stands to the customer's credit, so nothing can be paid back.")
    elif not payment.refundable:
        raise NotNow("What is left of it was deducted under CIS and never came: it is at HMRC.")
    elif not 0 < back.pence <= payment.refundable:
        most = show_money(payment.refundable)
        raise Refused("amount", show_money(back.pence), f"Give {most} or less: that is the credit.")
