"""The receipt as the customer reads it."""

from domain.accounts.receipt import Receipt
from domain.days.calendar import show_date
from domain.money import show_money
from domain.papers.blocks import Column, Details, Paper, Table, Totals, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.letters import receipt_letter
from domain.papers.shared_parts import customer_rows


def receipt_paper(receipt: Receipt) -> Paper:
    """What came in, what it settled, and what is left to pay."""
    rows = [(f"Invoice {each.label}", show_money(each.pence)) for each in receipt.settled]
    if receipt.over:
        ahead, over = "Paid ahead: comes off your invoice", "Overpaid: credit on your account"
        rows.append((ahead if receipt.ahead else over, show_money(receipt.over)))
    buyer, label = receipt.buyer, receipt.document().label
    return Paper(
        title=f"Receipt {label}",
        head=seller_lines(receipt.seller),
        look=receipt.seller.look,
        letter=receipt_letter(receipt),
        blocks=(
            Details(customer_rows(buyer, receipt.place), "From"),
            Details((("Number", label), ("Date", show_date(receipt.issued_on)))),
            Words(_received(receipt)),
            Table((Column("Paid towards"), Column("Amount", True)), tuple(rows)),
            Totals((("Balance due", show_money(receipt.left)),)),
        ),
    )


def _received(receipt: Receipt) -> str:
    """What came, by what means and when; under CIS what was deducted besides."""
    came = (
        f"Thank you. Received {show_money(receipt.pence - receipt.cis)} by {receipt.method} on "
        f"{show_date(receipt.received_on)}"
    )
    return (
        f"{came}, after {show_money(receipt.cis)} deducted under CIS."
        if receipt.cis
        else f"{came}."
    )
