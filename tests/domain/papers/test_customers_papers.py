"""No paper that a customer sees tells what the job costs or earns the trader, or by which rates.

The jobs are the demo's, each drafted for a trader who is registered for VAT and one who is not.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.accounts.counter_entries import GivenBack, counter_note
from domain.accounts.credit_note import Credited, credit_note
from domain.accounts.invoice import invoice_for
from domain.accounts.receipt import receipt_for
from domain.accounts.transfer import OpenInvoice
from domain.estimate.basis import PricingBasis
from domain.estimate.earned import earned
from domain.estimate.pricing import option_of
from domain.estimate.quoting import cost_and_margin
from domain.estimate.usage import estimate
from domain.job import (
    CustomerKind,
    DocumentKind,
    Extra,
    ExtraState,
    Job,
    LineKind,
    Option,
    Payment,
    Quote,
    SignOff,
    Stage,
)
from domain.money import share, show_money
from domain.papers.blocks import Paper
from domain.papers.confirmation_paper import confirmation_paper
from domain.papers.counter_paper import counter_paper
from domain.papers.credit_note_paper import credit_note_paper
from domain.papers.extra_paper import extra_paper
from domain.papers.guarantee_paper import guarantee_paper
from domain.papers.invoice_paper import invoice_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.reminder_paper import second_reminder
from domain.papers.statement_paper import statement_of, statement_paper
from domain.papers.waste_note import waste_note
from domain.quantity import show_amount
from domain.snapshot import from_json
from domain.trader import Trader
from tests import builders
from tests.domain.papers.reading import words_of
from tests.laid_out_once import each_roof_once, jobs_of
from tests.priced import accepted, registered
from tui.papers.as_issued import paper_as_issued

_MEASURED = re.compile(r"(?<!× )(?<!of )(?<![0-9.])[0-9.]+ m\b")
"""Metres, but for those of how large the building is."""
_FASCIA = Extra("a new fascia", Decimal(1), "job", 138_00, Decimal(0))
TRADERS = (builders.trader(vat_number=""), registered())


@pytest.fixture(scope="module")
def jobs(demo: Path) -> list[Job]:
    """The demo's jobs that have a quote, each roof once and every one with an extra."""
    told = jobs_of(demo)
    roofs = each_roof_once(told)
    return [job for job in told if job.quotes and (job in roofs or job.extras)]


def _drafted(quote: Quote, trader: Trader) -> Quote:
    """The quote made anew from what it keeps, with the trader's VAT and boards to replace."""
    return replace(quote, options=tuple(_option(each, trader) for each in quote.options))


def _option(option: Option, trader: Trader) -> Option:
    basis = from_json(PricingBasis, option.basis)
    basis = replace(
        basis,
        vat_registered=trader.vat_registered,
        vat_rate=Decimal(20 if trader.vat_registered else 0),
        quantities=replace(basis.quantities, deck=Decimal("4.2")),
    )
    return replace(option_of(basis), id=option.id)


def _papers(job: Job, quote: Quote, trader: Trader) -> Iterator[Paper]:
    """The quote as a draft, to a householder and to a business, and its invoice."""
    for kind in CustomerKind.HOUSEHOLDER, CustomerKind.BUSINESS:
        asked = replace(job, customer=replace(job.customer, kind=kind))
        yield quote_paper(asked, quote, trader)
    laid = builders.job_at(Stage.LAID, quotes=(accepted(quote),), extras=job.extras)
    yield invoice_paper(invoice_for(laid, trader, 42, builders.SIGNED))
    done = SignOff("Mrs Adeyemi", builders.SIGNED, builders.DUE)
    laid = replace(laid, extras=(*job.extras, _FASCIA), sign_off=done)
    for make in (confirmation_paper, extra_paper, guarantee_paper, waste_note):
        yield make(laid, trader)
    yield from _once_it_is_owed(laid, trader)


def _once_it_is_owed(job: Job, trader: Trader) -> Iterator[Paper]:
    """What follows an invoice: asked for again, credited, cancelled, paid back."""
    settled = replace(job, extras=tuple(e for e in job.extras if e.state is ExtraState.AGREED))
    owed = replace(invoice_for(settled, trader, 42, builders.SIGNED).document(), id=1)
    on = builders.DUE + timedelta(days=21)
    yield second_reminder(owed, on)
    opened = OpenInvoice(1, job.ref, job.site.place, owed)
    yield statement_paper(statement_of(job.customer, [opened], 0, trader, on), "")
    came = Payment(builders.SIGNED, 50_00, "cash", id=1)
    receipt = replace(receipt_for(job, came, trader, 1, builders.SIGNED).document(), id=2)
    billed = replace(settled, documents=(owed, receipt), payments=(came,))
    asked = Credited(1, 60_00, "two metres of boards too many")
    yield credit_note_paper(credit_note(billed, asked, trader, 1, on))
    for kind in (DocumentKind.MISTAKE, DocumentKind.REFUND):
        back = GivenBack(kind, 1, 50_00, on, "cheque returned")
        yield counter_paper(counter_note(billed, back, trader, 1, on))


def _secrets(quote: Quote) -> set[str]:
    """Every figure of cost, markup, contingency, hours and rate, as a paper would show it."""
    laid = builders.job_at(Stage.LAID, quotes=(accepted(quote),))
    made = earned(laid, estimate(quote.options[0].basis))
    assert made is not None
    return set().union(*map(_secrets_of, quote.options)) | {show_money(made.pence), "earned"}


def _secrets_of(option: Option) -> set[str]:
    basis, margin = from_json(PricingBasis, option.basis), cost_and_margin(option)
    rates = basis.rates
    hidden = [line for line in option.lines if line.kind is not LineKind.DECK]  # its rate is named
    at_cost = sum(line.cost for line in hidden)
    sums = {rates.hour, rates.mile, rates.disposal_kg, margin.cost, margin.pence, at_cost}
    sums |= {line.cost for line in hidden} | {share(at_cost, rates.contingency)}
    sums |= {supply.price.net for supply in basis.supplies}
    shown = {show_money(pence) for pence in sums if pence}
    shown |= {show_amount(line.quantity, line.unit) for line in hidden}
    return shown | {"cost", "markup", "contingency", "margin", "per hour", "an hour"}


def _told(paper: Paper, quote: Quote) -> set[str]:
    """What of it the paper tells, or what goes with it."""
    assert paper.letter is not None
    said = (words_of(paper), paper.letter.subject, paper.letter.text, paper.letter.short)
    words = "\n".join(said).casefold()
    return {each for each in _secrets(quote) if re.search(rf"(?<![\w,.]){each}(?![\w])", words)}


@pytest.mark.parametrize("trader", TRADERS)
def test_no_draft_and_no_invoice_tells_cost_or_rate(jobs: list[Job], trader: Trader) -> None:
    assert len(jobs) > 10
    assert any(len(job.quotes[-1].options) > 1 for job in jobs)
    for job in jobs:
        quote = _drafted(job.quotes[-1], trader)
        for paper in _papers(job, quote, trader):
            assert _told(paper, quote) == set(), (job.ref, paper.title)


@pytest.mark.parametrize("trader", TRADERS)
def test_only_boards_at_the_named_rate_are_measured(jobs: list[Job], trader: Trader) -> None:
    for job in jobs:
        quote = _drafted(job.quotes[-1], trader)
        measured = {"4.2 m", *(show_amount(extra.quantity, "m") for extra in job.extras)}
        for paper in _papers(job, quote, trader):
            words = words_of(paper)
            assert set(_MEASURED.findall(words)) <= measured
            assert "1 job" not in words


def test_the_papers_that_were_issued_tell_neither(jobs: list[Job]) -> None:
    issued = [(job, document) for job in jobs for document in job.documents]
    assert issued
    for job, document in issued:
        assert job.quote is not None
        assert _told(paper_as_issued(document, job.customer), job.quote) == set(), (
            job.ref,
            document.label,
        )
