"""Every kind of paper has its own maker, and a kind without one falls through to none."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import Credited, credit_note
from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.receipt import receipt_for
from domain.errors import NotNow
from domain.estimate.supplies import PricesAndStock
from domain.job import Chase, Document, DocumentKind, Extra, Job, Payment, SignOff
from tests import builders
from tests.priced import PRICES, laid_job, quote
from tui.papers.as_issued import AS_ISSUED, paper_as_issued
from tui.papers.asked_for import HELD, STATEMENT
from tui.papers.job_papers import MAKERS, paper_of
from tui.shell.command_line import PAPERS, QUARTER

TRADER = builders.trader()
LATE = builders.DUE + timedelta(days=21)
"""From which a second reminder goes out, once there was a first."""


def _job() -> Job:
    """A job with a document of every kind."""
    job = laid_job(quote(deposit=100_00))
    deposit = deposit_invoice_for(replace(job, documents=()), TRADER, 7, builders.AGREED)
    made = invoice_for(job, TRADER, 42, builders.SIGNED)
    payment = Payment(builders.DUE, 1_00, "cash", id=1)
    receipt = receipt_for(job, payment, TRADER, 3, builders.DUE)
    issued = (deposit.document(), made.document(), receipt.document())
    known = tuple(replace(each, id=n) for n, each in enumerate(issued, 1))
    job = replace(job, documents=known, payments=(payment,))
    off = credit_note(job, Credited(2, 5_00, "typed wrong"), TRADER, 1, builders.DUE)
    back = tuple(
        counter_note(
            job, GivenBack(kind, 1, 1_00, builders.DUE, "why"), TRADER, 1, builders.DUE
        ).document()
        for kind in (DocumentKind.MISTAKE, DocumentKind.REFUND)
    )
    extra = Extra("rotten boards", Decimal(3), "m", 42_00, Decimal(0))
    done = SignOff("Mrs Adeyemi", builders.SIGNED, builders.SIGNED.replace(year=2031))
    job = replace(job, extras=(extra,), sign_off=done)
    chased = (Chase(2, builders.DUE, builders.DUE, promised=False),)
    return replace(job, documents=(*job.documents, off.document(), *back), chased=chased)


def _title(kind: str, job: Job | None = None) -> str:
    sources = PricesAndStock(PRICES, (), LATE)
    return paper_of(kind, job or _job(), TRADER, sources).title


def _issued(kind: DocumentKind) -> Document:
    return next(each for each in _job().documents if each.kind is kind)


def test_the_command_line_knows_the_papers_that_there_are() -> None:
    assert sorted(PAPERS) == sorted([*MAKERS, HELD, STATEMENT, QUARTER])


def test_each_name_gives_a_paper_of_its_own() -> None:
    titles = {kind: _title(kind) for kind in MAKERS}
    assert len(set(titles.values())) == len(MAKERS), titles
    assert titles["invoice"] == "Invoice INV-42"


def test_a_name_that_no_paper_has_is_not_taken_for_the_invoice() -> None:
    with pytest.raises(KeyError):
        _title("poem")


def test_there_is_no_second_reminder_before_the_first() -> None:
    with pytest.raises(NotNow, match="no second reminder yet"):
        _title("second-reminder", replace(_job(), chased=()))


def test_every_kind_of_document_has_its_maker() -> None:
    assert set(AS_ISSUED) == set(DocumentKind)


@pytest.mark.parametrize(
    ("kind", "title"),
    [
        (DocumentKind.DEPOSIT, "Deposit invoice INV-7"),
        (DocumentKind.INVOICE, "Invoice INV-42"),
        (DocumentKind.RECEIPT, "Receipt REC-3"),
    ],
)
def test_a_document_is_the_paper_it_was_issued_as(kind: DocumentKind, title: str) -> None:
    paper = paper_as_issued(_issued(kind), builders.customer(email="new@example.com"))
    assert paper.title == title
    assert paper.letter is not None
    assert paper.letter.to == "new@example.com"
    assert title.rsplit(maxsplit=1)[-1] in paper.letter.text
