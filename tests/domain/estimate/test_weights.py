"""What a roof weighs. Usual weights: common practice, nails by the weight of their steel."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest

from domain.coverings.materials import Material
from domain.estimate.supplies import PricesAndStock
from domain.estimate.weights import USUAL_KG, load_words, van_load, weigh
from domain.job import OldCovering, OldKind
from domain.takeoff.roof_takeoff import TakeOff
from domain.trader import Van
from tests import builders
from tests.priced import PRICES, accepted, in_felt, laid_job, quote, worked_example

NO_PRICES = PricesAndStock((), (), builders.VISIT)
OLD = OldCovering(OldKind.FELT, 2)


def test_a_nail_weighs_what_its_steel_does() -> None:
    # derived: π/4 × (3² × 20 + 9² × 1.2) mm³ × 7850 kg/m³, and of 13 mm
    assert float(USUAL_KG[Material.SHINGLE_NAILS]) == pytest.approx(0.0017091, abs=1e-7)
    assert float(USUAL_KG[Material.FELT_NAILS]) == pytest.approx(0.0013206, abs=1e-7)


@pytest.mark.parametrize(
    ("takeoff", "kg"),
    [
        # By hand: 63 strips × 1.3, 15 m × 1, two boxes of nails of a kilogram each less part of
        # one nail, 2 × 0.5.
        (worked_example(), "99.8995"),
        # By hand: 20 m × 3.5, a kilogram of felt nails, 30 m of lap × 0.1.
        (in_felt(), "73.9995"),
    ],
)
def test_all_that_is_bought_is_weighed_in_whole_packs(takeoff: TakeOff, kg: str) -> None:
    weights = weigh(takeoff, NO_PRICES, OLD, Van())
    assert float(weights.bought.kg) == pytest.approx(float(kg), abs=2e-3)


def test_the_weight_of_a_pack_that_is_recorded_counts() -> None:
    # By hand: three packs of 30 kg for 81.9 kg of strips.
    packs = replace(PRICES[0], kg=Decimal(30))
    usual = weigh(worked_example(), NO_PRICES, OLD, Van())
    own = weigh(worked_example(), PricesAndStock((packs,), (), builders.VISIT), OLD, Van())
    assert own.bought.kg - usual.bought.kg == Fraction("8.1")


def test_the_old_covering_goes_in_sacks_and_off_the_deck() -> None:
    # By hand: 5.35 m² × 2 layers × 3.5 kg is 37.45 kg, in two sacks of 25.
    weights = weigh(worked_example(), NO_PRICES, OLD, Van())
    assert weights.old is not None
    assert (weights.old.kg, weights.old.times) == (Fraction("37.45"), 2)
    assert weights.before is not None
    assert float(weights.before) == pytest.approx(7, abs=0.01)


def test_a_laid_roof_weighs_what_is_laid_and_no_pack_more() -> None:
    # By hand: 53 strips × 1.3, 10.48 m of underlay, 429 and 34 nails, 2 × 0.5 over 5.3525 m².
    weights = weigh(worked_example(), NO_PRICES, OLD, Van())
    assert float(weights.after) == pytest.approx((68.9 + 10.48 + 0.7781 + 1) / 5.35248, abs=1e-3)
    # By hand: 11.503 m of felt × 3.5, 402 felt nails, 11.48 m of lap × 0.1.
    felt = weigh(in_felt(), NO_PRICES, OLD, Van())
    assert float(felt.after) == pytest.approx((40.2617 + 0.5309 + 1.148) / 5.35248, abs=1e-3)


def test_a_bare_deck_carries_nothing_and_one_not_recorded_is_not_known() -> None:
    bare = weigh(worked_example(), NO_PRICES, OldCovering(OldKind.NONE), Van())
    assert (bare.before, bare.old) == (Fraction(0), None)
    unknown = weigh(worked_example(), NO_PRICES, OldCovering(), Van())
    assert (unknown.before, unknown.old) == (None, None)


def test_the_van_takes_what_is_bought_and_what_the_stock_gives() -> None:
    # By hand: 3 packs of 21 strips, 15 m, a box of 900 nails of each kind, 2 cartridges:
    # 81.9 + 15 + 1.538 + 1.189 + 1.
    load = van_load(laid_job(accepted(quote())), Van(payload_kg=Decimal(50)))
    assert load is not None
    assert float(load.kg) == pytest.approx(100.627, abs=1e-3)
    assert load.oversteps
    assert load_words(load, "to load") == ("101 kg to load; van carries 50 kg: 3 trips.")


def test_without_a_payload_or_a_quote_nothing_is_overstepped() -> None:
    load = van_load(laid_job(accepted(quote())), Van())
    assert load is not None
    assert load_words(load, "to load") == "101 kg to load."
    assert van_load(replace(laid_job(quote()), quotes=()), Van()) is None
