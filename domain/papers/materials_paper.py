"""What a roof takes and what was used on it: for the trader, not for the customer."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from domain.errors import NotNow
from domain.estimate.basis import Supply, read_basis
from domain.estimate.usage import ELEMENTS, difference
from domain.job import Job, Usage
from domain.papers.blocks import Column, Paper, Table, Words
from domain.papers.shared_parts import left_over, sentence
from domain.quantity import plural, show_amount, show_quantity, to_quarter
from domain.tone import Tone


def materials_paper(job: Job) -> Paper:
    """Estimate against used; while that is not recorded, what to buy, merchant by merchant.

    What comes from stock is what the quote counted on: recording takes that out of it.

    Raises :class:`NotNow` for a job without a quote.
    """
    if job.usages:
        blocks: Iterable[Table | Words] = (_against_used(job.usages), *_usable(job))
    elif job.quote is not None:
        recorded = Words("What was used is not recorded yet.", tone=Tone.QUIET)
        blocks = (*_to_buy(read_basis(job.quote.counting.basis).supplies), recorded)
    else:
        raise NotNow("There is no quote yet to take the materials from.")
    return Paper(f"Materials {job.ref}", tuple(blocks), (job.site.place, job.customer.name))


def _against_used(usages: tuple[Usage, ...]) -> Table:
    return Table(
        columns=(
            Column("What"),
            Column("Estimated", True),
            Column("Used", True),
            Column("Difference", True),
            Column("Wasted", True),
            Column("Left over", True),
            Column("Returned to merchant", True),
        ),
        rows=tuple(_used(usage) for usage in usages),
        heading="Estimated v used",
    )


def _usable(job: Job) -> Iterator[Words]:
    """The parts of cut strips that stock does not count, since it counts whole ones."""
    supplies = read_basis(job.quote.counting.basis).supplies if job.quote else ()
    for supply in supplies:
        if supply.offcuts:
            yield Words(left_over(supply.offcuts))


def _used(usage: Usage) -> tuple[str, ...]:
    words = sentence(ELEMENTS[usage.element].words)
    unit = "" if usage.unit == "hour" else f", {plural(usage.unit)}"
    if usage.unit == "hour":  # a quote of before kept hundredths
        usage = replace(usage, estimated=to_quarter(usage.estimated))
    over = difference(usage)
    sign = "+" if over > 0 else "−" if over < 0 else ""
    return (
        f"{words}{unit}",
        show_quantity(usage.estimated),
        show_quantity(usage.used),
        f"{sign}{show_quantity(abs(over))}",
        *(show_quantity(each) for each in (usage.wasted, usage.left, usage.returned)),
    )


def _to_buy(supplies: Sequence[Supply]) -> Iterator[Table]:
    """A list for each merchant, in whole packs; then what stock holds all of."""
    bought = [supply for supply in supplies if supply.packs]
    for merchant in dict.fromkeys(supply.price.merchant for supply in bought):
        at = [supply for supply in bought if supply.price.merchant == merchant]
        yield _list(at, f"To buy at {merchant}" if merchant else "To buy")
    held = [supply for supply in supplies if not supply.packs]
    if held:
        yield _list(held, "Nothing to buy: it is all in stock")


def _list(supplies: Iterable[Supply], heading: str) -> Table:
    columns = [Column(t, True) for t in ("To buy", "Needed", "From stock")]
    return Table((Column("What"), *columns), tuple(map(_supply, supplies)), heading)


def _supply(supply: Supply) -> tuple[str, ...]:
    material = supply.material
    return (
        sentence(", ".join(words for words in (material.words, supply.colour) if words)),
        show_amount(Decimal(supply.packs), material.pack_word) if supply.packs else "none",
        show_amount(supply.needed, material.unit),
        show_quantity(supply.from_stock),
    )
