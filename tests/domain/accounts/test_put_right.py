"""Credit notes, payments cancelled and money paid back."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import (
    Credited,
    CreditNote,
    credit_note,
    freed_by,
    lines_left,
    part_credited,
)
from domain.accounts.invoice import Invoice, invoice_for
from domain.accounts.receipt import receipt_for
from domain.errors import NotNow, Refused
from domain.estimate.scope import Item
from domain.job import Allocation, CounterEntry, DocumentKind, Job, Payment, Stage
from domain.papers.blocks import Details
from domain.papers.credit_note_paper import credit_note_paper
from domain.snapshot import from_json
from domain.tax import VatSum, less, totals_of
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
    came = Payment(builders.SIGNED, 20_00, "cash", id=1)
    job = replace(_invoiced(), documents=())
    receipt = receipt_for(job, came, builders.trader(), 1, builders.SIGNED).document()
    job = replace(job, documents=(receipt,), payments=(came,))
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


def _of_two_rates() -> Job:
    """Three lines of £33.33 at 20 % and one of £100.00 at none."""
    job = _invoiced()
    invoice = from_json(Invoice, job.documents[0].snapshot)
    lines = (*(("a", 33_33, TWENTY), ("b", 33_33, TWENTY), ("c", 33_33, TWENTY)), ("d", 100_00, 0))
    items = tuple(Item(w, Decimal(1), "job", net, Decimal(rate)) for w, net, rate in lines)
    totals = totals_of((each.vat_rate, each.net) for each in items)
    made = replace(invoice, lines=items, totals=totals)
    return replace(job, documents=(replace(made.document(), id=1),))


def _credited(job: Job, line: int | None, pence: int) -> Job:
    asked = Credited(1, pence, "agreed", line=line)
    note = credit_note(job, asked, builders.trader(), 1, builders.DUE).document()
    invoice = replace(job.documents[0], credited=job.documents[0].credited + pence)
    return replace(job, documents=(invoice, *job.documents[1:], replace(note, id=9)))


def test_a_credit_by_line_bears_the_rate_of_that_line_alone() -> None:
    """VAT on the line's net (settled): £33.33 and £6.67; 3 of them bear £20.00, not £20.01."""
    job = _of_two_rates()
    assert [(each.at, each.left) for each in lines_left(job, job.documents[0])] == [
        (0, 40_00),
        (1, 40_00),
        (2, 40_00),
        (3, 100_00),
    ]
    note = credit_note(job, Credited(1, 40_00, "x", line=1), builders.trader(), 1, builders.DUE)
    assert note.totals.vat == (VatSum(TWENTY, 33_33, 6_67),)
    assert (note.line, note.of_line) == (1, "b")
    told = [block.rows for block in credit_note_paper(note).blocks if isinstance(block, Details)]
    assert ("Taken off", "b") in told[-1]
    none = credit_note(job, Credited(1, 25_00, "x", line=3), builders.trader(), 1, builders.DUE)
    assert none.totals.vat == (VatSum(Decimal(0), 25_00, 0),)


def test_more_than_is_left_of_a_line_is_refused_and_the_last_takes_the_last_penny() -> None:
    job = _credited(_of_two_rates(), 0, 30_00)
    with pytest.raises(Refused, match=r"£10\.00 or less: so much is left of that line"):
        _credited(job, 0, 10_01)
    job = _credited(job, 0, 10_00)
    with pytest.raises(Refused, match="All of that line is credited"):
        _credited(job, 0, 1)
    job = _credited(job, 1, 40_00)
    last, other = lines_left(job, job.documents[0])
    assert (last.at, last.left, other.left) == (2, 39_99, 100_00)
    job = _credited(_credited(job, 2, 39_99), 3, 100_00)
    assert lines_left(job, job.documents[0]) == ()
    notes = [from_json(CreditNote, each.snapshot) for each in job.documents[1:]]
    whole = from_json(Invoice, job.documents[0].snapshot).totals
    assert sum(note.totals.vat_whole for note in notes) == whole.vat_whole
    assert sum(note.totals.gross for note in notes) == whole.gross


def test_a_line_has_no_more_left_than_its_rate_after_a_credit_by_sum() -> None:
    job = _of_two_rates()
    job = _credited(job, None, job.documents[0].gross - 1_00)
    assert all(each.left <= 1_00 for each in lines_left(job, job.documents[0]))
