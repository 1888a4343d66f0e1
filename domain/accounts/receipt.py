"""The receipt for money that came in."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from domain.accounts.invoice import Buyer, Seller, buyer_of, seller_of
from domain.accounts.paid_ahead import brought_to_tax
from domain.days.calendar import show_date
from domain.errors import NotNow, Refused
from domain.job import Allocation, Document, DocumentKind, Job, Payment
from domain.money import Pence, show_money
from domain.snapshot import to_json
from domain.tax import VatTotals
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Settled:
    """The part of the money that went to one invoice."""

    label: str
    """The invoice's number as people write it."""
    pence: Pence


@dataclass(frozen=True, slots=True)
class Receipt:
    """What a receipt says: for whom, how much, by what means, what it settled."""

    number: int
    issued_on: date
    seller: Seller
    buyer: Buyer
    ref: str
    """The job's reference."""
    place: str
    """Where the roof is: its address in a line, or what the place is called."""
    received_on: date
    pence: Pence
    method: str
    settled: tuple[Settled, ...]
    left: Pence
    """What is still owed on the job's invoices afterwards."""
    cis: Pence = 0
    """What of it a contractor deducted: it did not come in."""
    brings: VatTotals | None = None
    """The part of the work that what is over brings to tax, where it came before the invoice."""
    ahead: bool = False
    """Whether it came before anything was invoiced."""

    @property
    def over(self) -> Pence:
        """What was paid over; it stands to the customer's credit."""
        return self.pence - sum(each.pence for each in self.settled)

    def document(self) -> Document:
        """The numbered document to record; it asks for nothing."""
        return Document(
            kind=DocumentKind.RECEIPT,
            number=self.number,
            issued_on=self.issued_on,
            tax_point=self.received_on,
            due_on=self.received_on,
            gross=self.pence,
            snapshot=to_json(self),
        )


def demand_after_enquiry(job: Job, received_on: date) -> None:
    """Raise :class:`Refused` for money of a day on which the job was not even asked for."""
    asked = job.enquiry.received_on
    if received_on < asked:
        remedy = f"The enquiry came on {show_date(asked)}: give that day or a later one."
        raise Refused("on", show_date(received_on), remedy)


def allocations_for(
    job: Job, document_id: int | None, pence: Pence, cis: Pence = 0
) -> tuple[Allocation, ...]:
    """Put money to the invoice it came in for, then to the job's others, the oldest first.

    ``cis`` of it was deducted: it goes with each as far as that has yet to be deducted. What is
    left over is put to none: it stands to the customer's credit. Money that is for no invoice,
    None, goes to those that are owed. Raises :class:`Refused` for no money and :class:`NotNow` if
    nothing is owed on the invoice it is for.
    """
    if pence <= 0:
        raise Refused("amount", show_money(pence), "Give what came in, such as 486.00.")
    owing = sorted(
        (document for document in job.documents if document.unsettled > 0),
        key=lambda document: (document.id != document_id, document.issued_on, document.number),
    )
    if document_id is not None and (not owing or owing[0].id != document_id):
        raise NotNow("Nothing is owed on that: choose an invoice that is not paid yet.")
    parts = []
    for document in owing:
        part = min(pence, document.unsettled)
        deducted = min(cis, part, document.to_deduct)
        pence, cis = pence - part, cis - deducted
        parts.append(Allocation(document.id or 0, part, deducted))
    return tuple(part for part in parts if part.pence)


@dataclass(frozen=True, slots=True)
class Effect:
    """What a payment would do to what is owed."""

    left: Pence
    """Still owed on the invoice it came in for."""
    to_others: Pence
    """Of it, to the job's other invoices."""
    over: Pence
    """Of it, to the customer's credit."""


def effect_of(pence: Pence, owed: Pence, others: Pence) -> Effect:
    """Tell what a payment of so much does where so much is owed on its invoice and on others."""
    rest = max(0, pence - owed)
    to_others = min(rest, others)
    return Effect(left=max(0, owed - pence), to_others=to_others, over=rest - to_others)


def receipt_for(
    job: Job,
    payment: Payment,
    trader: Trader,
    number: int,
    issued_on: date,
    elsewhere: Sequence[Document] = (),
) -> Receipt:
    """The receipt for a payment; ``job`` is as it stood before the payment came in.

    ``elsewhere`` are the invoices of the customer's other jobs that it settles too.

    Raises :class:`domain.errors.NotNow` if the trader's details lack what goes on it.
    """
    documents = (*job.documents, *elsewhere)
    labels = {document.id: document.label for document in documents}
    settled = tuple(Settled(labels[a.document_id], a.pence) for a in payment.allocations)
    over = payment.pence - sum(each.pence for each in settled)
    brings = brought_to_tax(job, over, payment.received_on, trader) if over else None
    return Receipt(
        number=number,
        issued_on=issued_on,
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        received_on=payment.received_on,
        pence=payment.pence,
        method=payment.method,
        settled=settled,
        left=owed_after(documents, payment.allocations),
        cis=payment.cis,
        brings=brings,
        ahead=not any(document.kind.asks for document in job.documents),
    )


def owed_after(documents: Iterable[Document], parts: Iterable[Allocation]) -> Pence:
    """What is owed on documents once a payment's ``parts`` are put to them.

    Where the parts are freed again they are less than nothing.
    """
    put = {part.document_id: part for part in parts}
    return sum(_with(document, put.get(document.id or 0)).owed for document in documents)


def _with(document: Document, part: Allocation | None) -> Document:
    if part is None:
        return document
    paid, deducted = document.paid + part.pence, document.deducted + part.cis
    return replace(document, paid=paid, deducted=deducted)
