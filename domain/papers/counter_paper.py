"""The notes that cancel a payment or pay money back, as the customer reads them."""

from collections.abc import Iterator

from domain.accounts.counter_entries import CounterNote
from domain.days.calendar import show_date
from domain.job import DocumentKind
from domain.money import show_money
from domain.papers.blocks import Block, Column, Details, Paper, Table, Totals, Words
from domain.papers.invoice_paper import seller_lines
from domain.papers.letters import counter_letter
from domain.papers.shared_parts import customer_rows, sentence


def counter_paper(note: CounterNote) -> Paper:
    """Which payment, why, and what is owed afterwards."""
    label = note.document().label
    taken = note.kind is DocumentKind.MISTAKE
    return Paper(
        title=f"Receipt {note.receipt} cancelled: {label}" if taken else f"Refund {label}",
        head=seller_lines(note.seller),
        look=note.seller.look,
        letter=counter_letter(note),
        blocks=(
            Details(customer_rows(note.buyer, note.place), "For"),
            Details((("Number", label), ("Date", show_date(note.issued_on)), ("Job", note.ref))),
            Words(counter_words(note)),
            Words(sentence(note.reason)),
            *_owed_again(note),
            Totals((("Balance due", show_money(note.left)),)),
        ),
    )


def counter_words(note: CounterNote) -> str:
    """What happened to the money, in a sentence."""
    came = f"{note.method} on {show_date(note.received_on)}"
    if note.kind is DocumentKind.MISTAKE:
        after = f", after {show_money(note.cis)} deducted," if note.cis else ""
        return (
            f"The payment of {show_money(note.money)} by {came}{after} is cancelled. "
            f"Receipt {note.receipt} no longer counts."
        )
    on = f" on {show_date(note.paid_back_on)}" if note.paid_back_on else ""
    return (
        f"{show_money(note.pence)} is paid back to you{on}, out of what came by {came} (receipt "
        f"{note.receipt})."
    )


def _owed_again(note: CounterNote) -> Iterator[Block]:
    rows = tuple((f"Invoice {each.label}", show_money(each.pence)) for each in note.owed_again)
    if rows:
        yield Table((Column("Owed again"), Column("Amount", True)), rows)
