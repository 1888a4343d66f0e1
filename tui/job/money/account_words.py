"""How the account of a job stands, and what its papers are about, in words."""

from datetime import date

from domain.accounts.calling_off import to_pay_back
from domain.accounts.counter_entries import CounterNote, payment_behind
from domain.accounts.credit_note import CreditNote
from domain.days.calendar import show_date, show_day
from domain.job import Document, DocumentKind, Job, Stage
from domain.money import show_money
from domain.signs import Sign
from domain.snapshot import from_json
from domain.tone import Tone
from tui.frame.commands import key_of


def account_standing(job: Job, today: date) -> tuple[str, Tone]:
    """What is owed and since when, or what stands to the customer's credit."""
    if all(each.is_withdrawn or not each.kind.asks for each in job.documents):
        ahead = f" {_paid_ahead(job)} (credit)." if job.credit else ""
        asked = any(each.kind.asks for each in job.documents)
        why = "All that was invoiced is credited." if asked else "Nothing is invoiced yet."
        return f"{why}{ahead}", Tone.STRONG if ahead else Tone.QUIET
    over = f" {show_money(job.refundable)} overpaid (credit)." if job.refundable else ""
    back = to_pay_back(job)
    if back is not None and not job.owed:
        by = f" by {show_date(back[1])}" if back[1] else ""
        key = key_of("money", "put_right")
        return f"{show_money(back[0])} goes back to them{by}: {key} on its receipt.", Tone.STRONG
    if not job.owed:
        given_up = sum(each.written_off for each in job.documents)
        if given_up:
            return f"{show_money(given_up)} written off.{over}", Tone.QUIET
        return f"{Sign.GOOD} Paid.{over}", Tone.GOOD
    due = min(document.due_on for document in job.documents if document.owed)
    less = sum(document.to_deduct for document in job.documents if document.owed)
    cis = f" after {show_money(less)} CIS" if less else ""
    late = (today - due).days
    if late > 0:
        days = "a day" if late == 1 else f"{late} days"
        return (
            f"{Sign.CAUTION} Owed {show_money(job.owed)}{cis}, overdue {days}.{over}",
            Tone.CAUTION,
        )
    return f"Owed {show_money(job.owed)}{cis}, due {show_date(due)}.{over}", Tone.STRONG


def _paid_ahead(job: Job) -> str:
    """The money, and what a contractor deducted besides."""
    deducted = sum(payment.cis_left for payment in job.payments)
    cis = f" after {show_money(deducted)} CIS" if deducted else ""
    return f"{show_money(job.credit - deducted)} paid ahead{cis}"


def nothing_owed(job: Job) -> str:
    """What becomes of money that comes while nothing is owed, and what may come first."""
    if job.invoice is not None:
        return "All is paid. What came besides is credit, until it is used or paid back."
    asked = any(each.kind.asks for each in job.documents)
    why = "All that was invoiced is paid" if asked else "Nothing is invoiced yet"
    ahead = f"{why}: it is credit, and comes off their next invoice."
    quote = job.quote
    deposit = quote.deposit if quote is not None and quote.acceptance is not None else 0
    if job.stage.rank >= Stage.LAID.rank:
        return f"{ahead} To invoice first: {key_of('money', 'send')}."
    if deposit and not asked:
        return f"{ahead} To invoice the deposit first: {key_of('money', 'deposit')}."
    return ahead


def about(document: Document, job: Job) -> str:
    """What stands beside a document that asks for nothing: how it came, or what it puts right."""
    if document.kind is DocumentKind.RECEIPT:
        payment = payment_behind(job, document)
        if payment.is_mistake:
            return "cancelled"
        if not payment.cis:
            return payment.method
        came = payment.statement_on
        statement = f" {Sign.GOOD} statement {show_day(came)}" if came else ", no statement"
        return f"CIS {show_money(payment.cis)}{statement}"
    if document.kind is DocumentKind.CREDIT_NOTE:
        return f"off {from_json(CreditNote, document.snapshot).invoice}"
    return f"of {from_json(CounterNote, document.snapshot).receipt}"
