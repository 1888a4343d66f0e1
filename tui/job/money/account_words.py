"""How the account of a job stands, in words, and a document as the paper it was issued as."""

from collections.abc import Callable, Mapping
from datetime import date
from types import MappingProxyType

from domain.accounts.invoice import Invoice
from domain.accounts.receipt import Receipt
from domain.days.calendar import show_date
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.papers.blocks import Paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.receipt_paper import receipt_paper
from domain.snapshot import from_json
from domain.tone import Tone


def account_standing(job: Job, today: date) -> tuple[str, Tone]:
    """What is owed and since when, or what stands to the customer's credit."""
    credit = sum(payment.unallocated for payment in job.payments)
    over = f" {show_money(credit)} overpaid (credit)." if credit else ""
    if not job.documents:
        return "Nothing is invoiced yet.", Tone.QUIET
    if not job.owed:
        return f"✓ Paid.{over}", Tone.GOOD
    due = min(document.due_on for document in job.documents if document.owed)
    late = (today - due).days
    if late > 0:
        days = "a day" if late == 1 else f"{late} days"
        return f"▲ Owed {show_money(job.owed)}, overdue {days}.{over}", Tone.CAUTION
    return f"Owed {show_money(job.owed)}, due {show_date(due)}.{over}", Tone.STRONG


def paper_as_issued(document: Document) -> Paper:
    """Return the document as it was issued, from what was kept of it.

    Raises ``KeyError`` for a kind of document that :data:`AS_ISSUED` has no maker for.
    """
    return AS_ISSUED[document.kind](document.snapshot)


def _invoice_as_issued(snapshot: str) -> Paper:
    return invoice_paper(from_json(Invoice, snapshot))


def _receipt_as_issued(snapshot: str) -> Paper:
    return receipt_paper(from_json(Receipt, snapshot))


AS_ISSUED: Mapping[DocumentKind, Callable[[str], Paper]] = MappingProxyType(
    {
        DocumentKind.DEPOSIT: _invoice_as_issued,
        DocumentKind.INVOICE: _invoice_as_issued,
        DocumentKind.RECEIPT: _receipt_as_issued,
    }
)
"""What makes the paper of each kind of document from the text that was kept of it."""


def method_of(receipt: Document) -> str:
    """Return how the money of a receipt came in."""
    return from_json(Receipt, receipt.snapshot).method
