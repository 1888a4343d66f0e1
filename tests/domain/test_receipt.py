from dataclasses import replace
from datetime import date

import pytest

from domain.debts import owed_by_age
from domain.errors import NotNow
from domain.job import Allocation, Document, DocumentKind, Payment, Stage
from domain.receipt import Receipt, receipt_for
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
    assert [(s.label, s.pence) for s in paper.settled] == [("0042", 200_00)]
    assert (paper.left, paper.over) == (286_00, 0)


def test_what_is_paid_over_stands_to_the_customers_credit() -> None:
    paper = receipt(500_00, 486_00)
    assert (paper.left, paper.over) == (0, 14_00)


def test_a_receipt_is_a_document_of_its_own_series_and_owes_nothing() -> None:
    document = receipt(200_00, 200_00).document()
    assert (document.kind, document.label) == (DocumentKind.RECEIPT, "R0003")
    assert (document.gross, document.owed) == (200_00, 0)
    assert document.tax_point == date(2026, 7, 1)
    assert from_json(Receipt, document.snapshot) == receipt(200_00, 200_00)


def test_a_receipt_needs_a_name_on_it() -> None:
    with pytest.raises(NotNow, match="name"):
        receipt_for(JOB, received(1, 0), builders.trader(name=""), 3, date(2026, 7, 2))


def bill(due: date, paid: int = 0) -> Document:
    return replace(builders.invoice(), due_on=due, paid=paid)


def test_what_is_owed_is_told_by_age() -> None:
    today = date(2026, 12, 31)
    documents = [
        *(bill(date(2026, 12, 31)), bill(date(2026, 12, 30), paid=86_00), bill(date(2026, 12, 1))),
        *(bill(date(2026, 11, 30)), bill(date(2026, 11, 1)), bill(date(2026, 10, 31))),
        *(bill(date(2026, 10, 2)), bill(date(2026, 10, 1)), bill(date(2026, 9, 1), paid=486_00)),
        replace(builders.invoice(), kind=DocumentKind.RECEIPT),
    ]
    assert [(owed.words, owed.pence, owed.count) for owed in owed_by_age(documents, today)] == [
        ("not due yet", 486_00, 1),
        ("up to 30 days overdue", 886_00, 2),
        ("31 to 60 days overdue", 2 * 486_00, 2),
        ("61 to 90 days overdue", 2 * 486_00, 2),
        ("over 90 days overdue", 486_00, 1),
    ]


def test_nothing_owed_is_nothing_of_any_age() -> None:
    ages = owed_by_age([], date(2026, 12, 31))
    assert len(ages) == 5
    assert sum(owed.pence + owed.count for owed in ages) == 0
