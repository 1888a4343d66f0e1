"""How the account of a job stands, and how the money of a receipt came in, in words."""

from datetime import date

from domain.accounts.receipt import Receipt
from domain.days.calendar import show_date
from domain.job import Document, Job, Stage
from domain.money import show_money
from domain.snapshot import from_json
from domain.tone import Tone
from tui.frame.commands import key_of


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


def nothing_owed(job: Job) -> str:
    """Why no payment can be recorded while nothing is owed, and what comes first."""
    why = "All that was invoiced is paid." if job.documents else "Nothing is invoiced yet."
    quote = job.quote
    deposit = quote.deposit if quote is not None and quote.acceptance is not None else 0
    if job.invoice is not None:
        return why
    if job.stage.rank >= Stage.LAID.rank:
        return f"{why} Issue the invoice first: {key_of('money', 'issue')}."
    if deposit and not job.documents:
        return f"{why} Issue the deposit invoice first: {key_of('money', 'deposit')}."
    return f"{why} The invoice can be issued once the roof is marked laid."


def method_of(receipt: Document) -> str:
    """Return how the money of a receipt came in."""
    return from_json(Receipt, receipt.snapshot).method
