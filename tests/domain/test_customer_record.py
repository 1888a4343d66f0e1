"""A customer with all that is recorded of them: the money, and what happened."""

from dataclasses import replace

from domain.customer_record import CustomerRecord
from domain.job import DocumentKind, Payment, Snag, Stage
from tests import builders
from tests.priced import accepted, laid_job, quote

TRADER = builders.trader()


def _record() -> CustomerRecord:
    receipt = replace(builders.invoice(), kind=DocumentKind.RECEIPT, number=1, id=2)
    done = laid_job(accepted(quote(TRADER)), ref="0001", id=1)
    done = replace(
        done,
        documents=(replace(builders.invoice(), paid=400_00), receipt),
        payments=(Payment(builders.DUE, 450_00, "cash"),),
        snags=(Snag("trim", builders.DUE), Snag("still open")),
    )
    asked = builders.job_at(Stage.ENQUIRY, ref="0002", id=2)
    return CustomerRecord(done.customer, (asked, done))


def test_the_money_counts_invoices_once_and_no_receipts() -> None:
    record = _record()
    assert (record.asked, record.received, record.owed) == (486_00, 450_00, 86_00)
    assert record.refundable == 450_00
    assert [document.label for _, document in record.papers] == ["REC-1", "INV-42"]


def test_what_happened_is_told_the_latest_first() -> None:
    told = [(thing.job.ref, thing.words) for thing in _record().happened]
    assert told[0] == ("0001", "put right: trim")
    assert told[1] == ("0001", "£450.00 received, cash")
    assert told.index(("0001", "laid")) < told.index(("0001", "stripped"))
    assert told.index(("0001", "accepted by Mrs Adeyemi")) < told.index(("0001", "quote 1 sent"))
    assert {("0002", "asked"), ("0001", "asked")} <= set(told)
    days = [thing.on for thing in _record().happened]
    assert days == sorted(days, reverse=True)
