"""What to order for the coming jobs: one list a merchant, in whole packs, stock first."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import TypeAlias

from domain.coverings.materials import MATERIALS, Material
from domain.estimate.basis import Supply
from domain.estimate.stock import Price
from domain.estimate.supplies import PricesAndStock
from domain.money import Pence, share

_Kind: TypeAlias = tuple[Material, str]
"""A material, and its colour where that matters."""


@dataclass(frozen=True, slots=True)
class JobToSupply:
    """A coming job and what it takes, as its quote counted it."""

    job_id: int
    ref: str
    place: str
    address: str
    """Of the roof, as typed."""
    day: date
    """The first of its days that is still to come."""
    supplies: tuple[Supply, ...]


@dataclass(frozen=True, slots=True)
class OrderLine:
    """So many packs of one item, and the jobs that wait for them."""

    material: Material
    colour: str
    packs: int
    price: Price
    jobs: tuple[JobToSupply, ...]
    """In the order of their days; those that a left-over of these packs serves are among them."""

    @property
    def by(self) -> date:
        """The day of the first job that waits for it."""
        return self.jobs[0].day

    @property
    def net(self) -> Pence:
        """What it costs, net of VAT."""
        return self.price.cost(self.packs, reclaims_vat=True)

    def cost(self, *, registered: bool) -> Pence:
        """What it costs the trader: who is not registered gets none of the VAT back."""
        return self.price.cost(self.packs, reclaims_vat=registered)


@dataclass(frozen=True, slots=True)
class MerchantList:
    """All that is to be ordered at one merchant."""

    merchant: str
    """Empty where the price names none."""
    lines: tuple[OrderLine, ...]

    @property
    def by(self) -> date:
        """The day of the first job that waits for any of it."""
        return min(line.by for line in self.lines)

    @property
    def net(self) -> Pence:
        """What it costs, net of VAT."""
        return sum(line.net for line in self.lines)

    @property
    def vat(self) -> Pence:
        """The VAT on it: by rate, on the sum of its lines; of prices with VAT what is in them."""
        before = [line for line in self.lines if line.price.with_vat is None]
        on_top = sum(
            share(sum(line.net for line in before if line.price.vat_rate == rate), rate)
            for rate in {line.price.vat_rate for line in before}
        )
        inside = (line for line in self.lines if line.price.with_vat is not None)
        return on_top + sum(line.cost(registered=False) - line.net for line in inside)

    @property
    def jobs(self) -> tuple[JobToSupply, ...]:
        """The jobs that wait for any of it, in the order of their days."""
        return _in_order({job.job_id: job for line in self.lines for job in line.jobs}.values())


def order_lists(
    jobs: Iterable[JobToSupply], sources: PricesAndStock, coming: Mapping[_Kind, Decimal]
) -> tuple[MerchantList, ...]:
    """Return what is to be ordered for jobs, a list a merchant, the soonest needed first.

    The jobs take in the order of their days what stock holds and what is ``coming`` (ordered and
    not here yet, in the material's unit); whole packs are bought only where that would fall below
    nothing, and what one leaves over serves the next. Never more packs of an item than if each
    job's were bought by itself. Of two jobs on a day the one with the smaller id is first.
    """
    in_order = _in_order(jobs)
    kinds = {kind_of(supply.material, supply.colour) for job in in_order for supply in job.supplies}
    found = [_line(kind, in_order, sources, coming.get(kind, Decimal(0))) for kind in kinds]
    lines = sorted(filter(None, found), key=_place)
    merchants = {line.price.merchant for line in lines}
    lists = (
        MerchantList(name, tuple(line for line in lines if line.price.merchant == name))
        for name in merchants
    )
    return tuple(sorted(lists, key=lambda each: (each.by, each.merchant.casefold(), each.merchant)))


def settled_by(
    ordered: MerchantList, lists: Iterable[MerchantList], jobs: Iterable[JobToSupply]
) -> frozenset[int]:
    """The jobs for which nothing is left to order once one of the lists is."""
    others = (each for each in lists if each != ordered)
    waiting = {job.job_id for each in others for job in each.jobs}
    return frozenset(job.job_id for job in jobs) - waiting


def kind_of(material: Material, colour: str) -> _Kind:
    """What is the same item: the colour, however it was typed, only where it matters."""
    return material, colour.strip().casefold() if material.sorted else ""


def _in_order(jobs: Iterable[JobToSupply]) -> tuple[JobToSupply, ...]:
    return tuple(sorted(jobs, key=lambda job: (job.day, job.job_id)))


def _place(line: OrderLine) -> tuple[int, str]:
    return MATERIALS.index(line.material), line.colour.casefold()


def _line(
    kind: _Kind, jobs: Sequence[JobToSupply], sources: PricesAndStock, coming: Decimal
) -> OrderLine | None:
    """What is to be ordered of one item; None for nothing."""
    wanted = [
        (job, supply)
        for job in jobs
        for supply in job.supplies
        if kind_of(supply.material, supply.colour) == kind
    ]
    first = wanted[0][1]
    price = _price(first, sources)
    held = sources.held(first.material, first.colour) + coming
    bought = _bought([supply for _, supply in wanted], price.per_pack, held)
    if not sum(bought):
        return None
    begins = next(at for at, packs in enumerate(bought) if packs)
    waiting = {job.job_id: job for job, _ in wanted[begins:]}
    return OrderLine(first.material, first.colour, sum(bought), price, tuple(waiting.values()))


def _price(supply: Supply, sources: PricesAndStock) -> Price:
    """The price of today; that of the quote where there is none, or its rolls are other ones."""
    today = sources.price(supply.material, supply.colour)
    if today is None or (_is_cut(supply) and today.per_pack != supply.price.per_pack):
        return supply.price
    return today


def _is_cut(supply: Supply) -> bool:
    """Whether it comes in rolls that lengths are cut from."""
    return supply.material.pack_word == "roll"


def _bought(supplies: Iterable[Supply], per_pack: Decimal, held: Decimal) -> list[int]:
    """The packs that are bought for each job; what one leaves over serves the next."""
    packs = []
    for supply in supplies:
        packs.append(_packs(supply, per_pack, held))
        held += packs[-1] * per_pack - supply.needed
    return packs


def _packs(supply: Supply, per_pack: Decimal, held: Decimal) -> int:
    """Whole packs to buy for a job while so much is held."""
    if held >= supply.needed:
        return 0
    if not _is_cut(supply):
        return ceil(Fraction(supply.needed - held) / Fraction(per_pack))
    rolls = ceil(Fraction(supply.needed) / Fraction(per_pack))
    if supply.packs and supply.price.per_pack == per_pack:
        rolls = max(rolls, supply.packs + int(supply.from_stock // per_pack))
    return max(rolls - int(held // per_pack), 0)
