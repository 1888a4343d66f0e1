"""What a job left once it is reckoned by what was paid: the slips and the miles, not the quote."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from domain.books.miles import Miles
from domain.books.purchase import Purchase
from domain.coverings.materials import Material
from domain.estimate.basis import PricingBasis, Supply
from domain.estimate.earned import (
    Earned,
    cost_of,
    days_called_back,
    earned,
    supply_of,
    uncounted,
    used_up,
)
from domain.estimate.quoting import basis_of
from domain.job import Job, Usage
from domain.money import Pence, part_of, times


@dataclass(frozen=True, slots=True)
class Paid:
    """What was bought for one job or as a material of the price list, and driven for the job."""

    purchases: tuple[Purchase, ...] = ()
    """In the order of recording."""
    miles: tuple[Miles, ...] = ()


def bought_for(job: Job, paid: Paid) -> Pence:
    """What boards and anything else that was bought for the job cost; VAT reclaimed is no cost.

    What came back of it is taken off. Materials of the price list bought by the packs are not in
    it: they count as they are used, at the slip's price a pack, which packs returned do not change.
    """
    basis = basis_of(job.quote) if job.quote is not None else None
    registered = basis is not None and basis.vat_registered
    other = _bought_besides(job, paid)
    return sum(_cost_in_the_end(each, registered=registered) for each in other if each.counts)


def materials_bought_for(job: Job, paid: Paid, *, registered: bool) -> Pence:
    """What of that a contractor deducts no CIS from; with its VAT if the trader is not registered.

    Materials, consumables, hired plant and the fuel for it.
    """
    other = (each for each in _bought_besides(job, paid) if each.is_of_materials)
    return sum(_cost_in_the_end(each, registered=registered) for each in other)


def _bought_besides(job: Job, paid: Paid) -> list[Purchase]:
    """What was bought for a job beside the materials of the price list by the packs."""
    return [p for p in paid.purchases if p.job_id == job.id and not (p.material and p.packs)]


def materials_as_paid(job: Job, basis: PricingBasis, paid: Paid) -> Pence:
    """What the materials used and wasted cost, and as reckoned what nobody counts, such as nails.

    Each at the last slip that has it by the packs, one of this job before any other, and as quoted
    where there is none; with its VAT unless the ``basis`` is registered.
    """
    return sum(
        _used(usage, basis, job, paid) for usage in job.usages if usage.unit != "hour"
    ) + sum(_worth(supply, supply.needed, basis, job, paid) for supply in uncounted(basis))


def left_as_paid(job: Job, paid: Paid) -> Earned | None:
    """What the job earned by what was paid; None without an accepted quote, or with nothing paid.

    Materials are as :func:`materials_as_paid` has them. What else was bought for the job comes on
    top. Miles recorded stand in place of those quoted, and of the way to a callback on their day.
    Whatever VAT is reclaimed is no cost.
    """
    made, quote = earned(job, job.usages), job.quote
    basis = basis_of(quote) if quote is not None else None
    if made is None or basis is None or not (paid.purchases or paid.miles):
        return None
    driven = sum((each.miles for each in paid.miles), Decimal(0))
    travel = times(basis.rates.mile, driven) if paid.miles else made.travel
    return replace(
        made,
        materials=materials_as_paid(job, basis, paid),
        bought=bought_for(job, paid),
        travel=travel,
        callbacks=made.callbacks - _way_back_recorded(job, basis, paid),
    )


def _way_back_recorded(job: Job, basis: PricingBasis, paid: Paid) -> Pence:
    """What the callbacks hold of days whose miles were recorded: those are in the travel."""
    days = days_called_back(job)
    not_recorded = days - {each.on for each in paid.miles}
    of_all, of_the_rest = (
        times(basis.rates.mile, basis.miles * len(some)) for some in (days, not_recorded)
    )
    return of_all - of_the_rest


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
    return part_of(_cost(slip, registered=basis.vat_registered), Fraction(quantity) / units)


def _slip(material: Material, job: Job, purchases: Iterable[Purchase]) -> Purchase | None:
    """The last slip with packs of a material, one of this job before any other."""
    found = [each for each in purchases if each.material == material and each.packs]
    return max(found, key=lambda p: (p.job_id == job.id, p.on, p.id or 0), default=None)


def _cost(bought: Purchase, *, registered: bool) -> Pence:
    """What a purchase cost the trader, as on the slip."""
    return bought.pence - (bought.vat if registered else 0)


def _cost_in_the_end(bought: Purchase, *, registered: bool) -> Pence:
    """What it cost once money came back of it."""
    return bought.left - (bought.vat_left if registered else 0)
