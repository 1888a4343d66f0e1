"""Pricing a job in the coverings it is offered in, and drafting from compare coverings."""

from dataclasses import replace
from decimal import Decimal

import pytest

from domain.errors import NotNow, Refused
from domain.estimate.compare import Unsuited, compare, draft_of, keys_beside
from domain.estimate.quoting import (
    cost_and_margin,
    kept_basis,
    option_total,
    parts_of_margin,
    price_job,
    to_pay,
)
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, CustomerKind, Stage
from tests import builders, priced

JOB = builders.ready_for(Stage.QUOTED, quotes=(priced.quote(),))
SOURCES = PricesAndStock(priced.PRICES, (), builders.VISIT)
ALL = ("square-butt", "hexagonal", "felt")


def test_without_a_survey_or_a_covering_there_is_nothing_to_price() -> None:
    bare = builders.survey(covering=None)
    for survey in (None, bare):
        with pytest.raises(NotNow, match="fill in the survey"):
            price_job(replace(JOB, survey=survey), builders.trader(), SOURCES, Decimal(12))


def test_a_draft_is_priced_anew_in_the_coverings_it_offers() -> None:
    job = replace(JOB, quotes=(priced.three_options(),))
    made = price_job(job, builders.trader(), SOURCES, Decimal(12))
    assert made == priced.three_options()


def test_what_the_screen_shows_is_what_the_quote_holds() -> None:
    job = replace(JOB, quotes=(replace(priced.quote(), deposit=50_00),))
    coverings = compare(job, builders.trader(), SOURCES)
    made = draft_of(job, coverings, ALL, builders.trader(), builders.VISIT)
    assert made == replace(priced.three_options(), deposit=50_00)
    assert keys_beside(replace(JOB, quotes=(made,))) == {"hexagonal", "felt"}
    assert keys_beside(JOB) == keys_beside(replace(JOB, survey=None)) == set()


def test_what_cannot_be_offered_is_not_drafted() -> None:
    coverings = compare(JOB, builders.trader(), SOURCES)
    least = min(option_total(option).gross for option in priced.three_options().options)
    dear = replace(JOB, quotes=(replace(priced.quote(), deposit=least + 1),))
    with pytest.raises(Refused, match="Deposit"):
        draft_of(dear, coverings, ALL, builders.trader(), builders.VISIT)
    bare = replace(JOB, survey=builders.survey(covering=None))
    with pytest.raises(NotNow, match="The survey has no covering yet"):
        draft_of(bare, coverings, (), builders.trader(), builders.VISIT)
    no_felt = (*coverings[:2], Unsuited(CoveringChoice("felt"), "It is too steep."))
    made = draft_of(JOB, no_felt, ALL, builders.trader(), builders.VISIT)
    assert made.options == priced.three_options().options[:2]
    flat = (Unsuited(CoveringChoice("square-butt"), "It is too flat."), *coverings[1:])
    with pytest.raises(NotNow, match="It is too flat"):
        draft_of(JOB, flat, ALL, builders.trader(), builders.VISIT)


def test_a_business_pays_net_and_a_householder_with_vat() -> None:
    option = priced.quote(priced.registered()).options[0]
    totals = option_total(option)
    assert totals.gross > totals.net
    business = replace(JOB, customer=builders.customer(kind=CustomerKind.BUSINESS))
    assert (to_pay(JOB, option), to_pay(business, option)) == (totals.gross, totals.net)


def test_the_parts_of_a_margin_add_up_to_it() -> None:
    for option in priced.three_options().options:
        basis = kept_basis(option.basis)
        assert basis is not None
        parts = parts_of_margin(option, basis)
        together = parts.contingency + parts.markup + parts.least
        assert together == cost_and_margin(option).pence
        assert parts.contingency > 0
