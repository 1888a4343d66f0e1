"""The cut plan over random roofs: how long it takes, how often it is proven, what it saves."""

import random
import time
from collections.abc import Iterator
from dataclasses import dataclass

from bench.figures import Line, median, nearly_worst
from bench.roofs import FORMS, Rows, apex, hip, pyramid, taped
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import CutPlan, plan_cuts

ROOFS = 200

SIZES = {
    "a shed, apex of 2 m": apex(SQUARE_BUTT, 2000, 1000),
    "a garage, apex of 6 × 5 m": apex(SQUARE_BUTT, 6000, 2900),
    "a summerhouse, hip of 3.6 × 2.4 m": hip(SQUARE_BUTT, 3600, 2400, 30),
    "a garage, hip of 6 × 4 m": hip(SQUARE_BUTT, 6000, 4000, 30),
    "a garage, hip of 9 × 5 m": hip(SQUARE_BUTT, 9000, 5000, 30),
    "a garage, hip of 12 × 6 m": hip(SQUARE_BUTT, 12000, 6000, 30),
    "a summerhouse of 8 sides of 1.2 m": pyramid(SQUARE_BUTT, 8, 1200, 30),
    "a pavilion of 12 sides of 1.5 m": pyramid(SQUARE_BUTT, 12, 1500, 30),
    "6 slopes, none like another": taped(SQUARE_BUTT, 6),
    "24 slopes, none like another": taped(SQUARE_BUTT, 24),
}


@dataclass(frozen=True, slots=True)
class Planned:
    """One roof, planned."""

    roof: Rows
    plan: CutPlan
    ms: float
    at_once_ms: float
    """Until there is a plan made by hand."""


def measure_cuts() -> Iterator[Line]:
    """Plan as many roofs of every form as make :data:`ROOFS`, and some of known size."""
    chance = random.Random(1)
    _planned(SIZES["a shed, apex of 2 m"])  # loads the solver
    for form, draw in FORMS.items():
        plans = [_planned(draw(chance)) for _ in range(ROOFS // len(FORMS))]
        yield Line(form, f"{len(plans)} roofs")
        yield from _summed_up(plans)
    for name, roof in SIZES.items():
        planned = _planned(roof)
        proof = "proven" if planned.plan.proven else f"{planned.plan.bound} at least"
        yield Line(name, f"{planned.ms:.0f} ms", f"{planned.plan.strips} strips, {proof}")


def _summed_up(plans: list[Planned]) -> Iterator[Line]:
    times, at_once = [p.ms for p in plans], [p.at_once_ms for p in plans]
    strips = sum(p.plan.strips for p in plans)
    by_rows, covered = sum(p.plan.row_by_row for p in plans), sum(p.roof.covered for p in plans)
    proven = sum(p.plan.proven for p in plans) / len(plans)
    yield Line("  proven the fewest", f"{proven:.1%}")
    yield Line("  planned, median", f"{median(times):.0f} ms")
    yield Line("  planned, 95 of 100 within", f"{nearly_worst(times):.0f} ms")
    yield Line("  planned, all within", f"{max(times):.0f} ms")
    yield Line("  a plan by hand, all within", f"{max(at_once):.0f} ms")
    yield Line("  strips of those row by row", f"{strips / by_rows:.3f}")
    yield Line("  strips of those that would just cover it", f"{strips / covered:.3f}")


def _planned(roof: Rows) -> Planned:
    begun = time.perf_counter()
    plan_cuts(roof.rows, roof.shingle, roof.ridge_pieces, time_limit_s=0)
    between = time.perf_counter()
    plan = plan_cuts(roof.rows, roof.shingle, roof.ridge_pieces)
    ended = time.perf_counter()
    return Planned(roof, plan, (ended - between) * 1000, (between - begun) * 1000)
