"""What is left of the strips that are cut: parts that another job can use."""

from collections import Counter
from dataclasses import dataclass

from domain.coverings.shingle import Shingle
from domain.cutting.sheet_patterns import run_of
from domain.cutting.working import CutPart, WorkingPlan


@dataclass(frozen=True, slots=True)
class Offcut:
    """Whole tabs side by side that nothing needs."""

    tabs: int
    count: int
    """How many there are."""


def offcuts_of(plan: WorkingPlan, shingle: Shingle, ridge_pieces: int) -> tuple[Offcut, ...]:
    """Whole tabs side by side that nothing needs, the longest first."""
    tabs: Counter[int] = Counter()
    for part, count in parts_left(plan, shingle, ridge_pieces).items():
        tabs[int(part.length // shingle.tab)] += count
    return tuple(
        Offcut(size, tabs[size]) for size in sorted(tabs, reverse=True) if size and tabs[size]
    )


def parts_left(plan: WorkingPlan, shingle: Shingle, ridge_pieces: int) -> Counter[CutPart]:
    """Of each part, how many are cut over those that are laid; less than 0 if too few are."""
    parts: Counter[CutPart] = Counter()
    for cut in plan.cutting:
        for part in cut.parts:
            parts[part] += cut.times
    for way in plan.laying:
        for piece in way.pieces:
            parts[piece.part] -= way.rows
    parts[run_of(shingle.tabs, shingle)] = 0  # whole strips are not cut
    parts[run_of(1, shingle)] -= ridge_pieces
    return parts
