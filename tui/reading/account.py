"""How the account of a job stands, in words, and a document as the paper it was issued as."""

from datetime import date

from domain.accounts.invoice import Invoice
from domain.accounts.receipt import Receipt
from domain.days.calendar import show_date
from domain.job import Document, DocumentKind, Job
from domain.money import show_money
from domain.papers.blocks import Paper
from domain.papers.invoice import invoice_paper
from domain.papers.receipt import receipt_paper
from domain.snapshot import from_json
from domain.tone import Tone


def standing(job: Job, today: date) -> tuple[str, Tone]:
    """What is owed and since when, or what stands to the customer's credit."""
    credit = sum(payment.unallocated for payment in job.payments)
    over = f" {show_money(credit)} paid over stands to the customer's credit." if credit else ""
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
    """The document as it was issued, from what was kept of it."""
    if document.kind is DocumentKind.RECEIPT:
        return receipt_paper(from_json(Receipt, document.snapshot))
    return invoice_paper(from_json(Invoice, document.snapshot))


def method_of(receipt: Document) -> str:
    """How the money came in."""
    return from_json(Receipt, receipt.snapshot).method
