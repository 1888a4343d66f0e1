"""Documents and payments. A document, once issued, never changes, nor does a payment on record.

What was wrong is put right by an entry that names it: a credit note takes off what an invoice asks
for, a counter-entry cancels a payment as a mistake or pays part of it back.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from types import MappingProxyType

from domain.job.invoice_label import (
    credit_note_label,
    invoice_label,
    mistake_label,
    receipt_label,
    refund_label,
)
from domain.money import Pence


class DocumentKind(StrEnum):
    """What a numbered document is. Invoices share one series, every other kind has its own."""

    DEPOSIT = "deposit invoice"
    INVOICE = "invoice"
    RECEIPT = "receipt"
    CREDIT_NOTE = "credit note"
    MISTAKE = "mistake"
    """Cancels a payment that never came, and its receipt."""
    REFUND = "refund"

    @property
    def asks(self) -> bool:
        """Whether it asks for money: only invoices do."""
        return self in (DocumentKind.DEPOSIT, DocumentKind.INVOICE)


LABELS: Mapping[DocumentKind, Callable[[int], str]] = MappingProxyType(
    {
        DocumentKind.DEPOSIT: invoice_label,
        DocumentKind.INVOICE: invoice_label,
        DocumentKind.RECEIPT: receipt_label,
        DocumentKind.CREDIT_NOTE: credit_note_label,
        DocumentKind.MISTAKE: mistake_label,
        DocumentKind.REFUND: refund_label,
    }
)
"""The number of each kind of document as people write it."""


@dataclass(frozen=True, slots=True)
class Document:
    """A numbered paper as it was issued."""

    kind: DocumentKind
    number: int
    """Runs without gaps within its series."""
    issued_on: date
    tax_point: date
    due_on: date
    gross: Pence
    """What it asks for, VAT included; of any other kind what it acknowledges or gives back."""
    snapshot: str
    """The value of :mod:`domain.accounts` it was drawn from, as JSON text."""
    refers_to: int | None = None
    """The id of the invoice that a credit note takes off from."""
    paid: Pence = 0
    """The sum of the payments that stand allocated to it."""
    credited: Pence = 0
    """The sum of its credit notes."""
    written_off: Pence = 0
    """What was given up of it, and not taken back."""
    cis: Pence = 0
    """What a contractor deducts of it under CIS, as worked out when it was issued; of a credit note
    by how much that becomes less."""
    cis_credited: Pence = 0
    """By how much its credit notes made that less."""
    deducted: Pence = 0
    """What they did deduct, of the payments that stand allocated to it."""
    id: int | None = None

    @property
    def label(self) -> str:
        """The number as people write it, such as ``INV-42``."""
        return LABELS[self.kind](self.number)

    @property
    def unsettled(self) -> Pence:
        """What payments can still be put to; nothing on what asks for none."""
        if not self.kind.asks:
            return 0
        return self.gross - self.credited - self.written_off - self.paid

    @property
    def to_deduct(self) -> Pence:
        """What a contractor has yet to deduct."""
        return max(0, self.cis - self.cis_credited - self.deducted)

    @property
    def deduction(self) -> Pence:
        """What a contractor deducts of it in all, made or still to be made of what is unsettled.

        With what came and what is owed it is what the invoice asks for.
        """
        return self.deducted + min(self.to_deduct, max(0, self.unsettled))

    @property
    def bears_cis(self) -> bool:
        """Whether a contractor's deduction was worked out for it and still stands."""
        return self.cis > self.cis_credited

    @property
    def came(self) -> Pence:
        """The money that came of it: what was paid, less what was deducted."""
        return self.paid - self.deducted

    @property
    def owed(self) -> Pence:
        """The money still to come: what is unsettled, less what a contractor has yet to deduct."""
        return max(0, self.unsettled - self.to_deduct)

    @property
    def is_withdrawn(self) -> bool:
        """Whether credit notes took off all that it asks for, so that it stands no longer."""
        return bool(self.credited) and self.credited >= self.gross


@dataclass(frozen=True, slots=True)
class Allocation:
    """The part of a payment that settles one document."""

    document_id: int
    pence: Pence
    cis: Pence = 0
    """What of it a contractor deducted: never more than the document's deduction."""

    @property
    def money(self) -> Pence:
        """What of it came in."""
        return self.pence - self.cis


@dataclass(frozen=True, slots=True)
class WriteOff:
    """What is owed on an invoice given up, or one that names another and takes it back."""

    document_id: int
    on: date
    pence: Pence
    vat: Pence
    """What of it is VAT that HMRC gives back: nothing of a debt that is not six months old."""
    reason: str
    takes_back: int | None = None
    """The id of the write-off that it takes back."""
    id: int | None = None


CHEQUE = "cheque"
PAYMENT_METHODS = ("bank transfer", "cash", CHEQUE, "card")
"""How money comes in, the usual way first."""


@dataclass(frozen=True, slots=True)
class CreditElsewhere:
    """What stands to the customer's credit out of a payment for another job of theirs."""

    payment_id: int
    received_on: date
    pence: Pence
    cis: Pence = 0
    """What was deducted of it, and goes with no invoice yet."""


@dataclass(frozen=True, slots=True)
class CounterEntry:
    """What takes a payment, or part of it, back: a positive sum beside the payment it names."""

    kind: DocumentKind
    """A mistake or a refund."""
    on: date
    pence: Pence
    reason: str
    document_id: int
    """The numbered note that says so."""
    id: int | None = None


@dataclass(frozen=True, slots=True)
class Payment:
    """Money in."""

    received_on: date
    pence: Pence
    """What it settles: the money that came, and what was deducted from it under CIS."""
    method: str
    """One of :data:`PAYMENT_METHODS`."""
    allocations: tuple[Allocation, ...] = ()
    freed: tuple[Allocation, ...] = ()
    """What was taken off the documents again that it had been allocated to."""
    counter_entries: tuple[CounterEntry, ...] = ()
    cis: Pence = 0
    """What a contractor deducted under CIS, and pays to HMRC."""
    statement_on: date | None = None
    """When the contractor's statement of that deduction came; None while it has not."""
    id: int | None = None

    @property
    def money(self) -> Pence:
        """What came in."""
        return self.pence - self.cis

    @property
    def held(self) -> Pence:
        """What of it is still with the trader."""
        return self.pence - sum(entry.pence for entry in self.counter_entries)

    @property
    def wants_statement(self) -> bool:
        """Whether a statement of deduction has still to come for it."""
        return bool(self.cis) and self.statement_on is None and not self.is_mistake

    @property
    def is_mistake(self) -> bool:
        """Whether it was cancelled: it never came."""
        return any(entry.kind is DocumentKind.MISTAKE for entry in self.counter_entries)

    @property
    def standing(self) -> tuple[Allocation, ...]:
        """What of it settles which document now."""
        sums = {part.document_id: part for part in self.allocations}
        for part in self.freed:
            stood = sums[part.document_id]
            rest = replace(stood, pence=stood.pence - part.pence, cis=stood.cis - part.cis)
            sums[part.document_id] = rest
        return tuple(part for part in sums.values() if part.pence)

    @property
    def cis_left(self) -> Pence:
        """What was deducted of it, and goes with no invoice yet."""
        return 0 if self.is_mistake else self.cis - sum(part.cis for part in self.standing)

    @property
    def unallocated(self) -> Pence:
        """What was paid over: it stands to the customer's credit."""
        return self.held - sum(part.pence for part in self.standing)

    @property
    def refundable(self) -> Pence:
        """What of it can be paid back: the money paid over, and nothing that was deducted of it."""
        return max(0, self.unallocated - self.cis_left)
