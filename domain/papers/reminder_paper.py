"""The second reminder of an invoice: a paper, where the first was a few words.

It asks for the sum and how it can be paid, and names no interest, fee or court: those are not ours
to threaten with from a form.
"""

from datetime import date, timedelta

from domain.accounts.chasing import CHASED_AFTER
from domain.accounts.invoice import Invoice
from domain.days.calendar import show_date
from domain.job import Document
from domain.money import show_money
from domain.papers.blocks import Details, Letter, Paper, Totals, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.shared_parts import customer_rows
from domain.snapshot import from_json


def second_reminder(document: Document, today: date, to: str = "") -> Paper:
    """The paper for an invoice on which something is owed; ``to`` is where they are written to."""
    invoice = from_json(Invoice, document.snapshot)
    seller, label = invoice.seller, document.label
    by = show_date(today + timedelta(days=CHASED_AFTER))
    late = (today - document.due_on).days
    less = [("Paid", document.came), ("CIS deduction", document.deduction)]
    sums = [(what, show_money(-pence)) for what, pence in less if pence]
    if sums:
        asked = document.gross - document.credited - document.written_off
        sums.insert(0, ("Asked", show_money(asked)))
    days = f"{late} day{'' if late == 1 else 's'}"
    return Paper(
        title=f"Second reminder {label}",
        head=seller_lines(seller),
        look=seller.look,
        letter=_letter(invoice, document, by, to),
        blocks=(
            Details(customer_rows(invoice.buyer, invoice.place, invoice.roof), "For"),
            Details(
                (
                    ("Date", show_date(today)),
                    ("Invoice", f"{label} of {show_date(document.issued_on)}"),
                    ("Was due on", f"{show_date(document.due_on)}, {days} ago"),
                )
            ),
            Words(
                "We wrote to you about this invoice before and have not had the money yet. Please "
                f"pay it by {by}, or ring us if something is wrong or you need more time."
            ),
            Totals((*sums, ("To pay", show_money(document.owed)))),
            Details(
                (
                    ("Account name", seller.bank_name),
                    ("Sort code", seller.sort_code),
                    ("Account number", seller.account),
                    ("Reference", label),
                ),
                "How to pay: by bank transfer",
                framed=True,
            ),
            Words("If it is on its way, thank you: please take no notice of this."),
        ),
    )


def _letter(invoice: Invoice, document: Document, by: str, to: str) -> Letter:
    seller, label = invoice.seller, document.label
    due = f"{show_money(document.owed)} of our invoice {label} was due on "
    due += f"{show_date(document.due_on)}"
    ask = f"Please pay it by {by}, or ring us if something is wrong or you need more time."
    account = f"{seller.bank_name}, sort code {seller.sort_code}, account {seller.account}"
    return Letter(
        seller.email,
        f"Second reminder of invoice {label} for your roof at {invoice.place}",
        f"Dear {invoice.buyer.name},\n\n{due}. {ask} A reminder with how to pay is attached.\n\n"
        f"If it is on its way, thank you.\n\nKind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {invoice.buyer.name}, a second reminder: {due}. {ask} To pay: {account}, reference "
        f"{label}. If it is on its way, thank you. {seller.heading}",
        to=to,
    )
