"""What a roof takes and what was used on it: for the trader, not for the customer."""

from decimal import Decimal

from domain.errors import NotNow
from domain.estimate.basis import Basis, Supply
from domain.estimate.usage import ELEMENTS, difference
from domain.job import Job, Usage
from domain.papers.blocks import Column, Paper, Table, Tone, Words
from domain.papers.parts import sentence
from domain.quantity import plural, show_amount, show_quantity
from domain.snapshot import from_json


def materials_paper(job: Job) -> Paper:
    """Estimate against used; while that is not written up, what to take and what to buy.

    Raises :class:`NotNow` for a job without a quote.
    """
    if job.usages:
        blocks: tuple[Table | Words, ...] = (_against_used(job.usages),)
    elif job.quote is not None:
        written_up = Words("What was used is not written up yet.", tone=Tone.QUIET)
        blocks = (_to_take(from_json(Basis, job.quote.basis).supplies), written_up)
    else:
        raise NotNow("There is no quote yet that says what the roof takes.")
    return Paper(f"Materials {job.ref}", blocks, (job.site.place, job.customer.name))


def _against_used(usages: tuple[Usage, ...]) -> Table:
    return Table(
        columns=(
            Column("What"),
            Column("Estimated", True),
            Column("Used", True),
            Column("Difference", True),
            Column("Wasted", True),
            Column("Left over", True),
            Column("Returned", True),
        ),
        rows=tuple(_used(usage) for usage in usages),
        heading="Estimate against used",
    )


def _used(usage: Usage) -> tuple[str, ...]:
    words = sentence(ELEMENTS[usage.element].words)
    unit = "" if usage.unit == "hour" else f", {plural(usage.unit)}"
    over = difference(usage)
    sign = "+" if over > 0 else "−" if over < 0 else ""
    return (
        f"{words}{unit}",
        show_quantity(usage.estimated),
        show_quantity(usage.used),
        f"{sign}{show_quantity(abs(over))}",
        *(show_quantity(each) for each in (usage.wasted, usage.left, usage.returned)),
    )


def _to_take(supplies: tuple[Supply, ...]) -> Table:
    return Table(
        columns=(
            Column("What"),
            Column("Needed", True),
            Column("From the store", True),
            Column("To buy", True),
            Column("At"),
        ),
        rows=tuple(
            (
                sentence(", ".join(t for t in (s.material.words, s.colour) if t)),
                show_amount(s.needed, s.material.unit),
                show_quantity(s.from_store),
                show_amount(Decimal(s.packs), s.material.pack_word),
                s.price.merchant,
            )
            for s in supplies
        ),
        heading="What the roof takes",
    )
