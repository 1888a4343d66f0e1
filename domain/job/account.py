"""Documents and payments. A document, once issued, never changes."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from domain.job.invoice_label import invoice_label, receipt_label
from domain.money import Pence


class DocumentKind(StrEnum):
    """What a numbered document is. Invoices share one series, receipts another."""

    DEPOSIT = "deposit invoice"
    INVOICE = "invoice"
    RECEIPT = "receipt"


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
    """What the document asks for (or, a receipt, what it acknowledges), VAT included."""
    snapshot: str
    """The :class:`domain.accounts.invoice.Invoice` (or receipt) it was drawn from, as JSON text."""
    paid: Pence = 0
    """The sum of the payments allocated to it."""
    id: int | None = None

    @property
    def label(self) -> str:
        """The number as people write it: ``INV-42``, receipts ``REC-42``."""
        if self.kind is DocumentKind.RECEIPT:
            return receipt_label(self.number)
        return invoice_label(self.number)

    @property
    def owed(self) -> Pence:
        """What is still to be paid on it; nothing on a receipt."""
        return 0 if self.kind is DocumentKind.RECEIPT else self.gross - self.paid


@dataclass(frozen=True, slots=True)
class Allocation:
    """The part of a payment that settles one document."""

    document_id: int
    pence: Pence


PAYMENT_METHODS = ("bank transfer", "cash", "cheque", "card")
"""How money comes in, the usual way first."""


@dataclass(frozen=True, slots=True)
class Payment:
    """Money in."""

    received_on: date
    pence: Pence
    method: str
    """One of :data:`PAYMENT_METHODS`."""
    allocations: tuple[Allocation, ...] = ()
    id: int | None = None

    @property
    def unallocated(self) -> Pence:
        """What was paid over: it stands to the customer's credit."""
        return self.pence - sum(a.pence for a in self.allocations)
