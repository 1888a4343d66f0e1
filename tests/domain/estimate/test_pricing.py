from dataclasses import replace
from datetime import date
from decimal import Decimal
from math import ceil
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.coverings.materials import Material
from domain.errors import NotNow, Refused
from domain.estimate.basis import Hours, PricingBasis
from domain.estimate.pricing import basis_for, old_weight, quote_lines
from domain.estimate.quoting import Margin, cost_and_margin, option_total
from domain.estimate.stock import Price, StockLine
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, LineKind, OldCovering, OldKind, Stage
from domain.money import whole_pence
from domain.snapshot import from_json, to_json
from domain.trader import Rates
from tests import builders
from tests.priced import PRICES, in_felt, price, quote, registered, worked_example

NO_MILES = Decimal(0)
PERCENT = st.decimals(min_value=0, max_value=60, places=1)


def basis(**changes: Any) -> PricingBasis:
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    made = basis_for(worked_example(), builders.survey(), builders.trader(), sources, Decimal(12))
    return replace(made, **changes)


def stock(material: Material, quantity: str, colour: str = "") -> StockLine:
    return StockLine(material, colour, Decimal(quantity))


def packs(*held: StockLine, prices: tuple[Price, ...] = PRICES) -> dict[str, int]:
    sources = PricesAndStock(prices, held, builders.VISIT)
    made = basis_for(worked_example(), builders.survey(), builders.trader(), sources, NO_MILES)
    return {supply.material: supply.packs for supply in made.supplies}


def test_materials_are_bought_in_whole_packs() -> None:
    # The worked example: 55 strips with breakage, 21 to a pack; one roll; 463 nails; 2 cartridges.
    assert packs() == {"square-butt": 3, "underlay": 1, "nails": 1, "felt-nails": 1, "mastic": 2}


def test_what_the_stock_holds_is_not_bought() -> None:
    strips = stock(Material("square-butt"), "13", "Slate Grey ")
    assert packs(strips, stock(Material.MASTIC, "5"))["square-butt"] == 2
    assert packs(strips, stock(Material.MASTIC, "5"))["mastic"] == 0


def test_left_over_strips_of_another_colour_do_not_serve() -> None:
    assert packs(stock(Material("square-butt"), "60", "red"))["square-butt"] == 3
    assert packs(stock(Material("hexagonal"), "60", "slate grey"))["square-butt"] == 3


def test_a_stock_that_was_counted_wrong_never_makes_more_needed() -> None:
    assert packs(stock(Material("square-butt"), "-9", "slate grey"))["square-butt"] == 3


def test_pieces_of_underlay_serve_only_for_the_whole_need_or_roll_by_roll() -> None:
    short = (price(Material.UNDERLAY, 9_00, "5", since=builders.VISIT), *PRICES)
    sources = PricesAndStock(short, (), builders.VISIT)
    made = basis_for(worked_example(), builders.survey(), builders.trader(), sources, NO_MILES)
    need = made.supplies[1].needed
    rolls = packs(prices=short)["underlay"]
    assert rolls >= ceil(need / 5)
    assert packs(stock(Material.UNDERLAY, "4.9"), prices=short)["underlay"] == rolls
    assert packs(stock(Material.UNDERLAY, "5.1"), prices=short)["underlay"] == rolls - 1
    assert packs(stock(Material.UNDERLAY, str(need)), prices=short)["underlay"] == 0


def test_the_newest_price_in_force_counts_and_one_of_the_colour_first() -> None:
    newer = price(Material("square-butt"), 35_00, "21", since=date(2026, 5, 1))
    not_yet = price(Material("square-butt"), 99_00, "21", since=date(2026, 6, 4))
    red = price(Material("square-butt"), 40_00, "20", since=date(2026, 2, 1), colour="Red")
    sources = PricesAndStock((newer, not_yet, red, *PRICES), (), builders.VISIT)
    assert sources.price(Material("square-butt"), "slate grey") == newer
    assert sources.price(Material("square-butt"), "red") == red
    assert sources.price(Material("square-butt"), "") == newer
    assert sources.price(Material.SHINGLE_NAILS, "red") == PRICES[3]


def test_of_two_prices_of_one_day_the_one_saved_last_counts() -> None:
    mistyped = price(Material("square-butt"), 315_00, "21", id=1)
    put_right = replace(mistyped, net=31_50, id=2)
    for known in ((mistyped, put_right), (put_right, mistyped)):
        assert PricesAndStock(known, (), builders.VISIT).price(mistyped.material, "") is put_right


def test_materials_without_a_price_are_named() -> None:
    sources = PricesAndStock(PRICES[:2], (), builders.VISIT)
    with pytest.raises(
        NotNow, match="for underlay, shingle nails, felt nails and bitumen mastic yet: add them"
    ):
        basis_for(worked_example(), builders.survey(), builders.trader(), sources, NO_MILES)


def test_an_unregistered_trader_pays_the_vat_on_materials() -> None:
    costs = [line.cost for line in quote().options[0].lines if line.kind is LineKind.MATERIALS]
    # 3 × 31.50, 24.99, twice 6.45, 2 × 3.33, each with 20 %, half up (derived).
    assert costs == [113_40, 29_99, 7_74, 7_74, 7_99]
    assert {line.vat_rate for line in quote().options[0].lines} == {Decimal(0)}


def test_a_registered_trader_costs_materials_net_and_charges_vat() -> None:
    lines = quote(registered()).options[0].lines
    assert [line.cost for line in lines if line.kind is LineKind.MATERIALS] == [
        94_50,
        24_99,
        6_45,
        6_45,
        6_66,
    ]
    assert {line.vat_rate for line in lines} == {Decimal(20)}


def test_hours_are_quantity_times_own_rate() -> None:
    # Area 5.3525 m², edges 2 × (2.52 + 2 × 1.062) m, ridge 2.52 m; default rates (derived).
    hours = basis().hours
    assert (hours.set_up, hours.strip) == (Decimal(1), Decimal("0.80"))
    assert hours.deck == 0
    assert (hours.underlay, hours.edges) == (Decimal("0.32"), Decimal("0.74"))
    assert (hours.courses, hours.ridges) == (Decimal("1.87"), Decimal("0.63"))
    assert hours.clearing == Decimal("0.27")
    # 5.63 by the elements: to the quarter, half up.
    assert hours.whole == Decimal("5.75")


def test_travel_is_driven_on_every_day_the_hours_take() -> None:
    made = basis_for(
        worked_example(),
        builders.survey(),
        builders.trader(hours_a_day=Decimal(3)),
        PricesAndStock(PRICES, (), builders.VISIT),
        Decimal(12),
    )
    assert made.days == 2
    travel = next(line for line in quote_lines(made) if line.kind is LineKind.TRAVEL)
    assert (travel.quantity, travel.cost) == (Decimal(24), 13_20)


def test_nothing_travelled_makes_no_line() -> None:
    kinds = [line.kind for line in quote_lines(basis(miles=NO_MILES))]
    assert LineKind.TRAVEL not in kinds
    assert LineKind.DECK not in kinds


@pytest.mark.parametrize(
    ("old", "kilograms"),
    [
        # Common practice: 3.5 kg a square metre and layer of felt, 9 kg of shingles.
        (OldCovering(OldKind.FELT, 2), "70"),
        (OldCovering(OldKind.SHINGLES, 1), "90"),
        (OldCovering(OldKind.OTHER, 1), "90"),
        (OldCovering(OldKind.NONE), "0"),
        (OldCovering(), "0"),
    ],
)
def test_the_weight_of_the_old_covering(old: OldCovering, kilograms: str) -> None:
    assert old_weight(Decimal(10), old) == Decimal(kilograms)


def test_known_boards_cost_the_rate_named_beforehand_and_no_more() -> None:
    survey = builders.survey(deck=replace(builders.survey().deck, replace_m=Decimal("4.2")))
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    with_boards = basis_for(worked_example(), survey, builders.trader(), sources, Decimal(12))
    lines = quote_lines(with_boards)
    deck = next(line for line in lines if line.kind is LineKind.DECK)
    assert (deck.quantity, deck.unit, deck.price) == (Decimal("4.2"), "m", 58_80)
    labour = next(line for line in lines if line.kind is LineKind.LABOUR)
    # 5.63 without the boards and 6.68 with them, to the quarter.
    assert labour.quantity == Decimal("5.75")
    assert with_boards.hours.whole == Decimal("6.75")


@given(
    st.lists(st.decimals(min_value=0, max_value=40, places=2), min_size=8, max_size=8),
    st.integers(min_value=1, max_value=150_00),
)
def test_the_hours_that_are_shown_times_the_rate_are_the_line(
    elements: list[Decimal], rate: int
) -> None:
    hours = Hours(*elements)
    lines = quote_lines(basis(hours=hours, rates=Rates(hour=rate)))
    exact = sum(elements, Decimal(0)) - hours.deck
    shown = hours.charged
    assert shown % Decimal("0.25") == 0
    assert Decimal("-0.125") <= exact - shown < Decimal("0.125")
    labour = [line for line in lines if line.kind is LineKind.LABOUR]
    assert [(line.quantity, line.unit, line.cost) for line in labour] == [
        (shown, "hour", whole_pence(rate * shown))
    ] * bool(shown)


@given(PERCENT, PERCENT, st.integers(min_value=0, max_value=2000_00))
def test_contingency_and_markup_are_folded_in_without_losing_a_penny(
    contingency: Decimal, markup: Decimal, least: int
) -> None:
    rates = Rates(contingency=contingency, markup=markup, minimum_charge=least)
    lines = quote_lines(basis(rates=rates))
    materials = sum(line.cost for line in lines if line.kind is LineKind.MATERIALS)
    cost = sum(line.cost for line in lines)
    whole = whole_pence((cost * (100 + contingency) + materials * markup) / 100)
    charged = [line for line in lines if line.kind is not LineKind.MINIMUM_CHARGE]
    assert sum(line.price for line in charged) == whole
    assert sum(line.price for line in lines) == max(whole, least)
    assert all(line.price >= line.cost for line in charged)


def test_the_minimum_charge_is_a_line_of_its_own() -> None:
    lines = quote_lines(basis(rates=Rates(minimum_charge=1000_00)))
    assert lines[-1].kind is LineKind.MINIMUM_CHARGE
    assert lines[-1].cost == 0
    assert sum(line.price for line in lines) == 1000_00


def test_the_lines_follow_from_what_the_quote_keeps_alone() -> None:
    made = quote()
    kept = from_json(PricingBasis, made.counting.basis)
    assert quote_lines(kept) == made.options[0].lines
    assert to_json(kept) == made.counting.basis
    assert kept.supplies[0].price == PRICES[0]


def test_totals_and_margin() -> None:
    option = quote(registered()).options[0]
    totals, margin = option_total(option), cost_and_margin(option)
    assert totals.net == margin.price == sum(line.price for line in option.lines)
    assert totals.gross == totals.net + totals.vat_whole
    assert margin.pence == margin.price - margin.cost
    assert Margin(cost=60_00, price=90_00).percent == Decimal("33.33")
    assert Margin(cost=60_00, price=0).percent == 0


def test_a_draft_is_drafted_anew_and_a_sent_quote_is_followed_by_the_next() -> None:
    draft = replace(quote(), id=7)
    again = quote(job=builders.ready_for(Stage.QUOTED, quotes=(draft,)))
    assert (again.number, again.id) == (1, 7)
    revised = quote(job=builders.ready_for(Stage.QUOTED, quotes=(builders.sent(),)))
    assert (revised.number, revised.id, revised.sent_on) == (2, None, None)


def test_the_deposit_is_part_of_the_whole() -> None:
    whole = option_total(quote().options[0]).gross
    assert quote(deposit=whole).deposit == whole
    for deposit in (-1, whole + 1):
        with pytest.raises(Refused, match=r"Deposit: .* the lowest price in the quote"):
            quote(deposit=deposit)


def test_what_is_not_recorded_cannot_be_priced() -> None:
    with pytest.raises(NotNow, match="survey"):
        quote(job=builders.ready_for(Stage.SURVEY, survey=None))
    survey = builders.survey(old=OldCovering(OldKind.FELT))
    with pytest.raises(NotNow, match="how many layers"):
        quote(job=builders.ready_for(Stage.QUOTED, quotes=(), survey=survey))
    with pytest.raises(Refused, match="Hours a day"):
        quote(builders.trader(hours_a_day=NO_MILES))


def test_another_covering_has_its_own_price_in_the_colour_of_the_survey() -> None:
    option = quote(takeoffs=(worked_example("hexagonal"),)).options[0]
    assert (option.covering, option.colour) == ("hexagonal", "slate grey")
    assert option.lines[0].words == "hexagonal shingles, slate grey"


def felt_basis(*held: StockLine) -> PricingBasis:
    survey = replace(builders.survey(), covering=CoveringChoice("felt", "green"))
    sources = PricesAndStock(PRICES, held, builders.VISIT)
    return basis_for(in_felt(), survey, builders.trader(), sources, NO_MILES)


def test_felt_is_bought_in_rolls_with_nails_and_lap_adhesive_and_no_underlay() -> None:
    # The worked example in felt: 2 rolls, the capping from what is left of the second, 402 nails,
    # 11.48 m of a tin's 30 m.
    made = felt_basis()
    assert {s.material: (s.needed, s.packs) for s in made.supplies} == {
        Material("felt"): (Decimal("11.50"), 2),
        Material.FELT_NAILS: (402, 1),
        Material.ADHESIVE: (Decimal("11.48"), 1),
    }
    assert (made.covering, made.colour, made.supplies[0].colour) == ("felt", "green", "green")
    assert [(line.words, line.unit) for line in quote_lines(made)][:3] == [
        ("felt, green", "roll"),
        ("felt nails", "box"),
        ("lap adhesive", "tin"),
    ]


def test_felt_takes_its_own_hours_and_none_for_underlay() -> None:
    # 5.35 m² at 0.2 hours per m²: the default rate, common practice.
    assert (felt_basis().hours.courses, felt_basis().hours.underlay) == (
        Decimal("1.07"),
        Decimal(0),
    )


def test_whole_rolls_of_felt_of_the_colour_are_taken_from_the_stock() -> None:
    assert felt_basis(stock(Material("felt"), "12", "green")).supplies[0].packs == 0
    assert felt_basis(stock(Material("felt"), "11", "green")).supplies[0].packs == 1
    assert felt_basis(stock(Material("felt"), "30", "black")).supplies[0].packs == 2
