"""What a job earned, at the prices and rates its quote was made from. The trader's alone.

Agreed is what the customer pays, before VAT; from it go the materials used and wasted (what is left
over or was returned is still the trader's), travel as quoted, what was taken away, every hour at
the trader's own rate, and what putting snags right took, with the way there on a day of its own.
Boards replaced are paid by the metre: what was bought for the job beside the materials of the price
list, such as they are, goes off at what its slips say.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from domain.estimate.basis import PricingBasis, Supply
from domain.estimate.extra_terms import net_of
from domain.estimate.quoting import basis_of, option_total
from domain.estimate.usage import ELEMENTS
from domain.job import ExtraState, Job, Usage
from domain.money import Pence, part_of, times

_COUNTED = frozenset(material for each in ELEMENTS.values() for material in each.materials)


@dataclass(frozen=True, slots=True)
class Earned:
    """What came in for a job and what it took, all before VAT if the trader reclaims it."""

    agreed: Pence
    """The price of the option that was accepted."""
    extras: Pence
    """Those that were agreed."""
    materials: Pence
    travel: Pence
    disposal: Pence
    worked: Decimal
    """Hours of the job itself."""
    labour: Pence
    """Those hours at the trader's own rate."""
    callbacks: Pence
    """Hours, materials and the way there of putting snags right."""
    bought: Pence = 0
    """Boards and what else was bought for the job, by its slips."""

    @property
    def pence(self) -> Pence:
        """What is left; less than 0 if the job cost more than it brought."""
        took = self.materials + self.bought + self.travel + self.disposal + self.labour
        took += self.callbacks
        return self.agreed + self.extras - took


def earned(job: Job, usages: Sequence[Usage], bought: Pence = 0) -> Earned | None:
    """Return what the job earned if ``usages`` were used; None before a quote was accepted.

    ``bought`` is what else was bought for it, from :func:`domain.books.margin.bought_for`.

    So too where what its quote was made from cannot be read.
    """
    quote = job.quote
    basis = basis_of(quote) if quote is not None and quote.acceptance is not None else None
    if quote is None or basis is None:
        return None
    rates, hours = basis.rates, sum((u.used for u in usages if u.unit == "hour"), Decimal(0))
    away = job.stripping.waste_kg if job.stripping is not None else None
    kg = basis.quantities.old_kg if away is None else away
    back = sum((snag.hours for snag in job.snags), Decimal(0))
    return Earned(
        agreed=option_total(quote.counting).net,
        extras=sum(net_of(each) for each in job.extras if each.state is ExtraState.AGREED),
        materials=sum(used_up(usage, basis) for usage in usages if usage.unit != "hour")
        + sum(cost_of(each, each.needed, basis) for each in uncounted(basis)),
        travel=times(rates.mile, basis.miles * basis.days),
        disposal=times(rates.disposal_kg, kg),
        worked=hours,
        labour=times(rates.hour, hours),
        callbacks=times(rates.hour, back)
        + sum(snag.cost for snag in job.snags)
        + times(rates.mile, basis.miles * len(days_called_back(job))),
        bought=bought,
    )


def days_called_back(job: Job) -> frozenset[date]:
    """Return the days on which a snag was put right while nothing else was done on the roof."""
    worked = {each.on for each in (job.stripping, job.laying) if each is not None}
    return frozenset(snag.done_on for snag in job.snags if snag.done_on is not None) - worked


def used_up(usage: Usage, basis: PricingBasis) -> Pence:
    """Return what was used and wasted of a row at the prices and rates of the quote."""
    return worth(usage, usage.used + usage.wasted, basis)


def worth(usage: Usage, quantity: Decimal, basis: PricingBasis) -> Pence:
    """Return what so much of a row comes to: strips, metres, cartridges or hours."""
    materials = ELEMENTS[usage.element].materials
    if not materials:
        return times(basis.rates.hour, quantity)
    supply = supply_of(usage, basis)
    return 0 if supply is None else cost_of(supply, quantity, basis)


def supply_of(usage: Usage, basis: PricingBasis) -> Supply | None:
    """Return the material that a row used, as it was priced; None for hours."""
    materials = ELEMENTS[usage.element].materials
    return next((each for each in basis.supplies if each.material in materials), None)


def cost_of(supply: Supply, quantity: Decimal, basis: PricingBasis) -> Pence:
    """Return what so much of a material costs; VAT is a cost of who cannot reclaim it."""
    pack = supply.price.net if basis.vat_registered else supply.price.gross
    return part_of(pack, Fraction(quantity) / Fraction(supply.price.per_pack))


def uncounted(basis: PricingBasis) -> Iterable[Supply]:
    """Return what nobody counts on a roof, such as nails: taken to be used as reckoned."""
    return [each for each in basis.supplies if each.material not in _COUNTED]
