"""The rows of what was used: stepped, typed, accepted; and what they say in words."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.estimate.basis import PricingBasis
from domain.estimate.earned import earned, used_up
from domain.estimate.usage import (
    ELEMENTS,
    Outcome,
    difference,
    estimate,
    is_far_over,
    pack_size,
    with_outcome,
)
from domain.job import Job, Usage
from domain.money import Pence, show_money
from domain.quantity import plural, read_quantity, show_amount, show_quantity
from domain.signs import Sign
from domain.tone import Tone

_HOUR_STEP = Decimal("0.25")
_HOURS = "hours "


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """One row as it stands on the page."""

    usage: Usage
    on_van: Decimal
    """What was taken to the job: left over is the rest of it."""
    accepted: bool = False

    @property
    def words(self) -> str:
        """What the row is about, without its unit."""
        return ELEMENTS[self.usage.element].words.removeprefix(_HOURS)

    @property
    def parts(self) -> tuple[Outcome, ...]:
        """What can be written of it: hours are only used."""
        return tuple(Outcome) if ELEMENTS[self.usage.element].materials else (Outcome.USED,)

    @property
    def far_over(self) -> bool:
        """Whether more than a fifth over the estimate was used."""
        return is_far_over(self.usage)


def material_rows(job: Job) -> tuple[MaterialRow, ...]:
    """What was recorded, or the estimate; none without a quote."""
    usages = job.usages or (estimate(job.quote.counting.basis) if job.quote else ())
    return tuple(MaterialRow(usage, usage.taken, accepted=bool(job.usages)) for usage in usages)


def quantity_of(row: MaterialRow, part: Outcome) -> Decimal:
    """Return the quantity in a part of the row: used, wasted, left over or returned."""
    usage = row.usage
    return {
        Outcome.USED: usage.used,
        Outcome.WASTED: usage.wasted,
        Outcome.LEFT: usage.left,
        Outcome.RETURNED: usage.returned,
    }[part]


def put(row: MaterialRow, part: Outcome, quantity: Decimal) -> MaterialRow:
    """The row with another quantity in a part, and no longer accepted; never less than none."""
    usage = with_outcome(row.usage, part, max(quantity, Decimal(0)), row.on_van)
    on_van = usage.taken if part is Outcome.LEFT else row.on_van
    return MaterialRow(usage, on_van)


def stepped(row: MaterialRow, part: Outcome, by: int) -> MaterialRow:
    """Return the row with so many units more in a part; hours go by the quarter."""
    step = _HOUR_STEP if row.usage.unit == "hour" else Decimal(1)
    return put(row, part, quantity_of(row, part) + by * step)


def stepped_by_pack(row: MaterialRow, part: Outcome, by: int, basis: str) -> MaterialRow:
    """So many packs more, as they were priced in the option of this basis."""
    return put(row, part, quantity_of(row, part) + by * pack_size(basis, row.usage.element))


def typed(row: MaterialRow, part: Outcome, figures: str) -> MaterialRow:
    """The row with the figures as far as they are typed. Raises :class:`Refused`."""
    plain = figures.rstrip(".") or "0"
    plain = f"0{plain}" if plain.startswith(".") else plain
    return put(row, part, read_quantity(row.words.capitalize(), plain, row.usage.unit))


def confirm(row: MaterialRow) -> MaterialRow:
    """Return the row with its figures confirmed as they stand."""
    return replace(row, accepted=True)


def detail(row: MaterialRow, basis: PricingBasis | None = None) -> tuple[str, Tone]:
    """What became of what was taken, how far it is from the estimate, and what it comes to."""
    usage, over = row.usage, difference(row.usage)
    against = "as estimated"
    if over:
        side = "over" if over > 0 else "under"
        against = f"{show_quantity(abs(over))} {side} the estimate"
    tone = Tone.CAUTION if row.far_over else Tone.QUIET
    sign = f"{Sign.CAUTION} over 20% above estimate: " if row.far_over else ""
    if len(row.parts) == 1:
        return f"{sign}{show_amount(usage.used, usage.unit)}, {against}{_cost(row, basis)}", tone
    whole = f"of {show_quantity(usage.taken)} {plural(usage.unit)} taken"
    quantities = [(part, quantity_of(row, part)) for part in Outcome]
    shares = [f"{show_quantity(quantity)} {part}" for part, quantity in quantities if quantity]
    return f"{sign}{against}; {whole}: {', '.join(shares) or 'nothing'}{_cost(row, basis)}", tone


def _cost(row: MaterialRow, basis: PricingBasis | None) -> str:
    """What was used and wasted comes to, as the quote priced it; nothing without its figures."""
    return "" if basis is None else f"; {show_money(used_up(row.usage, basis))}"


def earned_words(job: Job, rows: Sequence[MaterialRow], bought: Pence, *, whole: bool) -> str:
    """Say what the job earns with these rows; nothing before a quote was accepted.

    ``bought`` is what else was bought for it; ``whole`` is with what it took, where there is room.
    """
    made = earned(job, [row.usage for row in rows], bought)
    if made is None:
        return ""
    took = made.bought + made.travel + made.disposal + made.callbacks
    came = show_money(made.agreed + made.extras)
    told = f"Earned {show_money(made.pence)} of {came}"
    if not whole:
        return told
    return (
        f"{told}: materials {show_money(made.materials)}, hours {show_money(made.labour)}, "
        f"other {show_money(took)}"
    )


def bar(row: MaterialRow, width: int) -> tuple[int, int, int]:
    """Cells of the bar: used inside the estimate, used over it, and estimated but not used."""
    used, estimated = row.usage.used, row.usage.estimated
    most = max(used, estimated)
    if not most or width < 1:
        return 0, 0, 0
    inside = int(min(used, estimated) * width / most)
    end = max(inside, int(used * width / most))
    return (inside, width - inside, 0) if used > estimated else (end, 0, width - end)
