"""The credit note as the customer reads it."""

from collections.abc import Iterator

from domain.accounts.credit_note import CreditNote
from domain.days.calendar import show_date
from domain.money import show_money
from domain.papers.blocks import Details, Paper, Totals, Words
from domain.papers.invoice_paper import by_rate, seller_lines
from domain.papers.letters import credit_letter
from domain.papers.shared_parts import customer_rows, sentence


def credit_note_paper(note: CreditNote) -> Paper:
    """Which invoice, why, how much with its VAT, and what the invoice asks for now."""
    label = note.document().label
    return Paper(
        title=f"Credit note {label}",
        head=seller_lines(note.seller),
        look=note.seller.look,
        letter=credit_letter(note),
        blocks=(
            Details(customer_rows(note.buyer, note.place), "For"),
            Details(tuple(_about(note, label))),
            Words(f"{sentence(note.reason)}"),
            Totals(tuple(_sums(note))),
            Details(tuple(_left(note))),
        ),
    )


def _about(note: CreditNote, label: str) -> Iterator[tuple[str, str]]:
    yield "Number", label
    yield "Date", show_date(note.issued_on)
    yield "For invoice", f"{note.invoice} of {show_date(note.invoiced_on)}"
    yield "Job", note.ref


def _left(note: CreditNote) -> Iterator[tuple[str, str]]:
    yield f"Invoice {note.invoice} now comes to", show_money(note.left)
    if note.of_line:
        yield "Taken off", note.of_line
    if note.materials is not None:
        yield "Taken off", "materials at cost" if note.materials else "labour"
    if note.materials and not note.cis:
        yield "CIS deduction", "as it was"
    if note.cis:
        yield "CIS deduction less by", show_money(note.cis)


def _sums(note: CreditNote) -> Iterator[tuple[str, str]]:
    """What is taken off; before VAT and VAT only where the trader is registered."""
    if note.seller.vat_number:
        yield from by_rate(note.totals)
    yield "Credited", show_money(note.totals.gross)
