"""The statement of account: all that a customer owes, for whichever job, on a day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from domain.accounts.invoice import Buyer, Seller, as_seller
from domain.accounts.transfer import OpenInvoice, by_age
from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.job import Customer
from domain.money import Pence, show_money
from domain.papers.blocks import Column, Details, Letter, Paper, Table, Totals, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.shared_parts import customer_rows
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Statement:
    """What a statement says: every invoice that is not paid, and what stands to the credit."""

    on: date
    seller: Seller
    buyer: Buyer
    owing: tuple[OpenInvoice, ...]
    """That due first first."""
    credit: Pence
    """Money that they paid over."""

    @property
    def owed(self) -> Pence:
        """What is to pay in all, less the credit."""
        return max(0, sum(each.document.owed for each in self.owing) - self.credit)


def statement_of(
    customer: Customer, owing: Sequence[OpenInvoice], credit: Pence, trader: Trader, on: date
) -> Statement:
    """The statement of a customer on a day. Raises :class:`NotNow` if they owe nothing."""
    if not owing:
        raise NotNow("They owe nothing, so there is no statement to send.")
    buyer = Buyer(customer.name, customer.address)
    return Statement(on, as_seller(trader), buyer, tuple(by_age(owing)), credit)


def statement_paper(statement: Statement, to: str) -> Paper:
    """The statement as the customer reads it; ``to`` is where they are written to."""
    seller = statement.seller
    columns = ("Invoice", "Issued", "Due", "Roof at")
    deducts = any(each.document.deduction for each in statement.owing)
    sums = ("Asked", "Paid", *(("CIS deduction",) if deducts else ()), "Owed")
    totals = [("Credit on your account", show_money(-statement.credit))] * bool(statement.credit)
    return Paper(
        title=f"Statement {statement.buyer.name}, {show_date(statement.on)}",
        head=seller_lines(seller),
        look=seller.look,
        letter=_letter(statement, to),
        blocks=(
            Details(customer_rows(statement.buyer, ""), "Statement of account for"),
            Details((("Date", show_date(statement.on)),)),
            Table(
                (*map(Column, columns), *(Column(title, True) for title in sums)),
                tuple(_row(each, deducts=deducts) for each in statement.owing),
            ),
            Totals((*totals, ("To pay", show_money(statement.owed)))),
            Details(_how_to_pay(statement), "How to pay: by bank transfer", framed=True),
            Words("If something is on its way, thank you: please take no notice of it here."),
        ),
    )


def _row(each: OpenInvoice, *, deducts: bool) -> tuple[str, ...]:
    document = each.document
    asked = document.gross - document.credited - document.written_off
    return (
        document.label,
        show_date(document.issued_on),
        show_date(document.due_on),
        each.place,
        show_money(asked),
        show_money(document.came),
        *((show_money(document.deduction),) if deducts else ()),
        show_money(document.owed),
    )


def _how_to_pay(statement: Statement) -> tuple[tuple[str, str], ...]:
    seller = statement.seller
    return (
        ("Account name", seller.bank_name),
        ("Sort code", seller.sort_code),
        ("Account number", seller.account),
        ("Reference", " ".join(each.document.label for each in statement.owing)),
    )


def _letter(statement: Statement, to: str) -> Letter:
    seller, buyer = statement.seller, statement.buyer
    invoices = ", ".join(each.document.label for each in statement.owing)
    left = f"{show_money(statement.owed)} is to pay on {invoices}, as of {show_date(statement.on)}"
    account = f"{seller.bank_name}, sort code {seller.sort_code}, account {seller.account}"
    return Letter(
        seller.email,
        f"Statement of account, {show_date(statement.on)}",
        f"Dear {buyer.name},\n\nOur statement is attached: {left}. How to pay is on it. If "
        "something is on its way, thank you.\n\nIf you have a question, please ring or reply.\n\n"
        f"Kind regards\n{seller.heading}\n{seller.phone}",
        f"Hello {buyer.name}, {left}. To pay: {account}, reference {invoices}. If it is on its "
        f"way, thank you. {seller.heading}",
        to=to,
    )
