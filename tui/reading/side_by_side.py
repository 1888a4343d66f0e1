"""What is told of coverings side by side: rows of words, the same row for each.

Pure, but working them out asks for a cut plan of each: not on the thread that draws.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import partial

from domain.cutting.plan import TIME_LIMIT_S, Watch, plan_cuts
from domain.errors import NotNow
from domain.estimate.counted import takeoff_in
from domain.estimate.loading import show_kg, taken_kg
from domain.estimate.quoting import basis_of, cost_and_margin, offer, offered
from domain.estimate.side_by_side import Compared, Costed, Counted, Unsuited, side_by_side
from domain.estimate.supplies import Sources
from domain.job import MOST_OPTIONS, CoveringChoice, Job, Quote
from domain.money import Pence, show_money
from domain.quantity import show_amount
from domain.setting_out.coverings import COVERINGS
from domain.takeoff.felt import FeltTakeOff
from domain.takeoff.take_off import TakeOff
from domain.trader import Trader
from domain.units import show_mm
from tui.reading.plain import COVERING_NAMES
from tui.reading.quote import Stores
from tui.reading.quoted import to_pay

_COST, _MARGIN, _PAYS = "Your cost", "Your margin", "They pay"
_NO_PRICE = "no price yet: F4"


@dataclass(frozen=True, slots=True)
class Row:
    """One thing told of every covering."""

    label: str
    cells: tuple[str | None, ...]
    """Empty for a covering that takes none of it; None for one that cannot be offered."""
    counts: bool = False
    """Whether it is the row that is looked for first."""

    @property
    def differs(self) -> bool:
        """Whether the coverings differ in it."""
        return len({cell for cell in self.cells if cell is not None}) > 1


def compared(
    job: Job, stores: Stores, today: date, watch: Watch | None = None
) -> tuple[Compared, ...]:
    """The roof of the survey in each covering, at today's prices and the miles of the last quote.

    ``watch`` is told how far each cut plan is, and can stop it; all share the time of one.

    Raises :class:`NotNow` before the survey, :class:`domain.errors.Refused` for a roof that cannot
    be drawn.
    """
    survey = job.survey
    if survey is None:
        raise NotNow("There is no roof to compare coverings on yet: write up the survey.")
    sources = Sources(stores.prices, stores.stock, today)

    keys = list(COVERINGS)[:MOST_OPTIONS]
    plan = partial(plan_cuts, time_limit_s=TIME_LIMIT_S / len(keys), watch=watch)

    def count(choice: CoveringChoice) -> TakeOff:
        return takeoff_in(choice, survey, sources, plan)

    return side_by_side(survey, keys, count, stores.trader, sources, miles_of(job))


def miles_of(job: Job) -> Decimal:
    """There and back, a day, as the newest quote was priced with; 0 before there is one."""
    basis = basis_of(job.quotes[-1]) if job.quotes else None
    return basis.miles if basis else Decimal(0)


def keys_beside(job: Job) -> set[str]:
    """The coverings that the newest quote offers beside the survey's own, by their keys."""
    own = job.survey.covering if job.survey else None
    return {choice.key for choice in offered(own, job.quotes)[1:]} if own else set()


def drafted(
    job: Job,
    coverings: Sequence[Compared],
    beside: Collection[str],
    trader: Trader,
    today: date,
) -> Quote:
    """A draft with ``beside`` the survey's own covering, and the deposit of the newest quote.

    What cannot be offered any more beside the survey's own is left out. Raises :class:`NotNow`
    before there is a quote with the miles, and where the survey has no covering or one that cannot
    be offered; :class:`domain.errors.Refused` for a deposit over the least of them.
    """
    own = job.survey.covering if job.survey else None
    if own is None:
        raise NotNow("The survey has no covering yet: take the one that the quote begins with.")
    if not job.quotes:
        raise NotNow("No quote has the miles yet: price it on the quote's sheet first.")
    for each in coverings:
        if each.choice.key == own.key and not isinstance(each, Costed):
            raise NotNow(each.why)
    costed = [each for each in coverings if isinstance(each, Costed)]
    options = [each.option for each in costed if each.choice.key in {own.key, *beside}]
    return offer(job, options, trader, today, job.quotes[-1].deposit)


def named(covering: Compared) -> str:
    """What it is called beside others."""
    return COVERING_NAMES[covering.choice.key]


def rows_of(job: Job, coverings: Sequence[Compared]) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """What each takes, and the money; the last row is what each costs beside the survey's own."""
    own = job.survey.covering.key if job.survey and job.survey.covering else None
    costed = [each for each in coverings if isinstance(each, Costed)]
    base = next((to_pay(job, each.option) for each in costed if each.choice.key == own), None)
    takes = _rows([None if isinstance(each, Unsuited) else _takes(each) for each in coverings])
    money = _rows([_money(job, each, base) for each in coverings])
    return takes, tuple(replace(row, counts=row.label == _PAYS) for row in money)


def _rows(told: Sequence[Mapping[str, str] | None]) -> tuple[Row, ...]:
    """A row for each label, in the order in which they first come."""
    labels = dict.fromkeys(label for each in told if each for label in each)
    return tuple(
        Row(label, tuple(None if each is None else each.get(label, "") for each in told))
        for label in labels
    )


def _takes(covering: Costed | Counted) -> dict[str, str]:
    """Courses or rows of a slope, what is bought and weighs, hours."""
    known = covering.basis if isinstance(covering, Costed) else covering
    told = _rises(covering.take_off)
    first, *others = known.supplies
    told["Covering"] = show_amount(Decimal(first.packs), first.material.pack_word)
    for each in others:
        label = each.material.words.capitalize()
        told[label] = show_amount(Decimal(each.packs), each.material.pack_word)
    told["On the van"] = show_kg(taken_kg(known.supplies))
    return told | {"Hours": show_amount(known.hours.whole, "hour")}


def _rises(takeoff: TakeOff) -> dict[str, str]:
    """How many rows of the covering go up the first slope."""
    if isinstance(takeoff, FeltTakeOff):
        return {"Rows": str(len(takeoff.lay.rows[0]))}
    courses = takeoff.courses[0]
    return {"Courses": f"{courses.count} at {show_mm(courses.exposure)}"}


def _money(job: Job, covering: Compared, base: Pence | None) -> dict[str, str] | None:
    """Cost and margin, the trader's alone; what the customer pays, and how that is to ``base``.

    Without a price, where to give it; None for a covering that does not suit.
    """
    if isinstance(covering, Unsuited):
        return None
    if isinstance(covering, Counted):
        return {_COST: "", _MARGIN: "", _PAYS: _NO_PRICE}
    margin, pays = cost_and_margin(covering.option), to_pay(job, covering.option)
    told = {
        _COST: show_money(margin.cost),
        _MARGIN: show_money(margin.pence),
        _PAYS: show_money(pays),
    }
    if base is not None and pays != base:
        more = "more" if pays > base else "less"
        told["That is"] = f"{show_money(abs(pays - base))} {more}"
    return told
