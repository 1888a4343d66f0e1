"""What a roof weighs: what is bought for it and goes on the van, what comes off, what stays on.

The weight of a pack is the price's own; where none is recorded, the usual one of its units.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from domain.coverings.materials import Material
from domain.coverings.registry import COVERINGS
from domain.estimate.basis import Supply
from domain.estimate.pricing import old_weight
from domain.estimate.quoting import basis_of
from domain.estimate.stock import Price
from domain.estimate.supplies import PricesAndStock
from domain.exact import half_up
from domain.job import Job, OldCovering
from domain.quantity import show_amount, to_decimal
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.fixings import FELT_NAIL, SHINGLE_NAIL
from domain.takeoff.loads import Load
from domain.takeoff.roof_takeoff import TakeOff
from domain.trader import Van

USUAL_KG: Mapping[Material, Fraction] = MappingProxyType(
    {
        **{Material(key): covering.unit_kg for key, covering in COVERINGS.items()},
        Material.UNDERLAY: Fraction(1),
        Material.DRIP_TRIM: Fraction("0.3"),
        Material.FASCIA: Fraction(1),
        Material.BARGE_BOARDS: Fraction(1),
        Material.GUTTER: Fraction("0.8"),
        Material.SHINGLE_NAILS: SHINGLE_NAIL.grams / 1000,
        Material.FELT_NAILS: FELT_NAIL.grams / 1000,
        Material.MASTIC: Fraction("0.5"),
        Material.ADHESIVE: Fraction("0.1"),
    }
)
"""Kilograms of one strip, metre, nail or cartridge. Nails by their steel, the rest common practice:
shingles come to about 9 kg a square metre at their gauge."""


@dataclass(frozen=True, slots=True)
class Weights:
    """The weights of a job before the work."""

    bought: Load
    """Everything bought, against what the van may carry."""
    old: Load | None
    """The old covering, against what a sack holds; None while it is not recorded."""
    before: Fraction | None
    """Kilograms a square metre that lie on the deck now; None while that is not recorded."""
    after: Fraction
    """The same when the roof is laid."""


def weigh(takeoff: TakeOff, sources: PricesAndStock, old: OldCovering, van: Van) -> Weights:
    """Weigh what the take-off counts, at the weights of the prices."""
    area = takeoff.roof.area / 10**6
    off = Fraction(old_weight(to_decimal(area), old))
    return Weights(
        bought=Load(_kg(_bought(takeoff), sources), van.limit),
        old=Load(off, Fraction(van.sack_kg)) if off else None,
        before=None if old.kind is None else off / area,
        after=_kg(_laid(takeoff), sources) / area,
    )


def old_of(job: Job) -> OldCovering:
    """The old covering as far as it is recorded."""
    return job.survey.old if job.survey else OldCovering()


def van_load(job: Job, van: Van) -> Load | None:
    """What goes on the van as the quote that counts has it, stock and all; None without a quote."""
    basis = basis_of(job.quote) if job.quote else None
    return None if basis is None else Load(taken_kg(basis.supplies), van.limit)


def taken_kg(supplies: Iterable[Supply]) -> Fraction:
    """Kilograms that go on the van, stock and all."""
    each = (Fraction(supply.taken) * kg_each(supply.material, supply.price) for supply in supplies)
    return sum(each, Fraction(0))


def kg_each(material: Material, price: Price | None) -> Fraction:
    """Kilograms of one unit of a material, at its price's own weight if that is recorded."""
    if price is None or price.kg is None:
        return USUAL_KG[material]
    return Fraction(price.kg) / Fraction(price.per_pack)


def load_words(load: Load, what: str) -> str:
    """A weight and its trips in a sentence; ``what`` is such as "go on the van"."""
    kg = show_kg(load.kg)
    if load.limit is None or load.times is None:
        return f"{kg} {what}."
    trips = show_amount(Decimal(load.times), "trip")
    return f"{kg} {what}; van carries {show_kg(load.limit)}: {trips}."


def show_kg(kg: Fraction) -> str:
    """A weight to the whole kilogram."""
    return show_amount(Decimal(half_up(kg)), "kg")


def _kg(units: Mapping[Material, Fraction], sources: PricesAndStock) -> Fraction:
    """Kilograms of so many units of each material."""
    return sum(
        (number * kg_each(m, sources.price(m, "")) for m, number in units.items()), Fraction(0)
    )


def _bought(takeoff: TakeOff) -> Mapping[Material, Fraction]:
    """Units in the whole packs that are bought."""
    packing, boxes = takeoff.packing, takeoff.packing.nail_boxes
    if isinstance(takeoff, FeltTakeOff):
        return {
            Material(takeoff.covering.key): takeoff.lay.rolls * packing.felt_roll / 1000,
            Material.FELT_NAILS: Fraction(takeoff.fixings.boxes * boxes.felt),
            Material.ADHESIVE: takeoff.fixings.tins * packing.adhesive_tin / 1000,
        }
    return {
        Material(takeoff.covering.key): Fraction(takeoff.strips.packs * packing.strips_per_pack),
        Material.UNDERLAY: takeoff.underlay.rolls * packing.underlay.roll / 1000,
        Material.SHINGLE_NAILS: Fraction(takeoff.fixings.shingle_boxes * boxes.shingle),
        Material.FELT_NAILS: Fraction(takeoff.fixings.felt_boxes * boxes.felt),
        Material.MASTIC: Fraction(takeoff.fixings.cartridges),
    }


def _laid(takeoff: TakeOff) -> Mapping[Material, Fraction]:
    """Units that stay on the roof."""
    if isinstance(takeoff, FeltTakeOff):
        return {
            Material(takeoff.covering.key): takeoff.lay.laid / 1000,
            Material.FELT_NAILS: Fraction(takeoff.fixings.nails),
            Material.ADHESIVE: takeoff.fixings.adhesive / 1000,
        }
    return {
        Material(takeoff.covering.key): Fraction(takeoff.strips.laid),
        Material.UNDERLAY: takeoff.underlay.laid / 1000,
        Material.SHINGLE_NAILS: Fraction(takeoff.fixings.through_strips),
        Material.FELT_NAILS: Fraction(takeoff.fixings.underlay_nails),
        Material.MASTIC: Fraction(takeoff.fixings.cartridges),
    }
