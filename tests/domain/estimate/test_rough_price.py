from decimal import Decimal
from fractions import Fraction

import pytest

from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.estimate.rough_price import read_nominal, rough_price
from domain.estimate.supplies import PricesAndStock
from tests import builders
from tests.priced import PRICES, quote, registered

SOURCES = PricesAndStock(PRICES, (), builders.VISIT)


@pytest.mark.parametrize(
    ("text", "length", "span"),
    [
        # 1 ft = 304.8 mm (exact definition); bare whole numbers are feet, common practice.
        ("8 x 6", "2438.4", "1828.8"),
        ("8x6 ft", "2438.4", "1828.8"),
        ("8 ft by 6 ft", "2438.4", "1828.8"),
        ("8' × 6'", "2438.4", "1828.8"),
        ("2.4 x 1.8 m", "2400", "1800"),
        ("2400 mm X 1.8m", "2400", "1800"),
        (" 10 ft x 8 ft 6 in ", "3048", "2590.8"),
    ],
)
def test_nominal_sizes_as_they_are_said(text: str, length: str, span: str) -> None:
    read = read_nominal("Size", text)
    assert [side.mm for side in read] == [Fraction(length), Fraction(span)]


@pytest.mark.parametrize(
    "text",
    [
        *("", "8", "8 x", "x 6", "8 x 6 x 4", "2.4 x 1.8", "2400 x 1800", "8 x 6 kg", "0 x 6 ft"),
        *("8 x 6 ft 2 in", "big", "[/] x [b]", "8 x " * 1000, "8 ft x -6 ft"),
    ],
)
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(Refused, match=r"^Size(: | is empty\.)"):
        read_nominal("Size", text)


def test_the_rough_price_is_near_the_quote_of_the_same_shed() -> None:
    size = read_nominal("Size", "2.4 x 1.8 m")
    rough = rough_price(*size, builders.trader(), SOURCES, Decimal(12))
    exact = option_total(quote().options[0]).gross
    assert rough % 10_00 == 0
    assert 0.9 * exact <= rough <= 1.15 * exact


def test_the_rough_price_has_vat_in_it_and_grows_with_the_roof() -> None:
    small = read_nominal("Size", "8 x 6")
    assert rough_price(*small, registered(), SOURCES) > rough_price(
        *small, builders.trader(), SOURCES
    )
    assert rough_price(*read_nominal("Size", "12 x 8"), builders.trader(), SOURCES) > rough_price(
        *small, builders.trader(), SOURCES
    )


def test_a_rough_price_needs_prices_and_a_possible_size() -> None:
    with pytest.raises(NotNow, match="bitumen mastic"):
        rough_price(
            *read_nominal("Size", "8 x 6"),
            builders.trader(),
            PricesAndStock(PRICES[:4], (), builders.VISIT),
        )
    with pytest.raises(Refused, match="Span: "):
        rough_price(*read_nominal("Size", "8 ft x 60 mm"), builders.trader(), SOURCES)
