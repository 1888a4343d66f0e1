"""A document as the paper it was issued as, from what was kept of it."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType

from domain.accounts.counter_entries import CounterNote
from domain.accounts.credit_note import CreditNote
from domain.accounts.invoice import Invoice
from domain.accounts.receipt import Receipt
from domain.job import Customer, Document, DocumentKind
from domain.papers.blocks import Paper
from domain.papers.counter_paper import counter_paper
from domain.papers.credit_note_paper import credit_note_paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.receipt_paper import receipt_paper
from domain.snapshot import from_json


def paper_as_issued(document: Document, customer: Customer) -> Paper:
    """Return the document as it was issued, from what was kept of it.

    Whom to write to is no part of it: that is as the customer can be reached now.

    Raises ``KeyError`` for a kind of document that :data:`AS_ISSUED` has no maker for.
    """
    paper = AS_ISSUED[document.kind](document.snapshot)
    letter = paper.letter and replace(paper.letter, to=customer.email)
    return replace(paper, letter=letter)


def _invoice_as_issued(snapshot: str) -> Paper:
    return invoice_paper(from_json(Invoice, snapshot))


def _receipt_as_issued(snapshot: str) -> Paper:
    return receipt_paper(from_json(Receipt, snapshot))


def _credit_note_as_issued(snapshot: str) -> Paper:
    return credit_note_paper(from_json(CreditNote, snapshot))


def _counter_note_as_issued(snapshot: str) -> Paper:
    return counter_paper(from_json(CounterNote, snapshot))


AS_ISSUED: Mapping[DocumentKind, Callable[[str], Paper]] = MappingProxyType(
    {
        DocumentKind.DEPOSIT: _invoice_as_issued,
        DocumentKind.INVOICE: _invoice_as_issued,
        DocumentKind.RECEIPT: _receipt_as_issued,
        DocumentKind.CREDIT_NOTE: _credit_note_as_issued,
        DocumentKind.MISTAKE: _counter_note_as_issued,
        DocumentKind.REFUND: _counter_note_as_issued,
    }
)
"""What makes the paper of each kind of document from the text that was kept of it."""
