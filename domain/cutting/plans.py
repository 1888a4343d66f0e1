"""The two plans of a roof as they are kept: that of the fewest strips, and the one to work by."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from domain.coverings.shingle import Shingle
from domain.cutting.fewest import Fewest
from domain.cutting.offcuts import parts_left
from domain.cutting.working import WayOfLaying, WorkingPlan
from domain.setting_out.courses import Row


@dataclass(frozen=True, slots=True)
class Plans:
    """Both plans of a roof in one covering, from the day on which it was priced."""

    on: date
    fewest: Fewest
    working: WorkingPlan


def fits(plan: WorkingPlan, rows: Sequence[Row], shingle: Shingle, ridge_pieces: int) -> bool:
    """Whether a plan is one of these rows, each laid once, and of so many ridge pieces."""
    found = {(row.slope, row.course): row for row in rows}
    laid = [
        ((slope, course), way)
        for way in plan.laying
        for slope in way.slopes
        for course in way.courses
    ]
    if sorted(place for place, _ in laid) != sorted(found):
        return False
    if not all(_is_laid_by(found[place], way, shingle) for place, way in laid):
        return False
    return min(parts_left(plan, shingle, ridge_pieces).values(), default=0) >= 0


def _is_laid_by(row: Row, way: WayOfLaying, shingle: Shingle) -> bool:
    """Whether a row is as wide as the pieces of a way, its first joint on a tab line."""
    if sum((piece.length for piece in way.pieces), Fraction(0)) != row.u1 - row.u0:
        return False
    joint = row.u0 - way.start if way.start is not None else row.u0 + way.pieces[0].length
    return (joint - row.offset) % shingle.tab == 0
