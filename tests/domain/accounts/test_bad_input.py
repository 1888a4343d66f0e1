"""What will not do of money is refused in one sentence that says what would."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import Credited, credit_note
from domain.accounts.invoice import invoice_for
from domain.accounts.receipt import allocations_for, demand_after_enquiry, receipt_for
from domain.errors import HeadlapError
from domain.job import DocumentKind, Job, Payment
from tests import builders
from tests.priced import accepted, laid_job, quote
from tui.job.money.payment_dialog import read_money_in

TRADER = builders.trader()
TOMORROW = builders.DUE + timedelta(days=1)


def _billed() -> Job:
    job = laid_job(accepted(quote()))
    invoice = invoice_for(job, TRADER, 42, builders.SIGNED).document()
    return replace(job, documents=(replace(invoice, id=1),))


def _paid_over(over: int) -> Job:
    job = _billed()
    owed = job.documents[0].gross
    came = Payment(
        builders.SIGNED, owed + over, "cash", id=1, allocations=allocations_for(job, 1, owed)
    )
    receipt = receipt_for(job, came, TRADER, 1, builders.SIGNED).document()
    return replace(job, documents=(*job.documents, replace(receipt, id=2)), payments=(came,))


def _credited() -> Job:
    job = _billed()
    return replace(job, documents=(replace(job.documents[0], credited=job.documents[0].gross),))


def _refuse(which: str) -> None:
    job, today = _billed(), builders.DUE
    match which:
        case "to a credited invoice":
            allocations_for(_credited(), 1, 10_00)
        case "a credit over the rest":
            credit_note(job, Credited(1, job.owed + 1, "too many"), TRADER, 1, today)
        case "a refund over the credit":
            back = GivenBack(DocumentKind.REFUND, 1, 20_01, today, "paid too much")
            counter_note(_paid_over(20_00), back, TRADER, 1, today)
        case "before the enquiry":
            demand_after_enquiry(job, job.enquiry.received_on - timedelta(days=1))


@pytest.mark.parametrize(
    ("which", "would_do"),
    [
        ("to a credited invoice", "choose an invoice that is not paid yet"),
        ("a credit over the rest", "or less"),
        ("a refund over the credit", "Give £20.00 or less"),
        ("before the enquiry", "give that day or a later one"),
    ],
)
def test_money_that_cannot_be_is_refused_and_told_what_would_do(which: str, would_do: str) -> None:
    with pytest.raises(HeadlapError, match=would_do) as refused:
        _refuse(which)
    assert "\n" not in str(refused.value)


def test_a_payment_dated_ahead_is_refused() -> None:
    typed = {"amount": "10", "method": "cash", "cis": ""}
    assert read_money_in(typed | {"on": "today"}, date(2026, 7, 9)).received_on == builders.DUE
    with pytest.raises(HeadlapError, match="Give today or an earlier day"):
        read_money_in(typed | {"on": "10 Jul 2026"}, builders.DUE)
