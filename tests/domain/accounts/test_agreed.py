"""What a customer agreed to, and what the invoice comes to: to the penny."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.agreed import agreed_sums
from domain.estimate.extra_terms import Terms, net_of, terms_of
from domain.estimate.quoting import option_total
from domain.job import CustomerKind, Extra, ExtraState, Job, Line, LineKind, Stage
from domain.money import times
from domain.tax import vat_in
from tests import builders, priced

TWENTY = Decimal(20)


def _job(kind: CustomerKind, nets: list[int], *extras: Extra, deck_rate: int = 14_33) -> Job:
    job = builders.job_at(Stage.LAID)
    (quote,) = job.quotes
    lines = tuple(
        Line(LineKind.LABOUR, f"Work {n}", Decimal(1), "job", 0, net, TWENTY)
        for n, net in enumerate(nets)
    )
    option = replace(quote.counting, lines=lines)
    quote = replace(quote, options=(option,), deck_rate=deck_rate)
    customer = replace(job.customer, kind=kind)
    return replace(job, quotes=(quote,), customer=customer, extras=extras)


def _boards(metres: str, deck_rate: int = 14_33) -> Extra:
    quantity = Decimal(metres)
    price = times(deck_rate, quantity)
    return Extra("boards found rotten", quantity, "m", price, TWENTY, ExtraState.AGREED)


def test_a_householder_pays_what_was_agreed_with_vat_inside() -> None:
    # Source: computed in the money checks: £480.00 + 3 m × £17.20 = £531.60, which holds £88.60
    # by the VAT fraction 1/6; net first gives £531.59.
    job = _job(CustomerKind.HOUSEHOLDER, [400_00], _boards("3"))
    agreed = agreed_sums(job, job.quotes[0].counting, registered=True)
    totals = agreed.totals
    assert (totals.gross, totals.vat_whole, totals.net) == (531_60, 88_60, 443_00)
    assert sum(line.net for line in agreed.lines) == 443_00
    assert agreed.lines[0].net == 400_01


def test_an_extra_told_with_vat_inside_is_charged_as_it_was_told() -> None:
    told = replace(_boards("3"), price=51_60, with_vat=True)
    lump = Extra("a new vent", Decimal(1), "job", 99_99, TWENTY, ExtraState.AGREED, with_vat=True)
    job = _job(CustomerKind.HOUSEHOLDER, [400_00], told, lump)
    agreed = agreed_sums(job, job.quotes[0].counting, registered=True)
    assert agreed.totals.gross == 480_00 + 51_60 + 99_99
    assert [line.quantity for line in agreed.lines[-2:]] == [3, 1]
    # Source: £99.99 holds £16.67 by the VAT fraction (computed in the money checks).
    assert net_of(lump) == 83_32


def test_the_terms_of_a_householder_are_what_the_quote_showed() -> None:
    job = _job(CustomerKind.HOUSEHOLDER, [400_00])
    assert terms_of(job, priced.registered()) == Terms(17_20, with_vat=True)
    assert terms_of(job, builders.trader()) == Terms(14_33, with_vat=False)
    business = _job(CustomerKind.BUSINESS, [400_00])
    assert terms_of(business, priced.registered()) == Terms(14_33, with_vat=False)


def test_a_business_pays_net_lines_and_vat_on_their_sum() -> None:
    job = _job(CustomerKind.BUSINESS, [400_00], _boards("3"))
    totals = agreed_sums(job, job.quotes[0].counting, registered=True).totals
    assert (totals.net, totals.vat_whole, totals.gross) == (442_99, 88_60, 531_59)


def test_without_vat_there_is_none_inside() -> None:
    job = _job(CustomerKind.HOUSEHOLDER, [400_00], _boards("3"))
    option = replace(
        job.quotes[0].counting,
        lines=tuple(replace(each, vat_rate=Decimal(0)) for each in job.quotes[0].counting.lines),
    )
    totals = agreed_sums(job, option, registered=False).totals
    assert (totals.net, totals.gross) == (442_99, 442_99)


@given(
    st.lists(st.integers(1, 90_000), min_size=1, max_size=4),
    st.decimals(Decimal("0.1"), Decimal(30), places=1),
    st.integers(1, 60_00),
)
def test_the_whole_is_the_quote_as_shown_and_the_metres_as_shown(
    nets: list[int], metres: Decimal, deck_rate: int
) -> None:
    job = _job(CustomerKind.HOUSEHOLDER, nets, _boards(str(metres), deck_rate), deck_rate=deck_rate)
    option = job.quotes[0].counting
    agreed = agreed_sums(job, option, registered=True)
    # The rate as the quote shows it: half up, reckoned here in whole tenths of a penny.
    shown = (deck_rate * 12 + 5) // 10
    assert agreed.totals.gross == option_total(option).gross + times(shown, metres)
    assert agreed.totals.vat_whole == vat_in(agreed.totals.gross, TWENTY)
    assert agreed.totals.net == sum(line.net for line in agreed.lines)
