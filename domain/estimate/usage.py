"""Estimated against used: what a tired person can say at the kitchen table, and the stock.

A row for each material that the quote counted on and three of hours, in strips, metres, cartridges
and hours, never in packs. Nails are priced but not counted: nobody does. The labour rates come
together in three rows that a person can tell apart at the end of a day: ``strip`` is stripping;
``lay`` is underlay, edges, courses or felt, and ridges; ``other`` is setting up, boards replaced
and clearing away.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from domain.coverings.felt import FELT
from domain.coverings.materials import Material
from domain.coverings.registry import SHINGLES
from domain.errors import NotNow
from domain.estimate.basis import Hours, PricingBasis, Supply, read_basis
from domain.estimate.stock import StockMove
from domain.job import Job, Usage
from domain.money import apportion
from domain.quantity import read_quantity

__all__ = [
    "ELEMENTS",
    "Element",
    "Outcome",
    "difference",
    "estimate",
    "in_hand",
    "is_far_over",
    "leftovers_to_stock",
    "pack_size",
    "read_quantity",
    "with_outcome",
    "with_used",
]


_FAR_OVER = Decimal("1.2")
"""From so many times the estimate on, what was used is pointed out."""


class Outcome(StrEnum):
    """What can become of what was taken to a job."""

    USED = "used"
    WASTED = "wasted"
    LEFT = "left over"
    RETURNED = "returned"


@dataclass(frozen=True, slots=True)
class Element:
    """One row of what is recorded."""

    key: str
    words: str
    """What people read."""
    unit: str
    """Singular: strip, m, cartridge or hour."""
    materials: frozenset[Material] = frozenset()
    """The materials it stands for; none for hours."""


ELEMENTS: Mapping[str, Element] = MappingProxyType(
    {
        element.key: element
        for element in (
            Element(
                "strips",
                "shingles",
                "strip",
                frozenset(map(Material, SHINGLES)),
            ),
            Element("felt", "felt", "m", frozenset({Material(FELT.key)})),
            Element("underlay", "underlay", "m", frozenset({Material.UNDERLAY})),
            Element("mastic", "mastic", "cartridge", frozenset({Material.MASTIC})),
            Element("adhesive", "lap adhesive", "m", frozenset({Material.ADHESIVE})),
            Element("hours-strip", "hours stripping", "hour"),
            Element("hours-lay", "hours laying", "hour"),
            Element("hours-other", "hours set-up, boards, clearing", "hour"),
        )
    }
)
"""In the order in which they are recorded."""


@dataclass(frozen=True, slots=True)
class UsageRecord:
    """What was used on a job, and what of it goes into stock or comes out."""

    usages: tuple[Usage, ...]
    moves: tuple[StockMove, ...]
    """All that the job moves, as :func:`leftovers_to_stock` gives them."""


def estimate(basis: str) -> tuple[Usage, ...]:
    """The rows of a job as the basis of its option has them: used starts as estimated.

    What goes on the van in whole packs beyond the estimate starts as left over.
    """
    made_from = read_basis(basis)
    supplied = {supply.material for supply in made_from.supplies}
    return tuple(
        _hours_row(element, made_from.hours)
        if not element.materials
        else _material_row(element, _supply(element, made_from))
        for element in ELEMENTS.values()
        if not element.materials or element.materials & supplied
    )


def with_outcome(usage: Usage, part: Outcome, quantity: Decimal, on_van: Decimal) -> Usage:
    """The row with another quantity of one part; what is left over of a material follows.

    ``on_van`` is what was taken to the job: the rest of it is left over. More than that means that
    more was fetched: nothing is left over then. A leftover that was counted stands.
    """
    match part:
        case Outcome.USED:
            usage = replace(usage, used=quantity)
        case Outcome.WASTED:
            usage = replace(usage, wasted=quantity)
        case Outcome.RETURNED:
            usage = replace(usage, returned=quantity)
        case Outcome.LEFT:
            return replace(usage, left=quantity)
    if not ELEMENTS[usage.element].materials:
        return usage
    rest = on_van - usage.used - usage.wasted - usage.returned
    return replace(usage, left=max(rest, Decimal(0)))


def with_used(usage: Usage, used: Decimal) -> Usage:
    """The row with another quantity used of what was taken."""
    return with_outcome(usage, Outcome.USED, used, usage.taken)


def difference(usage: Usage) -> Decimal:
    """Used less estimated, in the row's unit: above 0 is over the estimate."""
    return usage.used - usage.estimated


def is_far_over(usage: Usage) -> bool:
    """Tell whether more than a fifth over the estimate was used."""
    return usage.used > usage.estimated * _FAR_OVER


def pack_size(basis: str, element: str) -> Decimal:
    """Units of an element in a pack as it was priced; an hour's row has steps of one."""
    row = ELEMENTS[element]
    return _supply(row, read_basis(basis)).price.per_pack if row.materials else Decimal(1)


def in_hand(basis: str) -> Mapping[str, Decimal]:
    """Return what the packs bought and the stock set aside hold, by the key of the row."""
    supplies = read_basis(basis).supplies
    return {
        element.key: supply.taken
        for element in ELEMENTS.values()
        for supply in supplies
        if supply.material in element.materials
    }


def leftovers_to_stock(
    job: Job, usages: Sequence[Usage], on: date, *, ordered: bool = False
) -> tuple[StockMove, ...]:
    """What a job moves out of stock and into it: what the quote counted on, and the leftovers.

    If what it takes was ``ordered`` it went into stock when it came: then all that did not stay
    over goes out, and of nails, which nobody counts, what was reckoned. Recorded again, they
    stand in place of those before. Raises :class:`NotNow` without a quote.
    """
    if job.quote is None:
        raise NotNow("No quote yet, so nothing to compare with.")
    basis = read_basis(job.quote.counting.basis)
    if ordered:
        return tuple(_out_of_stock(job, usages, on, basis))
    moves = []
    for usage in usages:
        element = ELEMENTS[usage.element]
        if not element.materials:
            continue
        supply = _supply(element, basis)
        moves += [
            _move(job, supply, on, -supply.from_stock, "taken to"),
            _move(job, supply, on, usage.left, "left over at"),
        ]
    return tuple(move for move in moves if move.quantity)


def _out_of_stock(
    job: Job, usages: Sequence[Usage], on: date, basis: PricingBasis
) -> Iterator[StockMove]:
    """What goes out of stock for a job whose materials were ordered."""
    counted = {
        material: usage for usage in usages for material in ELEMENTS[usage.element].materials
    }
    for supply in basis.supplies:
        usage = counted.get(supply.material)
        gone = supply.needed if usage is None else usage.taken - usage.left
        if gone:
            yield _move(job, supply, on, -gone, "taken to")


def _hours_row(element: Element, hours: Hours) -> Usage:
    estimated = _hours_by_row(hours)[element.key]
    return Usage(element.key, element.unit, estimated, used=estimated)


def _hours_by_row(hours: Hours) -> Mapping[str, Decimal]:
    """The hours of each row in quarters that come to the whole of the quote's."""
    exact = {
        "hours-strip": hours.strip,
        "hours-lay": hours.underlay + hours.edges + hours.courses + hours.ridges,
        "hours-other": hours.set_up + hours.deck + hours.clearing,
    }
    quarters = apportion([each * 4 for each in exact.values()])
    return {key: Decimal(count) / 4 for key, count in zip(exact, quarters, strict=True)}


def _material_row(element: Element, supply: Supply) -> Usage:
    left = max(supply.taken - supply.needed, Decimal(0))
    return Usage(element.key, element.unit, supply.needed, used=supply.needed, left=left)


def _supply(element: Element, basis: PricingBasis) -> Supply:
    return next(s for s in basis.supplies if s.material in element.materials)


def _move(job: Job, supply: Supply, on: date, quantity: Decimal, why: str) -> StockMove:
    words = f"{why} {job.site.place}"
    return StockMove(supply.material, supply.colour, quantity, on, words, job.id)
