"""A trader who registers for VAT between quote and invoice: inside the price, or added to it.

That a price which says nothing of VAT includes it: VAT Act 1994 s. 19(2), memory. Sums: computed.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from domain.accounts.invoice import Invoice, deposit_invoice_for, invoice_for
from domain.accounts.vat_since import asks_for_vat_terms, demand_terms
from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.job import CustomerKind, Extra, ExtraState, Job, VatTerms
from domain.money import share
from domain.papers.invoice_paper import invoice_paper
from domain.tax import vat_in
from tests import builders
from tests.domain.papers.reading import words_of
from tests.priced import accepted, laid_job, quote, registered

WRITTEN_ON = date(2026, 6, 20)
RATE = Decimal(20)


def _job(terms: VatTerms | None, kind: CustomerKind = CustomerKind.HOUSEHOLDER) -> Job:
    """A job agreed for £480.00 without VAT."""
    made = quote(builders.trader(), deposit=100_00)
    own = replace(made, options=(replace(made.options[0], own_gross=480_00),))
    on = WRITTEN_ON if terms is VatTerms.ADDED else None
    job = laid_job(accepted(own), customer=builders.customer(kind=kind))
    return replace(job, vat_terms=terms, vat_agreed_on=on)


def _sums(made: Invoice) -> tuple[int, int, int]:
    return made.totals.net, made.totals.vat_whole, made.totals.gross


@pytest.mark.parametrize("kind", [CustomerKind.HOUSEHOLDER, CustomerKind.BUSINESS])
@pytest.mark.parametrize(
    ("terms", "sums"),
    [
        (VatTerms.INSIDE, (400_00, 80_00, 480_00)),
        (VatTerms.ADDED, (480_00, 96_00, 576_00)),
    ],
)
def test_the_invoice_comes_to_what_was_agreed_with_vat_inside_or_added(
    kind: CustomerKind, terms: VatTerms, sums: tuple[int, int, int]
) -> None:
    made = invoice_for(_job(terms, kind), registered(), 42, builders.SIGNED)
    assert _sums(made) == sums
    assert sum(line.net for line in made.lines) == sums[0]
    said = words_of(invoice_paper(made))
    assert "We registered for VAT after we agreed" in said
    assert ("in writing on Sat 20 Jun 2026" in said) is (terms is VatTerms.ADDED)
    assert "VAT number 980780684" in said


def test_an_extra_of_before_goes_as_the_quote_and_one_told_since_as_it_was_told() -> None:
    before = Extra("a", Decimal(1), "job", 38_00, Decimal(0), ExtraState.AGREED)
    since = Extra("b", Decimal(1), "job", 60_00, RATE, ExtraState.AGREED, with_vat=True)
    for terms, quoted in (
        (VatTerms.INSIDE, 518_00),
        (VatTerms.ADDED, 518_00 + share(518_00, RATE)),
    ):
        job = replace(_job(terms), extras=(before, since))
        made = invoice_for(job, registered(), 42, builders.SIGNED)
        assert made.due == quoted + 60_00
        assert made.totals.vat_whole == vat_in(made.due, RATE)


@pytest.mark.parametrize(
    ("terms", "due", "vat"),
    [(VatTerms.INSIDE, 380_00, 63_33), (VatTerms.ADDED, 456_00, 76_00)],
)
def test_what_was_invoiced_before_stays_without_vat(terms: VatTerms, due: int, vat: int) -> None:
    job = _job(None)
    first = deposit_invoice_for(job, builders.trader(), 41, builders.AGREED).document()
    on = WRITTEN_ON if terms is VatTerms.ADDED else None
    billed = replace(job, documents=(replace(first, id=1),), vat_terms=terms, vat_agreed_on=on)
    made = invoice_for(billed, registered(), 42, builders.SIGNED)
    assert (made.due, made.totals.vat_whole) == (due, vat)
    assert sum(line.net for line in made.lines) == made.totals.net
    assert "380.00" in words_of(invoice_paper(made)) or terms is VatTerms.ADDED


def test_it_is_asked_once_and_only_where_the_trader_registered_since() -> None:
    job = _job(None)
    assert asks_for_vat_terms(job, registered())
    assert not asks_for_vat_terms(job, builders.trader())
    assert not asks_for_vat_terms(_job(VatTerms.INSIDE), registered())
    with pytest.raises(NotNow, match="inside the agreed price or added"):
        invoice_for(job, registered(), 42, builders.SIGNED)
    with pytest.raises(Refused, match="in writing"):
        demand_terms(job, registered(), VatTerms.ADDED, None)
    with pytest.raises(NotNow, match="bears VAT already"):
        demand_terms(laid_job(quote(registered())), registered(), VatTerms.INSIDE, None)
    rated = laid_job(quote(registered()))
    with pytest.raises(
        NotNow, match="no longer registered for it: make a new version on the quote page"
    ):
        invoice_for(rated, builders.trader(), 42, builders.SIGNED)
    assert option_total(rated.quote.accepted).rated  # type: ignore[union-attr, arg-type] # priced
