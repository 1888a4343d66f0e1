from dataclasses import replace
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.errors import Refused
from domain.estimate.compare import Compared, Costed, Counted, Unsuited, side_by_side
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, OldCovering
from domain.takeoff.roof_takeoff import TakeOff
from tests import builders
from tests.priced import PRICES, quote, worked_example

KEYS = ("square-butt", "hexagonal")


def counted(choice: CoveringChoice) -> TakeOff:
    return worked_example(choice.key)


def worked(sources: PricesAndStock | None = None, miles: int = 12) -> tuple[Compared, ...]:
    priced = sources or PricesAndStock(PRICES, (), builders.VISIT)
    return side_by_side(builders.survey(), KEYS, counted, builders.trader(), priced, Decimal(miles))


def test_each_covering_stands_as_its_own_quote_would() -> None:
    square, hexagonal = worked()
    assert isinstance(square, Costed)
    assert square.option == quote().options[0]
    assert isinstance(hexagonal, Costed)
    assert hexagonal.basis.supplies[0].material == Material("hexagonal")
    assert hexagonal.choice == CoveringChoice("hexagonal", square.choice.colour)
    assert hexagonal.option.lines != square.option.lines


def test_a_covering_without_a_price_has_all_but_its_money() -> None:
    prices = tuple(each for each in PRICES if each.material != Material("hexagonal"))
    square, hexagonal = worked(PricesAndStock(prices, (), builders.VISIT))
    _, priced = worked()
    assert isinstance(square, Costed)
    assert isinstance(hexagonal, Counted)
    assert isinstance(priced, Costed)
    assert "No price for hexagonal shingles yet" in hexagonal.why
    assert "in Prices" in hexagonal.why
    assert hexagonal.take_off == priced.take_off
    assert hexagonal.hours == priced.basis.hours
    assert [(s.material, s.packs, s.taken) for s in hexagonal.supplies] == [
        (s.material, s.packs, s.taken) for s in priced.basis.supplies
    ]


def test_without_any_price_everything_is_packed_as_the_take_off_has_it() -> None:
    (square,) = side_by_side(
        builders.survey(),
        ["square-butt"],
        counted,
        builders.trader(),
        PricesAndStock((), (), builders.VISIT),
        Decimal(12),
    )
    assert isinstance(square, Counted)
    takeoff = worked_example()
    assert {s.material: s.packs for s in square.supplies} == {
        Material("square-butt"): takeoff.strips.packs,
        Material.UNDERLAY: takeoff.underlay.rolls,
        Material.SHINGLE_NAILS: takeoff.fixings.shingle_boxes,
        Material.FELT_NAILS: takeoff.fixings.felt_boxes,
        Material.MASTIC: takeoff.fixings.cartridges,
    }


def test_what_is_not_recorded_leaves_a_covering_without_a_price_out_too() -> None:
    survey = builders.survey(old=OldCovering())
    (square,) = side_by_side(
        survey,
        ["square-butt"],
        counted,
        builders.trader(),
        PricesAndStock((), (), builders.VISIT),
        Decimal(12),
    )
    assert isinstance(square, Unsuited)
    assert "What is on the roof now" in square.why


def test_a_covering_that_the_roof_refuses_says_which_measure() -> None:
    def refuse(choice: CoveringChoice) -> TakeOff:
        if choice.key == "hexagonal":
            raise Refused("Pitch", "8°", "It is too flat.")
        return counted(choice)

    survey, sources = builders.survey(), PricesAndStock(PRICES, (), builders.VISIT)
    square, hexagonal = side_by_side(survey, KEYS, refuse, builders.trader(), sources, Decimal(0))
    assert isinstance(square, Costed)
    assert hexagonal == Unsuited(
        CoveringChoice("hexagonal", square.choice.colour),
        "Pitch: “8°” is not valid. It is too flat.",
    )


@pytest.mark.parametrize("key", KEYS)
def test_the_survey_s_own_choice_changes_nothing_of_the_others(key: str) -> None:
    survey = replace(builders.survey(), covering=CoveringChoice(key, "slate grey"))
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    found = side_by_side(survey, KEYS, counted, builders.trader(), sources, Decimal(12))
    assert found == worked()
