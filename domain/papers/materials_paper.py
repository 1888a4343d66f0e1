"""What a roof takes and what was used on it: for the trader, not for the customer."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from domain.books.margin import Paid, bought_for, left_as_paid
from domain.errors import NotNow
from domain.estimate.basis import PricingBasis, Supply, read_basis
from domain.estimate.earned import Earned, cost_of, earned, uncounted, used_up, worth
from domain.estimate.quoting import basis_of
from domain.estimate.usage import ELEMENTS, difference
from domain.job import Job, LineKind, Usage
from domain.money import show_money
from domain.papers.blocks import Block, Column, Details, Paper, Table, Words
from domain.papers.shared_parts import left_over, sentence
from domain.quantity import plural, show_amount, show_quantity, to_quarter
from domain.tone import Tone


def materials_paper(job: Job, paid: Paid | None = None) -> Paper:
    """Estimate against used; while that is not recorded, what to buy, merchant by merchant.

    What comes from stock is what the quote counted on: recording takes that out of it. With what
    was ``paid``, what the job left by the slips stands below what it earned as quoted.

    Raises :class:`NotNow` for a job without a quote.
    """
    if job.usages:
        as_paid = None if paid is None else left_as_paid(job, paid)
        parts = (*_against_used(job), *_usable(job), *_earned(job, paid))
        blocks: Iterable[Block] = (*parts, *([] if as_paid is None else [_left(as_paid)]))
    elif job.quote is not None:
        recorded = Words("What was used is not recorded yet.", tone=Tone.QUIET)
        blocks = (*_to_buy(read_basis(job.quote.counting.basis).supplies), recorded)
    else:
        raise NotNow("There is no quote yet to take the materials from.")
    return Paper(f"Materials {job.ref}", tuple(blocks), (job.site.place, job.customer.name))


_PARTS = (("Wasted", "wasted"), ("Left over", "left"), ("Returned", "returned"))
"""What else became of what was taken, by its column."""


def _against_used(job: Job) -> Iterator[Block]:
    """Quantities and what they come to; a column that would be empty is left out."""
    basis = basis_of(job.quote) if job.quote is not None else None
    rows = [_used(usage, basis) for usage in job.usages]
    if basis is not None:
        rows += [_reckoned(supply, basis) for supply in uncounted(basis)]
    titles = ("What", "Estimated", "Used", "Difference", *(title for title, _ in _PARTS), "Cost")
    filled = [at for at in range(len(titles)) if any(row[at] for row in rows)]
    yield Table(
        columns=tuple(Column(titles[at], number=at > 0) for at in filled),
        rows=tuple(tuple(row[at] for at in filled) for row in rows),
        heading="Estimated v used",
    )
    if basis is not None:
        yield Words(
            "The cost is what was used and wasted, as the quote priced it.", tone=Tone.QUIET
        )


def _earned(job: Job, paid: Paid | None) -> Iterator[Block]:
    """What the job earned, and what it is made of."""
    bought = 0 if paid is None else bought_for(job, paid)
    made = earned(job, job.usages, bought)
    if made is None:
        return
    yield _made_of(made, "What the job earned", "Earned")
    if not bought and _has_boards(job):
        words = "Boards are not in it: no purchase is booked to this job yet."
        yield Words(words, tone=Tone.QUIET)


def _left(made: Earned) -> Details:
    """The same by what was paid."""
    return _made_of(made, "What it left, by your slips and miles", "Left")


def _made_of(made: Earned, heading: str, what: str) -> Details:
    took = (
        ("Materials used", made.materials),
        ("Boards and what else was bought for it", made.bought),
        ("Travel", made.travel),
        ("Old covering taken away", made.disposal),
        (f"Your hours, {show_amount(to_quarter(made.worked), 'hour')}", made.labour),
        ("Callbacks", made.callbacks),
    )
    came = (("Price agreed", made.agreed), ("Extras agreed", made.extras))
    return Details(
        (
            *((words, show_money(pence)) for words, pence in came if pence),
            *((words, show_money(-pence)) for words, pence in took if pence),
            (what, show_money(made.pence)),
        ),
        heading,
    )


def _has_boards(job: Job) -> bool:
    """Whether boards were quoted, or agreed by the metre as an extra."""
    lines = job.quote.counting.lines if job.quote is not None else ()
    quoted = any(line.kind is LineKind.DECK for line in lines)
    return quoted or any(each.unit == "m" for each in job.extras)


def _usable(job: Job) -> Iterator[Words]:
    """The parts of cut strips that stock does not count, since it counts whole ones."""
    supplies = read_basis(job.quote.counting.basis).supplies if job.quote else ()
    for supply in supplies:
        if supply.offcuts:
            yield Words(left_over(supply.offcuts))


def _used(usage: Usage, basis: PricingBasis | None) -> tuple[str, ...]:
    """One row; what does not differ, and what there is none of, stays empty."""
    words = sentence(ELEMENTS[usage.element].words)
    unit = "" if usage.unit == "hour" else f", {plural(usage.unit)}"
    if usage.unit == "hour":  # a quote of before kept hundredths
        usage = replace(usage, estimated=to_quarter(usage.estimated), used=to_quarter(usage.used))
    return (
        f"{words}{unit}",
        show_quantity(usage.estimated),
        show_quantity(usage.used),
        _apart(usage, basis),
        *(_some(getattr(usage, part)) for _, part in _PARTS),
        show_money(used_up(usage, basis)) if basis is not None else "",
    )


def _apart(usage: Usage, basis: PricingBasis | None) -> str:
    """How far it is from the estimate, and what that comes to: ``+2, £3.00``."""
    over = difference(usage)
    if not over:
        return ""
    apart = f"{'+' if over > 0 else '−'}{show_quantity(abs(over))}"
    return f"{apart}, {show_money(worth(usage, abs(over), basis))}" if basis is not None else apart


def _reckoned(supply: Supply, basis: PricingBasis) -> tuple[str, ...]:
    """What nobody counts, such as nails: used as reckoned."""
    needed = show_quantity(supply.needed)
    cost = show_money(cost_of(supply, supply.needed, basis))
    words = f"{sentence(supply.material.words)}, not counted"
    return (words, needed, needed, "", *("" for _ in _PARTS), cost)


def _some(quantity: Decimal) -> str:
    return show_quantity(quantity) if quantity else ""


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
