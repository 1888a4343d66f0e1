"""Credit notes, payments cancelled and money paid back."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import Credited, credit_note, freed_by, part_credited
from domain.accounts.invoice import invoice_for
from domain.errors import NotNow, Refused
from domain.job import Allocation, CounterEntry, DocumentKind, Job, Payment, Stage
from domain.tax import less, totals_of
from tests import builders
from tests.examples import examples

TWENTY = Decimal(20)


def _invoiced() -> Job:
    """A job laid and invoiced: its only document is the invoice."""
    job = replace(builders.job_at(Stage.LAID), documents=(), payments=())
    invoice = invoice_for(job, builders.trader(), 1, builders.SIGNED)
    return replace(job, documents=(replace(invoice.document(), id=1),))


def test_a_part_credit_bears_the_vat_fraction_of_its_sum() -> None:
    # Source: the VAT fraction, VAT Notice 700 §7.3.1 (memory); £475.52 less £60.00, computed.
    whole = totals_of([(TWENTY, 396_27)])
    part = part_credited(whole, 60_00)
    assert (part.net, part.vat_whole) == (50_00, 10_00)
    left = less(whole, part)
    assert (left.net, left.vat_whole, left.gross) == (346_27, 69_25, 415_52)


@examples(100)
@given(
    st.lists(st.integers(1, 60_000), min_size=1, max_size=3),
    st.lists(st.integers(1, 5_000), max_size=6),
)
def test_credits_come_to_the_invoice_and_take_no_more_vat_or_net_than_is_left(
    nets: list[int], parts: list[int]
) -> None:
    rates = (TWENTY, Decimal(5), Decimal(0))
    rest = whole = totals_of(zip(rates, nets, strict=False))
    taken = []
    for part in parts:
        if part > rest.gross:
            continue
        credit = part_credited(rest, part)
        assert credit.gross == part == credit.net + credit.vat_whole
        rest = less(rest, credit)
        assert all(each.net >= 0 and each.vat >= 0 for each in rest.vat)
        taken.append(credit)
    if rest.gross:
        taken.append(part_credited(rest, rest.gross))
    assert sum(each.vat_whole for each in taken) == whole.vat_whole
    assert sum(each.net for each in taken) == whole.net


def test_what_is_paid_over_after_a_credit_is_freed_from_the_last_payment_first() -> None:
    job = _invoiced()
    invoice = replace(job.documents[0], gross=100_00, paid=100_00)
    key = invoice.id or 0
    job = replace(
        job,
        documents=(invoice,),
        payments=tuple(
            Payment(builders.SIGNED, pence, "cash", (Allocation(key, pence),), id=number)
            for number, pence in enumerate((70_00, 30_00), 1)
        ),
    )
    note = credit_note(job, Credited(key, 45_00, "agreed"), builders.trader(), 1, builders.DUE)
    freed = freed_by(job, invoice, note)
    assert freed == ((2, Allocation(key, 30_00)), (1, Allocation(key, 15_00)))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"pence": 0}, "or less"),
        ({"pence": 10_000_000}, "or less"),
        ({"reason": " "}, "Say what was wrong"),
    ],
)
def test_a_credit_of_nothing_of_too_much_or_without_a_reason_is_refused(
    change: dict[str, object], words: str
) -> None:
    job = _invoiced()
    asked = Credited(job.documents[0].id or 0, 1_00, "too many boards")
    with pytest.raises(Refused, match=words):
        credit_note(job, replace(asked, **change), builders.trader(), 1, builders.DUE)  # type: ignore[arg-type] # one field each


def test_a_mistake_is_whole_and_a_payment_paid_back_in_part_is_none() -> None:
    job = builders.job_at(Stage.SIGNED_OFF)
    came = Payment(builders.SIGNED, 50_00, "cash", id=1)
    job = replace(
        job,
        payments=(came,),
        documents=(*job.documents, replace(job.documents[0], kind=DocumentKind.RECEIPT, id=99)),
    )
    back = GivenBack(DocumentKind.MISTAKE, 1, 50_00, builders.DUE, "typed twice")
    note = counter_note(job, back, builders.trader(), 1, builders.DUE)
    assert (note.pence, note.left) == (50_00, job.owed)
    with pytest.raises(Refused, match="A mistake is all of it"):
        counter_note(job, replace(back, pence=20_00), builders.trader(), 1, builders.DUE)
    refund = CounterEntry(DocumentKind.REFUND, builders.DUE, 10_00, "paid twice", 100)
    with pytest.raises(NotNow, match="no mistake"):
        counter_note(
            replace(job, payments=(replace(came, counter_entries=(refund,)),)),
            back,
            builders.trader(),
            1,
            builders.DUE,
        )


def test_an_invoice_bears_what_the_customer_paid_over_and_asks_for_the_rest() -> None:
    job = replace(_invoiced(), documents=(), payments=(Payment(builders.SIGNED, 20_00, "cash"),))
    invoice = invoice_for(job, builders.trader(), 2, builders.SIGNED)
    assert (invoice.credit, invoice.to_pay) == (20_00, invoice.due - 20_00)


def test_with_a_deposit_asked_for_the_work_makes_no_tax_point() -> None:
    # Source: VAT Regulations 1995 reg. 93(1), VATTOS9110: read; the days are derived from it.
    laid, issued = date(2026, 6, 24), date(2026, 7, 31)
    job = _invoiced()
    assert job.laying is not None
    job = replace(job, documents=(), laying=replace(job.laying, on=laid))
    (quote,) = job.quotes
    one_payment = replace(job, quotes=(replace(quote, deposit=0),))
    several = replace(job, quotes=(replace(quote, deposit=50_00),))
    assert invoice_for(one_payment, builders.trader(), 1, issued).tax_point == laid
    assert invoice_for(several, builders.trader(), 1, issued).tax_point == issued
