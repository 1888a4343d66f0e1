"""The trader's own price instead of the one worked out."""

from dataclasses import replace

import pytest

from domain.accounts.agreed import agreed_sums
from domain.errors import Refused
from domain.estimate.quoting import at_own_price, cost_and_margin, option_total, own_over
from domain.estimate.scope import items_of
from domain.job import CustomerKind, Job, Option
from tests import builders, priced

HOUSEHOLDER = priced.laid_job(priced.quote(priced.registered()))
BUSINESS = replace(HOUSEHOLDER, customer=builders.customer(kind=CustomerKind.BUSINESS))


def _option(job: Job, price: int) -> Option:
    (option,) = at_own_price(job, job.quotes[-1], price).options
    return option


@pytest.mark.parametrize(
    ("price", "net", "vat"),
    [
        # VAT Notice 700 §7.3.1, VAT fraction 1/6 at 20 %: from memory; the sums computed.
        (480_00, 400_00, 80_00),
        (99_99, 83_32, 16_67),
        (100_00, 83_33, 16_67),
    ],
)
def test_a_householders_price_holds_its_vat_and_the_invoice_comes_to_it(
    price: int, net: int, vat: int
) -> None:
    option = _option(HOUSEHOLDER, price)
    totals = option_total(option)
    assert (totals.gross, totals.net, totals.vat[0].vat) == (price, net, vat)
    agreed = agreed_sums(replace(HOUSEHOLDER, extras=()), option, registered=True)
    assert agreed.totals.gross == price
    assert sum(line.net for line in agreed.lines) == net
    assert all(line.net >= 0 for line in agreed.lines)


def test_a_business_is_asked_a_price_before_vat() -> None:
    option = _option(BUSINESS, 400_00)
    assert (option_total(option).net, option_total(option).gross) == (400_00, 480_00)
    agreed = agreed_sums(replace(BUSINESS, extras=()), option, registered=True)
    assert (agreed.totals.net, agreed.totals.gross) == (400_00, 480_00)


def test_the_difference_is_told_and_is_part_of_the_margin() -> None:
    (before,) = HOUSEHOLDER.quotes[-1].options
    option = _option(HOUSEHOLDER, option_total(before).gross + 12_00)
    assert (own_over(before), own_over(option)) == (0, 10_00)
    assert cost_and_margin(option).pence == cost_and_margin(before).pence + 10_00
    assert sum(item.net for item in items_of(option)) == option_total(option).net


def test_one_price_is_no_price_for_several_coverings() -> None:
    several = priced.three_options()
    with pytest.raises(Refused, match="Offer one covering"):
        at_own_price(HOUSEHOLDER, several, 400_00)
    with pytest.raises(Refused, match=r"over £0\.00"):
        _option(HOUSEHOLDER, 0)
