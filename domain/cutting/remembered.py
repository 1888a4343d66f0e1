"""The plans that were found last, so that no roof is solved twice in an evening.

A plan hangs on roof and covering alone; how long it may take, and who waits for it, do not matter.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from threading import Lock

from domain.coverings.shingle import Shingle
from domain.cutting.fewest import Fewest
from domain.cutting.plan import TIME_LIMIT_S, CutPlan, Watch, plan_cuts
from domain.cutting.shortest_sheet import ToCover, plan_work
from domain.cutting.working import WorkingPlan
from domain.integer_programme import GoesOn
from domain.setting_out.courses import Row

_LAST = 64
"""Roofs in a covering: more than anybody looks at in an evening."""
_LOCKS = tuple(Lock() for _ in range(16))
"""A roof has always the same: who asks for it meanwhile waits, and solves nothing."""


@dataclass(frozen=True, slots=True)
class _ToCut:
    rows: tuple[Row, ...]
    shingle: Shingle
    ridge_pieces: int
    time_limit_s: float = field(compare=False)
    watch: Watch | None = field(compare=False)


@dataclass(frozen=True, slots=True)
class _ToWork:
    roof: ToCover
    fewest_strips: int
    most_strips: int
    fewest: Fewest = field(compare=False)
    goes_on: GoesOn = field(compare=False)


class _NotProven(Exception):
    """A plan that is not to be remembered."""

    def __init__(self, plan: CutPlan) -> None:
        super().__init__()
        self.plan = plan


def cuts_of(
    rows: Sequence[Row],
    shingle: Shingle,
    ridge_pieces: int,
    time_limit_s: float = TIME_LIMIT_S,
    watch: Watch | None = None,
) -> CutPlan:
    """As :func:`domain.cutting.plan.plan_cuts`; what was proven is remembered."""
    try:
        return _cuts(_ToCut(tuple(rows), shingle, ridge_pieces, time_limit_s, watch))
    except _NotProven as found:
        return found.plan


def work_of(roof: ToCover, fewest: Fewest, most_strips: int, goes_on: GoesOn) -> WorkingPlan:
    """As :func:`domain.cutting.shortest_sheet.plan_work`, remembered."""
    asked = _ToWork(roof, fewest.strips, most_strips, fewest, goes_on)
    with _LOCKS[hash(asked) % len(_LOCKS)]:
        return _work(asked)


@lru_cache(maxsize=_LAST)
def _cuts(roof: _ToCut) -> CutPlan:
    plan = plan_cuts(roof.rows, roof.shingle, roof.ridge_pieces, roof.time_limit_s, roof.watch)
    if not (plan.proven and plan.pieces_proven):
        raise _NotProven(plan)
    return plan


@lru_cache(maxsize=_LAST)
def _work(asked: _ToWork) -> WorkingPlan:
    return plan_work(asked.roof, asked.fewest, asked.most_strips, asked.goes_on)
