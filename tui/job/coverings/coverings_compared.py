"""What is told of coverings side by side: rows of words, the same row for each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.coverings.registry import name_of
from domain.estimate.compare import Compared, Costed, Counted, Unsuited
from domain.estimate.quoting import cost_and_margin, to_pay
from domain.estimate.weights import show_kg, taken_kg
from domain.job import Job
from domain.money import Pence, show_money
from domain.quantity import show_amount
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import TakeOff
from domain.units import show_mm

_COST, _MARGIN, _PAYS = "Your cost", "Your margin", "They pay"
_NO_PRICE = "no price yet"


@dataclass(frozen=True, slots=True)
class ComparedRow:
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


def covering_title(covering: Compared) -> str:
    """What it is called beside others."""
    return name_of(covering.choice.key)


def compared_rows(
    job: Job, coverings: Sequence[Compared]
) -> tuple[tuple[ComparedRow, ...], tuple[ComparedRow, ...]]:
    """What each takes, and the money; the last row is what each costs beside the survey's own."""
    own = job.survey.covering.key if job.survey and job.survey.covering else None
    costed = [each for each in coverings if isinstance(each, Costed)]
    base = next((to_pay(job, each.option) for each in costed if each.choice.key == own), None)
    takes = _rows([None if isinstance(each, Unsuited) else _takes(each) for each in coverings])
    money = _rows([_money(job, each, base) for each in coverings])
    return takes, tuple(replace(row, counts=row.label == _PAYS) for row in money)


def _rows(told: Sequence[Mapping[str, str] | None]) -> tuple[ComparedRow, ...]:
    """A row for each label, in the order in which they first come."""
    labels = dict.fromkeys(label for each in told if each for label in each)
    return tuple(
        ComparedRow(label, tuple(None if each is None else each.get(label, "") for each in told))
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
        told["Difference"] = f"{show_money(abs(pays - base))} {more}"
    return told
