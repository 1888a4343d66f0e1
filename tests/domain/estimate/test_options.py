"""A quote of several coverings: what each is priced from, and which of them counts."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from domain.accounts.invoice import invoice_for
from domain.checks.before_quoted import BEFORE_QUOTED
from domain.errors import NotNow, Refused
from domain.estimate.job_takeoff import takeoff_of
from domain.estimate.quoting import (
    basis_of,
    in_covering_of,
    is_priced_from,
    kept_basis,
    offered,
    option_total,
)
from domain.estimate.supplies import PricesAndStock
from domain.estimate.usage import estimate
from domain.job import CoveringChoice, Job, Quote, Stage
from domain.takeoff.roof_takeoff import worked_out
from domain.units import Angle
from tests import builders, priced

GREY_FELT = CoveringChoice("felt", "slate grey")
SQUARE, HEXAGONAL, FELT = 1, 2, 3
"""The numbers of the options."""


def agreed(option_id: int) -> Quote:
    """Three options, one of them accepted."""
    made = priced.accepted(priced.three_options())
    return replace(made, acceptance=builders.acceptance(option_id=option_id))


def coverings(quote: Quote) -> list[str]:
    return [option.covering for option in quote.options]


def job_in(choice: CoveringChoice, **changes: Any) -> Job:
    survey = builders.survey(covering=choice)
    return builders.job_at(Stage.BOOKED, survey=survey, **changes)


def test_each_option_keeps_what_it_was_made_from_and_is_what_it_would_be_alone() -> None:
    made = priced.three_options()
    assert coverings(made) == ["square-butt", "hexagonal", "felt"]
    for option in made.options:
        kept = kept_basis(option.basis)
        assert kept is not None
        assert (kept.covering, kept.supplies[0].material) == (option.covering,) * 2
    alone = [
        priced.quote(takeoffs=(each,)).options[0]
        for each in (
            worked_out(priced.worked_example()),
            worked_out(priced.worked_example("hexagonal")),
            priced.in_felt(),
        )
    ]
    assert list(made.options) == alone


def test_the_covering_of_the_survey_comes_first() -> None:
    job = builders.ready_for(Stage.QUOTED, quotes=(), survey=builders.survey(covering=GREY_FELT))
    assert coverings(priced.three_options(job)) == ["felt", "square-butt", "hexagonal"]


def test_a_quote_offers_no_more_than_three() -> None:
    with pytest.raises(Refused, match=r"Coverings: .* Offer from 1 to 3\."):
        priced.quote(takeoffs=(priced.worked_example(),) * 4)


def test_the_deposit_is_no_more_than_the_least_of_the_options() -> None:
    least = min(option_total(option).gross for option in priced.three_options().options)
    whole = option_total(priced.quote().options[0]).gross
    assert least < whole
    takeoffs = (priced.worked_example(), priced.in_felt())
    assert priced.quote(deposit=least, takeoffs=takeoffs).deposit == least
    with pytest.raises(Refused, match="Deposit"):
        priced.quote(deposit=least + 1, takeoffs=takeoffs)


@pytest.mark.parametrize("taken", [SQUARE, HEXAGONAL, FELT])
def test_hours_materials_and_the_invoice_are_those_of_the_option_taken(taken: int) -> None:
    quote = agreed(taken)
    option = quote.options[taken - 1]
    basis = basis_of(quote)
    assert quote.counting == option
    assert basis == kept_basis(option.basis)
    first = estimate(quote.counting.basis)[0]
    assert first.element == ("felt" if taken == FELT else "strips")
    job = builders.job_at(Stage.LAID, quotes=(quote,))
    invoice = invoice_for(job, builders.trader(), 42, builders.SIGNED)
    assert invoice.totals == option_total(option)


def test_while_none_is_taken_the_first_counts() -> None:
    made = priced.three_options()
    assert made.counting == made.options[0]


def test_all_options_are_held_against_the_survey() -> None:
    made, survey = priced.three_options(), builders.survey()
    assert is_priced_from(made, survey)
    assert not is_priced_from(made, replace(survey, covering=GREY_FELT))
    *others, last = made.options
    old = replace(survey, old=replace(survey.old, layers=2))
    stale = replace(last, basis=builders.basis(old))
    assert not is_priced_from(replace(made, options=(*others, stale)), survey)
    unread = replace(last, basis="{}")
    assert not is_priced_from(replace(made, options=(*others, unread)), survey)


def test_what_is_priced_anew_is_in_the_same_coverings_with_the_survey_s_own_first() -> None:
    three, one = priced.three_options(), priced.quote()
    own = CoveringChoice("square-butt", "red")
    assert offered(own, ()) == (own,)
    assert offered(GREY_FELT, (one,)) == (GREY_FELT,)
    red = tuple(CoveringChoice(key, "red") for key in ("square-butt", "hexagonal", "felt"))
    assert offered(own, (one, three)) == red
    assert [choice.key for choice in offered(GREY_FELT, (three,))] == [
        "felt", "square-butt", "hexagonal",
    ]  # fmt: skip
    assert offered(GREY_FELT, (agreed(FELT),)) == (GREY_FELT,)  # the customer has chosen


def test_the_survey_follows_to_the_covering_that_is_taken() -> None:
    survey, felt = builders.survey(), agreed(FELT).counting
    assert in_covering_of(survey, felt) == replace(survey, covering=GREY_FELT)
    in_green = replace(survey, covering=CoveringChoice("felt", "green"))
    assert in_covering_of(in_green, felt) == in_green  # chosen since


def test_nothing_is_counted_in_another_covering_than_the_customer_accepted() -> None:
    sources = PricesAndStock(priced.PRICES, (), builders.VISIT)
    square = CoveringChoice("square-butt", "slate grey")
    with pytest.raises(NotNow, match="accepted felt but the survey says square butt shingles"):
        takeoff_of(job_in(square, quotes=(agreed(FELT),)), sources)
    job = job_in(CoveringChoice("felt", "green"), quotes=(agreed(FELT),))
    assert takeoff_of(job, sources).covering.key == "felt"
    waiting = job_in(square, quotes=(replace(agreed(FELT), acceptance=None),))
    assert takeoff_of(waiting, sources).covering.key == "square-butt"


def test_the_pitch_is_in_doubt_if_it_is_for_any_covering_that_is_offered() -> None:
    (pitch,) = (check for check in BEFORE_QUOTED if check.id == "pitch")
    low = replace(builders.measures(), rise=None, pitch=Angle(Fraction(12), "12°"))
    survey = builders.survey(measures=low, covering=GREY_FELT)
    (felt,) = (o for o in priced.three_options().options if o.covering == "felt")
    (square, *_) = priced.three_options().options
    alone, beside = builders.sent(options=(felt,)), builders.sent(options=(felt, square))
    for quote, holds in ((alone, True), (beside, False)):
        job = builders.job_at(Stage.QUOTED, survey=survey, quotes=(quote,))
        assert pitch.holds(builders.situation(job)) is holds
