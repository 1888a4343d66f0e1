"""The invoice for the part done of a job that is called off midway."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.accounts.calling_off import settling
from domain.accounts.invoice import deposit_invoice_for, invoice_for
from domain.accounts.part_invoice import most_for_part, part_invoice_for
from domain.errors import NotNow, Refused
from domain.job import (
    Closing,
    Ending,
    Extra,
    ExtraState,
    Job,
    Line,
    LineKind,
    Means,
    Stage,
    VatTerms,
)
from tests import builders, priced

ON = date(2026, 8, 1)


def _begun(deposit: int, *, in_writing: bool = True) -> Job:
    """A stripped job of £606.38 with a deposit invoice."""
    job = builders.job_at(Stage.STRIPPED)
    (quote,) = job.quotes
    (option, *_) = quote.options
    line = Line(LineKind.LABOUR, "the roof", Decimal(1), "hour", 0, 606_38, Decimal(0))
    taken = replace(option, lines=(line,))
    acceptance = replace(
        quote.acceptance or builders.acceptance(),
        option_id=taken.id or 0,
        request_means=Means.TEXT if in_writing else None,
    )
    quote = replace(quote, options=(taken,), deposit=deposit, acceptance=acceptance)
    job = replace(job, quotes=(quote,), documents=())
    asked = deposit_invoice_for(job, builders.trader(), 1, builders.AGREED)
    return replace(job, documents=(replace(asked.document(), id=7),))


def test_40_per_cent_done_of_606_38_is_242_55_of_which_the_deposit_asked_for_100() -> None:
    """Published check: owed £242.55, still £142.55 (reg. 34, 36: from memory; computed)."""
    job = _begun(100_00)
    closing = Closing(Ending.CALLED_OFF, "moving", ON, ON, 242_55, "stripped and sheeted")
    comes = settling(job, closing, builders.trader())
    assert (comes.invoice, comes.credits, comes.owed, comes.pay_back) == (True, (), 242_55, 0)
    invoice = part_invoice_for(job, closing, builders.trader(), 2)
    assert (invoice.totals.gross, invoice.due) == (242_55, 142_55)
    assert most_for_part(job, builders.trader(), ON) == 606_38
    with pytest.raises(Refused, match=r"606\.38"):
        settling(job, replace(closing, kept=606_39), builders.trader())


def test_agreed_extras_count_in_the_most_for_the_part_done_and_open_ones_do_not() -> None:
    extra = Extra("rotten boards", Decimal(1), "job", 42_00, Decimal(0), ExtraState.AGREED)
    waiting = replace(extra, words="more boards", state=ExtraState.OPEN)
    job = replace(_begun(100_00), extras=(extra, waiting))
    assert most_for_part(job, builders.trader(), ON) == 648_38
    closing = Closing(Ending.CALLED_OFF, "moving", ON, ON, 648_38, "all but the ridge")
    assert settling(job, closing, builders.trader()).invoice
    assert part_invoice_for(job, closing, builders.trader(), 2).totals.gross == 648_38


def test_once_closed_it_is_invoiced_no_more_and_says_how_the_part_done_is() -> None:
    job = replace(_begun(100_00), ended=Ending.CALLED_OFF)
    for ask in (invoice_for, deposit_invoice_for):
        with pytest.raises(NotNow, match=r"The job was called off\..*reopen it"):
            ask(job, builders.trader(), 2, ON)


def test_before_the_work_begins_no_more_is_kept_than_was_asked_for() -> None:
    job = replace(_begun(100_00), stripping=None)
    with pytest.raises(Refused, match=r"100\.00"):
        settling(
            job, Closing(Ending.CALLED_OFF, "moving", ON, ON, 100_01, "felt"), builders.trader()
        )


def test_work_in_the_time_to_cancel_is_not_charged_without_the_request_in_writing() -> None:
    """Without the request nothing is owed (reg. 36(1), (6): from memory)."""
    job = _begun(100_00, in_writing=False)
    soon = builders.AGREED
    closing = Closing(Ending.CALLED_OFF, "moving", soon, soon, 242_55, "stripped")
    with pytest.raises(Refused, match="never asked in writing"):
        part_invoice_for(job, closing, builders.trader(), 2)


@pytest.mark.parametrize(
    ("terms", "most", "vat"), [(VatTerms.INSIDE, 606_38, 84_40), (VatTerms.ADDED, 707_66, 101_28)]
)
def test_the_part_done_bears_vat_where_the_trader_registered_since(
    terms: VatTerms, most: int, vat: int
) -> None:
    """£100.00 was invoiced before: £506.38 holds £84.40, or has £101.28 added: computed."""
    trader = priced.registered()
    said = replace(_begun(100_00), vat_terms=terms, vat_agreed_on=date(2026, 6, 20))
    assert most_for_part(said, trader, ON) == most
    closing = Closing(Ending.CALLED_OFF, "moving", ON, ON, most, "all but the ridge")
    assert settling(said, closing, trader).invoice
    invoice = part_invoice_for(said, closing, trader, 2)
    assert (invoice.totals.gross, invoice.due) == (most, most - 100_00)
    assert invoice.totals.vat_whole == vat
    with pytest.raises(Refused, match="so much was agreed"):
        settling(said, replace(closing, kept=most + 1), trader)


def test_until_it_is_said_how_vat_stands_no_more_is_kept_than_was_agreed() -> None:
    job, trader = _begun(100_00), priced.registered()
    assert most_for_part(job, trader, ON) == 606_38
    closing = Closing(Ending.CALLED_OFF, "moving", ON, ON, 300_00, "stripped")
    with pytest.raises(NotNow, match="inside the agreed price or added"):
        part_invoice_for(job, closing, trader, 2)
