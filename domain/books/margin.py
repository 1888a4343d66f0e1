"""What a job left once it is reckoned by what was paid: the slips and the miles, not the quote."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from domain.books.miles import Miles
from domain.books.purchase import Purchase
from domain.coverings.materials import Material
from domain.estimate.basis import PricingBasis, Supply
from domain.estimate.earned import Earned, cost_of, earned, supply_of, uncounted, used_up
from domain.estimate.quoting import basis_of
from domain.job import Job, Usage
from domain.money import Pence, part_of, times


@dataclass(frozen=True, slots=True)
class Paid:
    """What was bought for one job or as a material of the price list, and driven for the job."""

    purchases: tuple[Purchase, ...] = ()
    """In the order of recording."""
    miles: tuple[Miles, ...] = ()


def left_as_paid(job: Job, paid: Paid) -> Earned | None:
    """What the job earned by what was paid; None without an accepted quote, or with nothing paid.

    A material used is taken at the last slip that has it by the packs, one of this job before any
    other, and as quoted where there is none. What else was bought for the job comes on top. Miles
    recorded stand in place of those quoted. Whatever VAT is reclaimed is no cost.
    """
    made, quote = earned(job, job.usages), job.quote
    basis = basis_of(quote) if quote is not None else None
    if made is None or basis is None or not (paid.purchases or paid.miles):
        return None
    other = [p for p in paid.purchases if p.job_id == job.id and not (p.material and p.packs)]
    materials = (
        sum(_used(usage, basis, job, paid) for usage in job.usages if usage.unit != "hour")
        + sum(_worth(supply, supply.needed, basis, job, paid) for supply in uncounted(basis))
        + sum(_cost(each, basis) for each in other if each.counts)
    )
    driven = sum((each.miles for each in paid.miles), Decimal(0))
    travel = times(basis.rates.mile, driven) if paid.miles else made.travel
    return replace(made, materials=materials, travel=travel)


def _used(usage: Usage, basis: PricingBasis, job: Job, paid: Paid) -> Pence:
    supply = supply_of(usage, basis)
    if supply is None:
        return used_up(usage, basis)
    return _worth(supply, usage.used + usage.wasted, basis, job, paid)


def _worth(supply: Supply, quantity: Decimal, basis: PricingBasis, job: Job, paid: Paid) -> Pence:
    """So much of a material at what was paid for it, else as quoted."""
    slip = _slip(supply.material, job, paid.purchases)
    if slip is None:
        return cost_of(supply, quantity, basis)
    units = Fraction(slip.packs) * Fraction(supply.price.per_pack)
    return part_of(_cost(slip, basis), Fraction(quantity) / units)


def _slip(material: Material, job: Job, purchases: Iterable[Purchase]) -> Purchase | None:
    """The last slip with packs of a material, one of this job before any other."""
    found = [each for each in purchases if each.material == material and each.packs]
    return max(found, key=lambda p: (p.job_id == job.id, p.on, p.id or 0), default=None)


def _cost(bought: Purchase, basis: PricingBasis) -> Pence:
    """What a purchase cost the trader."""
    return bought.pence - (bought.vat if basis.vat_registered else 0)
