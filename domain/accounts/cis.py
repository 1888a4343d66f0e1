"""What a contractor deducts under CIS of an invoice: on what is left after VAT and materials.

Materials, consumables, hired plant and the fuel for it count at what the trader paid for them, with
the VAT on them if the trader cannot reclaim it (HMRC CISR15060, CISR15090, CISR15100: read); never
the markup, never travel (secondary source, quoted).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction

from domain.books.margin import Paid, materials_as_paid, materials_bought_for
from domain.errors import NotNow
from domain.estimate.quoting import basis_of
from domain.estimate.scope import MATERIALS, WORK, Item, is_of
from domain.job import Job
from domain.money import Pence, part_of, share, show_money
from domain.tax.cis import cis_rate
from domain.tax.vat import VatTotals
from domain.trader import Trader

NOTHING_PAID = Paid()


@dataclass(frozen=True, slots=True)
class Cis:
    """The deduction on an invoice, as the contractor reads it."""

    rate: Decimal
    """Per cent."""
    materials_net: Pence
    """Materials used, at cost before VAT."""
    materials_vat: Pence
    """The VAT on them that is a cost to the trader: none of it where it is reclaimed."""
    base: Pence
    """Labour: what is left of the net."""
    reference: str
    """The contractor's."""
    utr: str
    """The trader's own reference."""

    @property
    def materials(self) -> Pence:
        """What the materials cost the trader."""
        return self.materials_net + self.materials_vat

    @property
    def deducted(self) -> Pence:
        """What the contractor keeps back and pays to HMRC, half up."""
        return share(self.base, self.rate)


def is_inside(job: Job) -> bool:
    """Whether what this customer pays for this work is inside CIS; of a householder it never is.

    A shed that stands on no foundation is no building (FA 2004 s. 74(2)(a), HMRC CISR14100: read).
    """
    return job.customer.deducts and job.enquiry.on_foundation


def cis_on(
    job: Job,
    totals: VatTotals,
    trader: Trader,
    day: date,
    paid: Paid = NOTHING_PAID,
    cost: Pence | None = None,
) -> Cis | None:
    """The deduction on an invoice that comes to ``totals``, issued on ``day``; None outside CIS.

    The materials cost the trader what was ``paid``, unless they say that it was ``cost``. Raises
    :class:`NotNow` where the reverse charge would apply, before what was used is on record, where
    it cost more than the invoice comes to, and where the trader has given no UTR.
    """
    if not is_inside(job):
        return None
    demand_no_reverse_charge(job, trader)
    if not trader.utr:
        raise NotNow("A contractor's invoice names your UTR: fill it in in your details.")
    materials = materials_used(job, paid)
    if cost is not None:
        materials = _as_typed(cost, trader, materials)
    return deduction(totals.net, materials, job.customer.tax_reference, trader, day)


def deduction(
    net: Pence, materials: tuple[Pence, Pence], reference: str, trader: Trader, day: date
) -> Cis:
    """What is deducted of a ``net`` sum with ``materials`` (net, VAT) in it.

    Raises :class:`NotNow` where they cost more than it comes to.
    """
    materials_net, materials_vat = materials
    cost_vat = 0 if trader.vat_registered else materials_vat
    base = net - materials_net - cost_vat
    if base < 0:
        raise NotNow(
            f"The materials used cost {show_money(net - base)}, more than the "
            f"{show_money(net)} of the invoice: correct the materials page."
        )
    rate = cis_rate(trader.cis_standing, day)
    return Cis(rate, materials_net, cost_vat, base, reference, trader.utr)


def at_cost(lines: Sequence[Item], materials: Pence) -> tuple[Item, ...]:
    """The lines with the materials at what they cost; the rest of their price is with the work.

    A contractor has to see the cost of materials, and so sees no markup. They come to the same. As
    they are where materials and work are not one sum each, at one rate of VAT.
    """
    charged = [line for line in lines if is_of(line, MATERIALS)]
    work = [line for line in lines if is_of(line, WORK)]
    if (len(charged), len(work)) != (1, 1) or charged[0].vat_rate != work[0].vat_rate:
        return tuple(lines)
    of_materials, of_work = charged[0], work[0]
    told = f"materials at cost{of_materials.words.removeprefix(MATERIALS)}"
    over = of_materials.net - materials
    changed = {
        of_materials: replace(of_materials, words=told, net=materials),
        of_work: replace(of_work, net=of_work.net + over),
    }
    return tuple(changed.get(line, line) for line in lines)


def demand_no_reverse_charge(job: Job, trader: Trader) -> None:
    """Raise :class:`NotNow` where the customer would account for the VAT themselves.

    Between two who are registered for VAT, inside CIS, and not for an end user who said so in
    writing (HMRC VATREVCON37100, VATREVCON33400: read).
    """
    who = job.customer
    if trader.vat_registered and is_inside(job) and who.vat_number and who.end_user_on is None:
        raise NotNow(
            "This invoice needs the reverse charge: make it elsewhere, or record when the "
            "contractor told you in writing that they are the end user."
        )


def materials_used(job: Job, paid: Paid = NOTHING_PAID) -> tuple[Pence, Pence]:
    """What the materials used and wasted cost: net, and the VAT on them.

    At what was paid for them, as the margin has it, else at the quote's prices; and what else was
    bought for the job of materials, consumables, hired plant and the fuel for it. Raises
    :class:`NotNow` before they are on record.
    """
    basis = basis_of(job.quote) if job.quote is not None else None
    if basis is None or not job.usages:
        raise NotNow(
            "CIS is deducted from what is left after materials: record what was used first, "
            "on the materials page."
        )
    net, gross = (
        materials_as_paid(job, replace(basis, vat_registered=registered), paid)
        + materials_bought_for(job, paid, registered=registered)
        for registered in (True, False)
    )
    return net, gross - net


def _as_typed(cost: Pence, trader: Trader, proposed: tuple[Pence, Pence]) -> tuple[Pence, Pence]:
    """What the trader says that they cost; the VAT in it by that of what is ``proposed``."""
    net, vat = proposed
    if trader.vat_registered or not net + vat:
        return cost, 0
    held = part_of(cost, Fraction(vat, net + vat))
    return cost - held, held
