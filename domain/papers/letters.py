"""What is said to a customer beside a paper: in an e-mail, and short in a text message."""

from datetime import date

from domain.accounts.as_sent import AsSent
from domain.accounts.counter_entries import CounterNote
from domain.accounts.credit_note import CreditNote
from domain.accounts.invoice import Invoice
from domain.accounts.receipt import Receipt
from domain.days.calendar import show_date
from domain.estimate.quoting import option_total
from domain.job import DocumentKind, Option, Quote
from domain.money import Pence, show_money
from domain.papers.blocks import Letter

_ASK = "If you have a question, please ring or reply: we are glad to help."


def quote_letter(quote: Quote, says: AsSent, ref: str, until: str) -> Letter:
    """What goes with a quote; ``ref`` is that of the job, ``until`` its last day as shown."""
    prices = [_price(option, says.is_householder) for option in quote.options]
    price = prices[0] if len(prices) == 1 else f"{', '.join(prices[:-1])} or {prices[-1]}"
    choose = "" if len(prices) == 1 else " by the covering you choose"
    offer = f"{price}{choose}, valid until {until}"
    return Letter(
        says.seller.email,
        f"Quote {ref} for your roof at {says.place}",
        f"Dear {says.buyer.name},\n\nThank you for asking us to look at your roof at {says.place}. "
        f"Our quote is attached: {offer}.\n\n{_ASK}\n\nKind regards\n{says.seller.heading}\n"
        f"{says.seller.phone}",
        f"Hello {says.buyer.name}, our quote for your roof at {says.place} is {offer}. "
        f"Kind regards, {says.seller.heading}",
    )


def confirmation_letter(quote: Quote, says: AsSent, ref: str, on: str, right: str) -> Letter:
    """What goes with what was agreed ``on`` a day; ``right`` says until when they can cancel."""
    price = _price(quote.options[0], says.is_householder)
    told = f"{right}\n\n" if right else ""
    agreed = f"our quote {ref} of {price} for your roof at {says.place} on {on}"
    return Letter(
        says.seller.email,
        f"What we agreed for your roof at {says.place}",
        f"Dear {says.buyer.name},\n\nThank you for accepting {agreed}. What we agreed is attached: "
        f"please keep it.\n\n{told}{_ASK}\n\nKind regards\n"
        f"{says.seller.heading}\n{says.seller.phone}",
        " ".join(
            filter(
                None,
                (
                    f"Hello {says.buyer.name}, thank you for accepting {agreed}.",
                    right,
                    f"Kind regards, {says.seller.heading}",
                ),
            )
        ),
    )


def invoice_letter(invoice: Invoice) -> Letter:
    """What goes with an invoice: the sum, the day it is due, where to pay it."""
    seller, label = invoice.seller, invoice.document().label
    kind = "deposit invoice" if invoice.kind is DocumentKind.DEPOSIT else "invoice"
    due = f"{show_money(invoice.to_pay)}, due by {show_date(invoice.due_on)}"
    thanks = "Thank you for having us." if invoice.done_on else "Thank you for going ahead."
    account = f"{seller.bank_name}, sort code {seller.sort_code}, account {seller.account}"
    return Letter(
        seller.email,
        f"{kind.capitalize()} {label} for your roof at {invoice.place}",
        f"Dear {invoice.buyer.name},\n\n{thanks} Our {kind} {label} is attached: {due}. "
        f"How to pay is on it.\n\n{_ASK}\n\nKind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {invoice.buyer.name}, our {kind} {label} for your roof at {invoice.place} is "
        f"{due}. To pay: {account}, reference {label}. {thanks} {seller.heading}",
    )


def reminder_text(invoice: Invoice, came: Pence, owed: Pence, today: date) -> str:
    """What is said of an invoice past its day: sum, since when, how to pay. It blames nobody.

    Thanks are for the money that ``came``, and not for what was credited on it.
    """
    seller, label = invoice.seller, invoice.document().label
    late = (today - invoice.due_on).days
    days = f"{late} day{'' if late == 1 else 's'} ago"
    left = f"{show_money(owed)} was due on {show_date(invoice.due_on)}, {days}"
    if came:
        left = f"thank you for {show_money(came)}; the other {left}"
    account = f"{seller.bank_name}, sort code {seller.sort_code}, account {seller.account}"
    return (
        f"Hello {invoice.buyer.name}, a reminder of our invoice {label} for your roof at "
        f"{invoice.place}: {left}. To pay: {account}, reference {label}. If it is on its way, "
        f"thank you, and please take no notice of this. {seller.heading}"
    )


def receipt_letter(receipt: Receipt) -> Letter:
    """What goes with a receipt: what came, and what is left."""
    seller, label = receipt.seller, receipt.document().label
    left = f" {show_money(receipt.left)} is left to pay." if receipt.left > 0 else ""
    came = f"Thank you: {show_money(receipt.pence)} came on {show_date(receipt.received_on)}."
    return Letter(
        seller.email,
        f"Receipt {label} for your roof at {receipt.place}",
        f"Dear {receipt.buyer.name},\n\n{came}{left} Our receipt {label} is attached.\n\n{_ASK}\n\n"
        f"Kind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {receipt.buyer.name}. {came}{left} The receipt is {label}. "
        f"Kind regards, {seller.heading}",
    )


def credit_letter(note: CreditNote) -> Letter:
    """What goes with a credit note: how much off which invoice, and what that comes to now."""
    seller, label = note.seller, note.document().label
    off = (
        f"We have taken {show_money(note.totals.gross)} off our invoice {note.invoice}; it now "
        f"comes to {show_money(note.left)}."
    )
    return Letter(
        seller.email,
        f"Credit note {label} for your roof at {note.place}",
        f"Dear {note.buyer.name},\n\n{off} Our credit note {label} is attached.\n\n{_ASK}\n\n"
        f"Kind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {note.buyer.name}. {off} The credit note is {label}. "
        f"Kind regards, {seller.heading}",
    )


def counter_letter(note: CounterNote) -> Letter:
    """What goes with a note about money given back, or a payment that is cancelled."""
    seller, label = note.seller, note.document().label
    sum_of_it = show_money(note.money)
    if note.kind is DocumentKind.MISTAKE:
        what = f"Receipt {note.receipt} for {sum_of_it} was a mistake and no longer counts."
    else:
        what = f"We are paying {sum_of_it} back to you."
    left = f" {show_money(note.left)} is left to pay." if note.left > 0 else ""
    return Letter(
        seller.email,
        f"{label} for your roof at {note.place}",
        f"Dear {note.buyer.name},\n\n{what}{left} Our note {label} is attached.\n\n{_ASK}\n\n"
        f"Kind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {note.buyer.name}. {what}{left} The number of our note is {label}. "
        f"Kind regards, {seller.heading}",
    )


def _price(option: Option, inclusive: bool) -> str:
    """The price that counts for the reader, as the quote has it large."""
    totals = option_total(option)
    if not totals.rated:
        return show_money(totals.gross)
    if inclusive:
        return f"{show_money(totals.gross)} including VAT"
    return f"{show_money(totals.net)} before VAT"
