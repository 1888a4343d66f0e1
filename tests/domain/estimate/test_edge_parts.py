"""Drip trim, fascia, barge boards and gutter: by the metre, and priced where they are renewed."""

from dataclasses import replace
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.estimate.basis import read_basis
from domain.estimate.edge_parts import EdgeState, edge_parts, state_of, to_renew
from domain.estimate.pricing import basis_for, option_of, quote_lines
from domain.estimate.quoting import is_priced_from
from domain.estimate.scope import items_of
from domain.estimate.supplies import PricesAndStock, Unpriced
from domain.job import Edges, Stage
from domain.papers.takeoff_paper import takeoff_paper
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from tests import builders
from tests.builders import mm
from tests.domain.papers.reading import tables
from tests.priced import PRICES, price, quote, worked_example

ALL = Edges(drip_trim="renew", fascia="Renew, rotten", barge_boards="replace", gutter="new")
OF_GUTTER = (*PRICES, price(Material.GUTTER, 12_00, "4"), price(Material.FASCIA, 9_00, "2.4"))


def metres(measures: RoofMeasures) -> dict[Material, Decimal]:
    return {part.material: part.metres for part in edge_parts(build_roof(measures), ALL)}


def test_each_part_is_as_long_as_the_edges_it_stands_along() -> None:
    # By hand, as setting out has the apex of 2.4 by 1.8 m: eaves 2 × 2520, verges 4 × 1062.
    assert metres(builders.measures()) == {
        Material.DRIP_TRIM: Decimal("9.29"),
        Material.FASCIA: Decimal("5.04"),
        Material.BARGE_BOARDS: Decimal("4.25"),
        Material.GUTTER: Decimal("5.04"),
    }
    # A pent of 2 by 1 m at 3:4, no overhangs: slope 1250; a fascia at eaves and high edge.
    pent = RoofMeasures(RoofForm.PENT, length=mm(2000), span=mm(1000), rise=mm(750))
    assert metres(pent) == {
        Material.DRIP_TRIM: Decimal("4.50"),
        Material.FASCIA: Decimal("4.00"),
        Material.BARGE_BOARDS: Decimal("2.50"),
        Material.GUTTER: Decimal("2.00"),
    }
    # A hip of 3 by 2 m has eaves all round and no verge.
    hip = RoofMeasures(RoofForm.HIP, length=mm(3000), span=mm(2000), rise=mm(750))
    assert metres(hip) == {
        Material.DRIP_TRIM: Decimal("10.00"),
        Material.FASCIA: Decimal("10.00"),
        Material.BARGE_BOARDS: Decimal(0),
        Material.GUTTER: Decimal("10.00"),
    }
    assert Material.BARGE_BOARDS not in {p.material for p in to_renew(build_roof(hip), ALL)}


@pytest.mark.parametrize(
    ("noted", "state"),
    [
        ("", EdgeState.NOT_NOTED),
        (" none ", EdgeState.NONE),
        ("None.", EdgeState.NONE),
        ("no leaks, sound", EdgeState.STAYS),
        ("stays", EdgeState.STAYS),
        ("sound", EdgeState.STAYS),
        ("renewed in 2019", EdgeState.STAYS),
        ("not to be renewed", EdgeState.STAYS),
        ("Renew: split at the gate end", EdgeState.RENEW),
        ("to be renewed", EdgeState.RENEW),
        ("replace", EdgeState.RENEW),
        ("new", EdgeState.RENEW),
        ("newly painted", EdgeState.STAYS),
    ],
)
def test_what_a_note_begins_with_says_what_becomes_of_it(noted: str, state: EdgeState) -> None:
    assert state_of(noted) is state


def test_what_is_renewed_is_priced_bought_and_reckoned_in_the_hours() -> None:
    plain = replace(builders.survey().edges, gutter="renew", fascia="renew")
    survey = builders.survey(edges=plain)
    sources = PricesAndStock(OF_GUTTER, (), builders.VISIT)
    made = basis_for(worked_example(), survey, builders.trader(), sources, Decimal(0))
    before = basis_for(worked_example(), builders.survey(), builders.trader(), sources, Decimal(0))
    found = {s.material: (s.needed, s.packs) for s in made.supplies[-2:]}
    # By hand: 5.04 m are 3 lengths of 2.4 m and 2 of 4 m.
    assert found == {
        Material.FASCIA: (Decimal("5.04"), 3),
        Material.GUTTER: (Decimal("5.04"), 2),
    }
    # 10.08 m more of edges at 0.08 hours a metre: the default rate, common practice.
    assert made.hours.edges - before.hours.edges in (Decimal("0.80"), Decimal("0.81"))
    costs = {line.words: line.cost for line in quote_lines(made)}
    assert (costs["fascia"], costs["gutter"]) == (3 * 10_80, 2 * 14_40)  # VAT is not got back
    (materials, *_) = items_of(option_of(made))
    assert materials.words.endswith("fixings; fascia; gutter")
    assert read_basis(option_of(made).basis) == made
    job = builders.ready_for(Stage.QUOTED, survey=survey, quotes=())
    rows = tables(takeoff_paper(worked_example(), job))[0].rows
    assert ("Gutter", "5.04 m along the edges", "2 lengths") in rows


def test_a_part_to_renew_without_a_price_is_named_and_a_quote_without_it_is_priced_again() -> None:
    survey = builders.survey(edges=replace(builders.survey().edges, gutter="renew"))
    sources = PricesAndStock(PRICES, (), builders.VISIT)
    with pytest.raises(Unpriced, match="No price for gutter yet"):
        basis_for(worked_example(), survey, builders.trader(), sources, Decimal(0))
    assert is_priced_from(quote(), builders.survey())
    assert not is_priced_from(quote(), survey)
