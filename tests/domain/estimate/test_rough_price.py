from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.estimate.rough_price import Rough, read_rough_roof, rough_price
from domain.estimate.supplies import PricesAndStock
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off
from domain.takeoff.surveyfile import read_survey_file
from domain.trader import Trader
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
    read = read_rough_roof("Size", text)
    assert [read.length.mm, read.span.mm] == [Fraction(length), Fraction(span)]
    assert read.form is RoofForm.APEX


@pytest.mark.parametrize(
    "text",
    [
        *("", "8", "8 x", "x 6", "8 x 6 x 4", "2.4 x 1.8", "2400 x 1800", "8 x 6 kg", "0 x 6 ft"),
        *("8 x 6 ft 2 in", "big", "[/] x [b]", "8 x " * 1000, "8 ft x -6 ft"),
    ],
)
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(Refused, match=r"^Size(: | is empty\.)"):
        read_rough_roof("Size", text)


@pytest.mark.parametrize(
    ("text", "length", "span", "form", "sides"),
    [
        ("8x6 apex", "2438.4", "1828.8", RoofForm.APEX, 4),
        ("8x6 pent", "2438.4", "1828.8", RoofForm.PENT, 4),
        ("8 x 6 ft, Lean-To", "2438.4", "1828.8", RoofForm.LEAN_TO, 4),
        ("8x6 eaves 8", "2438.4", "1828.8", RoofForm.APEX, 4),
        ("8x6 eaves 6", "1828.8", "2438.4", RoofForm.APEX, 4),
        ("2.4 x 1.8 m pent, eaves 1.8", "1800", "2400", RoofForm.PENT, 4),
        ("3.6 x 2.4 m hip", "3600", "2400", RoofForm.HIP, 4),
        ("2.4 x 3.6 m hip", "3600", "2400", RoofForm.HIP, 4),  # the ridge runs the longer way
        ("8 ft octagon", "2438.4", "2438.4", RoofForm.PYRAMID, 8),
        ("8 octagon", "2438.4", "2438.4", RoofForm.PYRAMID, 8),
        ("2 m hexagon", "2000", "2000", RoofForm.PYRAMID, 6),
        ("2.4 x 2.4 m pyramid", "2400", "2400", RoofForm.PYRAMID, 4),
    ],
)
def test_the_form_and_the_eaves_are_said_with_the_size(
    text: str, length: str, span: str, form: RoofForm, sides: int
) -> None:
    read = read_rough_roof("Size", text)
    assert [read.length.mm, read.span.mm] == [Fraction(length), Fraction(span)]
    assert (read.form, read.sides) == (form, sides)


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("8x6 eaves 7", "The eaves are one of the two sides: 8 ft or 6 ft."),
        ("8x6 octagon", "Give it as wide one way as the other: 8 ft octagon."),
        ("8x6 cone", "Give"),
        ("octagon", "Give"),
        ("eaves 8", "Give"),
    ],
)
def test_what_does_not_go_together_is_refused(text: str, remedy: str) -> None:
    with pytest.raises(Refused, match=r"^Size: ") as refused:
        read_rough_roof("Size", text)
    assert remedy in str(refused.value)


def _rough(text: str, trader: Trader | None = None, miles: int = 0) -> Rough:
    told = read_rough_roof("Size", text)
    return rough_price(told, trader or builders.trader(), SOURCES, Decimal(miles))


def test_the_rough_price_is_near_the_quote_of_the_same_shed() -> None:
    rough = _rough("2.4 x 1.8 m", miles=12)
    exact = option_total(quote().options[0]).gross
    assert rough.gross % 10_00 == 0
    assert 0.9 * exact <= rough.gross <= 1.15 * exact


def test_the_rough_price_has_vat_in_it_and_grows_with_the_roof() -> None:
    small = _rough("8 x 6")
    assert _rough("8 x 6", registered()).gross > small.gross
    large = _rough("12 x 8")
    assert large.gross > small.gross
    assert large.packs > small.packs


@pytest.mark.parametrize(
    ("text", "measures"),
    [
        ("8 x 6 ft pent", {"length": "8 ft", "span": "6 ft", "pitch": "10 deg"}),
        ("3.6 x 2.4 m hip", {"length": "3.6 m", "span": "2.4 m", "pitch": "22.5 deg"}),
        # 2.4 m and two overhangs of 50 mm across the flats: a side is 2,500 × tan 22.5°, 1,035.5 mm
        ("2.4 m octagon", {"sides": 8, "side": "1035.5 mm", "pitch": "22.5 deg"}),
    ],
)
def test_the_packs_are_near_those_of_the_take_off(text: str, measures: dict[str, Any]) -> None:
    told = read_rough_roof("Size", text)
    over = {key: "50 mm" for key in MEASURES_OF[told.form] if key.endswith("overhang")}
    lines = [f'{key} = "{value}"' for key, value in (measures | over).items() if key != "sides"]
    sides = [f"sides = {measures['sides']}"] if "sides" in measures else []
    file = ['covering = "square-butt"', "[roof]", f'form = "{told.form}"', *lines, *sides]
    survey = read_survey_file("\n".join(file))
    exact = take_off(build_roof(survey.measures), survey.covering, survey.packing)
    assert isinstance(exact, ShingleTakeOff)
    assert abs(rough_price(told, builders.trader(), SOURCES).packs - exact.strips.packs) <= 1


def test_a_rough_price_needs_prices_and_a_possible_size() -> None:
    few = PricesAndStock(PRICES[:4], (), builders.VISIT)
    with pytest.raises(NotNow, match="bitumen mastic"):
        rough_price(read_rough_roof("Size", "8 x 6"), builders.trader(), few)
    with pytest.raises(Refused, match="Span: "):
        _rough("8 ft x 60 mm")
