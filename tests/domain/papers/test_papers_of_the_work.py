"""An extra to sign, the guarantee, the waste transfer note: what each says, and when there is none.

What a transfer note must hold: Waste (England and Wales) Regulations 2011 reg. 35, read; the codes
on it are from memory.
"""

from dataclasses import replace
from decimal import Decimal

import pytest

from domain.accounts.invoice import invoice_for
from domain.errors import NotNow
from domain.job import (
    CustomerKind,
    Extra,
    ExtraState,
    Job,
    Means,
    OldCovering,
    OldKind,
    Sample,
    SignOff,
    Suspicion,
)
from domain.money import show_money
from domain.papers.blocks import FillIn, Paper, Signature, Totals
from domain.papers.extra_paper import extra_paper
from domain.papers.guarantee_paper import guarantee_paper
from domain.papers.quote_paper import quote_paper
from domain.papers.waste_note import waste_note
from domain.trader import Trader
from tests import builders
from tests.domain.papers.reading import words_of
from tests.priced import accepted, laid_job, quote, registered

BUSINESS = builders.customer(kind=CustomerKind.BUSINESS)


def _with_extra(trader: Trader, customer: object = None, **changes: object) -> Job:
    """A job with 3 m of boards at the quote's £14.00 a metre before VAT, still to agree."""
    plain = Extra("rotten boards", Decimal(3), "m", 42_00, Decimal(20 * trader.vat_registered))
    extra = replace(plain, **changes)  # type: ignore[arg-type] # the keys are the test's
    job = laid_job(quote(trader), customer=customer or builders.customer())
    return replace(job, extras=(extra,))


def _totals(paper: Paper) -> dict[str, str]:
    return dict(next(block for block in paper.blocks if isinstance(block, Totals)).rows)


@pytest.mark.parametrize(
    ("trader", "customer", "line", "price"),
    [
        (builders.trader(), builders.customer(), "3 m at £14.00 per metre", "£42.00"),
        (registered(), builders.customer(), "3 m at £16.80 per metre", "£50.40"),
        (registered(), BUSINESS, "3 m at £14.00 per metre", "£50.40"),
    ],
)
def test_an_extra_is_put_to_the_customer_in_their_terms_with_a_place_to_sign(
    trader: Trader, customer: object, line: str, price: str
) -> None:
    job = _with_extra(trader, customer)
    paper = extra_paper(job, trader)
    assert line in words_of(paper)
    assert any(isinstance(block, Signature) for block in paper.blocks)
    included = ", including VAT" if trader.vat_registered else ""
    assert _totals(paper)[f"Extra work{included}"] == price
    assert paper.letter is not None
    assert line in paper.letter.short
    assert "reply yes before we start" in paper.letter.short
    agreed = replace(job.extras[0], state=ExtraState.AGREED, agreed_by="Mrs Adeyemi")
    billed = invoice_for(replace(job, extras=(agreed,)), trader, 42, builders.SIGNED)
    assert _totals(paper)[f"New total{included}"] == show_money(billed.due)


def test_what_is_agreed_says_so_and_asks_for_no_signature() -> None:
    job = _with_extra(
        builders.trader(),
        state=ExtraState.AGREED,
        agreed_by="Mrs Adeyemi",
        agreed_on=builders.LAY_DAY,
        means=Means.TEXT,
    )
    paper = extra_paper(job, builders.trader())
    assert "by Mrs Adeyemi, text, Wed 24 Jun 2026" in words_of(paper)
    assert not any(isinstance(block, Signature) for block in paper.blocks)


def test_an_extra_that_is_not_charged_is_put_to_nobody() -> None:
    with pytest.raises(NotNow, match="no extra to agree"):
        extra_paper(_with_extra(builders.trader(), state=ExtraState.NOT_CHARGED), builders.trader())


def test_a_guarantee_is_beside_the_legal_rights_and_says_how_to_claim() -> None:
    until = builders.SIGNED.replace(year=2031)
    done = SignOff("Mrs Adeyemi", builders.SIGNED, until, "workmanship, not storm damage")
    paper = guarantee_paper(laid_job(quote(), sign_off=done), builders.trader())
    said = words_of(paper)
    for wanted in (
        "in addition to your legal rights",
        "until Wed 25 Jun 2031",
        "Workmanship, not storm damage",
        "01632 960100",
    ):
        assert wanted in said
    assert paper.letter is not None
    assert "in addition to your legal rights" in paper.letter.short


@pytest.mark.parametrize("done", [None, SignOff("Mrs Adeyemi", builders.SIGNED)])
def test_without_a_last_day_there_is_no_guarantee(done: SignOff | None) -> None:
    with pytest.raises(NotNow, match="no guarantee yet"):
        guarantee_paper(laid_job(quote(), sign_off=done), builders.trader())


def test_the_quote_gives_the_guarantee_of_the_traders_details() -> None:
    job = laid_job(quote())
    assert job.quote is not None
    draft = replace(job.quote, sent_as="", sent_on=None)
    for years, words in ((0, "Any guarantee we give in writing is"), (5, "for 5 years")):
        said = words_of(quote_paper(job, draft, builders.trader(guarantee_years=years)))
        assert words in said
        assert "in addition to your legal rights" in said


def _stripped(**old: object) -> Job:
    job = laid_job(accepted(quote()))
    assert job.survey is not None
    covering = OldCovering(**old)  # type: ignore[arg-type] # the keys are the test's
    return replace(job, survey=replace(job.survey, old=covering))


def test_a_transfer_note_says_what_is_known_and_leaves_a_line_for_the_rest() -> None:
    job = _stripped(kind=OldKind.FELT, suspicion=Suspicion.AFTER)
    paper = waste_note(job, builders.trader())
    said = words_of(paper)
    for wanted in (
        "Old roofing felt, bituminous",
        "CBDU000001",
        "43910",
        "17 03 02",
        "checked with whoever takes it",
        "waste hierarchy",
        "two years",
    ):
        assert wanted in said
    assert sum(isinstance(block, Signature) for block in paper.blocks) == 2
    lines = [row for block in paper.blocks if isinstance(block, FillIn) for row in block.rows]
    assert "Date and time" in lines
    assert "How much, in kg" not in lines


def test_what_the_book_does_not_know_is_asked_on_the_note() -> None:
    job = _stripped(kind=OldKind.OTHER, suspicion=Suspicion.AFTER)
    assert job.stripping is not None
    job = replace(job, stripping=replace(job.stripping, waste_kg=None, waste_to=""))
    paper = waste_note(job, builders.trader(waste_carrier="", nation="Scotland"))
    lines = [row for block in paper.blocks if isinstance(block, FillIn) for row in block.rows]
    for wanted in ("What it is", "How much, in kg", "Waste carrier registration"):
        assert wanted in lines
    assert "17 03 02" not in words_of(paper)
    assert "regulation 12" not in words_of(paper)


@pytest.mark.parametrize(
    "old",
    [
        {"kind": OldKind.CEMENT_SHEET},
        {"kind": OldKind.FELT, "suspicion": Suspicion.BEFORE},
        {"kind": OldKind.FELT, "sample": Sample.FOUND},
    ],
)
def test_asbestos_is_never_on_a_transfer_note(old: dict[str, object]) -> None:
    with pytest.raises(NotNow, match="consignment note"):
        waste_note(_stripped(**old), builders.trader())


def test_what_was_suspect_underneath_is_on_no_transfer_note() -> None:
    job = _stripped(kind=OldKind.FELT, suspicion=Suspicion.AFTER)
    assert job.stripping is not None
    suspect = replace(job, stripping=replace(job.stripping, suspect=True))
    with pytest.raises(NotNow, match="consignment note"):
        waste_note(suspect, builders.trader())
    with pytest.raises(NotNow, match="not stripped yet"):
        waste_note(replace(job, stripping=None), builders.trader())
