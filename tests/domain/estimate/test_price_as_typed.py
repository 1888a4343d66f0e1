"""A price typed with VAT is kept so, and everything bought at it comes to what is paid."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from domain.accounts.cis import materials_used
from domain.coverings.materials import Material
from domain.estimate.basis import read_basis
from domain.estimate.ordering import MerchantList, OrderLine
from domain.estimate.stock import Price
from domain.job import Option, Usage
from domain.snapshot import from_json, to_json
from domain.tax import vat_in
from tests import builders, priced

# £9.99 holds £1.67 of VAT at 20 %: computed. £8.32 and its VAT come to £9.98.
TYPED = replace(priced.price(Material.MASTIC, 8_32, "1"), vat_rate=Decimal(20), with_vat=9_99)


def test_what_is_bought_comes_to_the_sums_typed_and_what_is_reclaimed_is_inside_them() -> None:
    assert TYPED.cost(6, reclaims_vat=False) == 59_94
    assert TYPED.cost(6, reclaims_vat=True) == 59_94 - 9_99
    before = replace(TYPED, with_vat=None)
    assert (before.cost(6, reclaims_vat=True), before.cost(6, reclaims_vat=False)) == (49_92, 59_90)


@given(st.integers(1, 10**6), st.integers(1, 40))
def test_a_price_with_vat_is_a_penny_off_in_no_case(pence: int, packs: int) -> None:
    price = replace(TYPED, net=pence - vat_in(pence, Decimal(20)), with_vat=pence)
    assert price.gross == pence
    assert price.cost(packs, reclaims_vat=False) == packs * pence


def test_an_order_comes_to_what_the_merchant_asks() -> None:
    typed = OrderLine(Material.MASTIC, "", 6, TYPED, ())
    before = OrderLine(Material.MASTIC, "", 2, replace(TYPED, with_vat=None), ())
    order = MerchantList("Quayside", (typed, before))
    assert (order.net, order.vat) == (49_95 + 16_64, 9_99 + 3_33)
    assert typed.cost(registered=False) == 59_94


def test_a_quote_kept_before_prices_were_kept_as_typed_is_read_as_it_was() -> None:
    before = replace(TYPED, with_vat=None)
    older = to_json(before).replace(',"with_vat":null', "")
    assert "with_vat" not in older
    assert from_json(Price, older) == before


def test_materials_under_a_deduction_are_those_of_the_price_as_typed() -> None:
    """Materials count as directly paid, with the VAT paid (HMRC CISR15060, CISR15100: read)."""
    made = priced.accepted(priced.quote(builders.trader()))
    strips = Usage("strips", "strip", Decimal(21), Decimal(21))
    net, vat = materials_used(priced.laid_job(made, usages=(strips,)))
    other = replace(made, options=tuple(map(_typed_with_vat, made.options)))
    told = materials_used(priced.laid_job(other, usages=(strips,)))
    assert sum(told) == net + vat - 1


def _typed_with_vat(option: Option) -> Option:
    """The strips of a basis, typed at a penny less with VAT than they were before it."""
    basis = read_basis(option.basis)
    supplies = tuple(
        replace(each, price=replace(each.price, net=31_49, with_vat=37_79))
        if each.price.net == 31_50
        else each
        for each in basis.supplies
    )
    return replace(option, basis=to_json(replace(basis, supplies=supplies)))
