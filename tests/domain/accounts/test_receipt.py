from dataclasses import replace
from datetime import date

import pytest

from domain.accounts.receipt import Effect, Receipt, allocations_for, effect_of, receipt_for
from domain.errors import NotNow
from domain.job import Allocation, DocumentKind, Job, Payment, Stage
from domain.snapshot import from_json
from tests import builders

JOB = builders.job_at(Stage.SIGNED_OFF)


def received(pence: int, settles: int) -> Payment:
    allocations = (Allocation(1, settles),) if settles else ()
    return Payment(date(2026, 7, 1), pence, "cash", allocations)


def receipt(pence: int, settles: int) -> Receipt:
    payment = received(pence, settles)
    return receipt_for(JOB, payment, builders.trader(), 3, date(2026, 7, 2))


def test_a_part_payment_leaves_the_rest_owed() -> None:
    paper = receipt(200_00, 200_00)
    assert [(s.label, s.pence) for s in paper.settled] == [("INV-42", 200_00)]
    assert (paper.left, paper.over) == (286_00, 0)


def _two_invoices() -> Job:
    deposit = builders.invoice(id=1, number=41, kind=DocumentKind.DEPOSIT, gross=100_00)
    later = builders.invoice(id=2, number=42, gross=386_00)
    paid = builders.invoice(id=3, number=40, gross=50_00, paid=50_00)
    receipts = builders.invoice(id=4, number=1, kind=DocumentKind.RECEIPT, gross=50_00)
    return replace(JOB, documents=(deposit, later, paid, receipts))


@pytest.mark.parametrize(
    ("chosen", "pence", "parts"),
    [
        (2, 386_00, [(2, 386_00)]),
        (2, 400_00, [(2, 386_00), (1, 14_00)]),
        (2, 500_00, [(2, 386_00), (1, 100_00)]),  # 14.00 to credit
        (1, 40_00, [(1, 40_00)]),
        (1, 100_01, [(1, 100_00), (2, 1)]),
    ],
)
def test_money_goes_to_the_invoice_chosen_then_to_the_others(
    chosen: int, pence: int, parts: list[tuple[int, int]]
) -> None:
    put = allocations_for(_two_invoices(), chosen, pence)
    assert [(part.document_id, part.pence) for part in put] == parts


def test_of_the_others_the_oldest_comes_first() -> None:
    job = _two_invoices()
    oldest = builders.invoice(id=9, number=39, gross=10_00, issued_on=date(2026, 6, 1))
    put = allocations_for(replace(job, documents=(*job.documents, oldest)), 2, 390_00)
    assert [(part.document_id, part.pence) for part in put] == [(2, 386_00), (9, 4_00)]


def test_a_receipt_shows_every_invoice_the_money_went_to() -> None:
    job = _two_invoices()
    payment = replace(received(500_00, 0), allocations=allocations_for(job, 2, 500_00))
    paper = receipt_for(job, payment, builders.trader(), 3, date(2026, 7, 2))
    assert [(s.label, s.pence) for s in paper.settled] == [("INV-42", 386_00), ("INV-41", 100_00)]
    assert (paper.left, paper.over) == (0, 14_00)


def test_what_is_paid_over_stands_to_the_customers_credit() -> None:
    paper = receipt(500_00, 486_00)
    assert (paper.left, paper.over) == (0, 14_00)


def test_a_receipt_is_a_document_of_its_own_series_and_owes_nothing() -> None:
    document = receipt(200_00, 200_00).document()
    assert (document.kind, document.label) == (DocumentKind.RECEIPT, "REC-3")
    assert (document.gross, document.owed) == (200_00, 0)
    assert document.tax_point == date(2026, 7, 1)
    assert from_json(Receipt, document.snapshot) == receipt(200_00, 200_00)


def test_a_receipt_needs_a_name_on_it() -> None:
    with pytest.raises(NotNow, match="name"):
        receipt_for(JOB, received(1, 0), builders.trader(name=""), 3, date(2026, 7, 2))


@pytest.mark.parametrize(
    ("pence", "effect"),
    [
        (100_00, Effect(left=386_00, to_others=0, over=0)),
        (486_00, Effect(left=0, to_others=0, over=0)),
        (500_00, Effect(left=0, to_others=14_00, over=0)),
        (600_00, Effect(left=0, to_others=100_00, over=14_00)),
    ],
)
def test_what_a_payment_would_do_is_told_beforehand(pence: int, effect: Effect) -> None:
    assert effect_of(pence, owed=486_00, others=100_00) == effect


@pytest.mark.parametrize("pence", [1, 40_00, 100_00, 386_00, 400_00, 500_00])
def test_what_is_told_beforehand_is_what_is_done(pence: int) -> None:
    job, told = _two_invoices(), effect_of(pence, owed=386_00, others=100_00)
    done = {part.document_id: part.pence for part in allocations_for(job, 2, pence)}
    assert done.get(2, 0) == 386_00 - told.left
    assert done.get(1, 0) == told.to_others
    assert pence - sum(done.values()) == told.over
