"""The receipt for money that came in."""

from dataclasses import dataclass
from datetime import date

from domain.invoice import Buyer, Seller, buyer_of, seller_of
from domain.job import Document, DocumentKind, Job, Payment
from domain.money import Pence
from domain.snapshot import to_json
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Settled:
    """The part of the money that went to one invoice."""

    label: str
    """The invoice's number as people write it."""
    pence: Pence


@dataclass(frozen=True, slots=True)
class Receipt:
    """A receipt as it is given."""

    number: int
    issued_on: date
    seller: Seller
    buyer: Buyer
    ref: str
    """The job's reference."""
    place: str
    received_on: date
    pence: Pence
    method: str
    settled: tuple[Settled, ...]
    left: Pence
    """What is still owed on the job's invoices afterwards."""

    @property
    def over(self) -> Pence:
        """What was paid over; it stands to the customer's credit."""
        return self.pence - sum(each.pence for each in self.settled)

    def document(self) -> Document:
        """The numbered document to put on record; it asks for nothing."""
        return Document(
            kind=DocumentKind.RECEIPT,
            number=self.number,
            issued_on=self.issued_on,
            tax_point=self.received_on,
            due_on=self.received_on,
            gross=self.pence,
            snapshot=to_json(self),
        )


def receipt_for(
    job: Job, payment: Payment, trader: Trader, number: int, issued_on: date
) -> Receipt:
    """The receipt for a payment; ``job`` is as it stood before the payment came in.

    Raises :class:`domain.errors.NotNow` if the trader's details lack what goes on it.
    """
    labels = {document.id: document.label for document in job.documents}
    settled = tuple(Settled(labels[a.document_id], a.pence) for a in payment.allocations)
    return Receipt(
        number=number,
        issued_on=issued_on,
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.place,
        received_on=payment.received_on,
        pence=payment.pence,
        method=payment.method,
        settled=settled,
        left=job.owed - sum(each.pence for each in settled),
    )
