"""The cut plan over random apex roofs: how long it takes, how often it is proven, what it saves."""

import random
import time
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from bench.figures import Line, median, nearly_worst
from domain.cutting.lays import classes_of
from domain.cutting.model import CutModel
from domain.setting_out.coverings import SHINGLES, Shingle
from domain.setting_out.roof import Form, Roof, RoofMeasures, build_roof
from domain.takeoff.take_off import TakeOff, take_off
from domain.units import Length

ROOFS = 300
EAVES_MM = (1200, 9000)
SLOPE_MM = (700, 4000)


@dataclass(frozen=True, slots=True)
class Planned:
    """One roof, planned."""

    ms: float
    proven: bool
    strips: int
    row_by_row: int
    """Strips without sharing a tab, each row in the fewest pieces."""


def measure_cuts() -> Iterator[Line]:
    """Plan the roofs and sum up."""
    shingles = list(SHINGLES.values())
    chance = random.Random(1)
    _planned(_roof(chance), shingles[0])  # loads the solver
    plans = [_planned(_roof(chance), chance.choice(shingles)) for _ in range(ROOFS)]
    times = [plan.ms for plan in plans]
    strips, by_rows = sum(p.strips for p in plans), sum(p.row_by_row for p in plans)
    yield Line("roofs planned", f"{ROOFS}")
    yield Line("proven the fewest", f"{sum(p.proven for p in plans) / ROOFS:.1%}")
    yield Line("take-off, median", f"{median(times):.0f} ms")
    yield Line("take-off, 95 of 100 within", f"{nearly_worst(times):.0f} ms")
    yield Line("strips, row by row", f"{by_rows}")
    yield Line("strips, as planned", f"{strips}", f"{1 - strips / by_rows:.1%} fewer")


def _roof(chance: random.Random) -> Roof:
    eaves, slope = (chance.randint(*limits) for limits in (EAVES_MM, SLOPE_MM))
    return build_roof(
        RoofMeasures(Form.APEX, eaves_length=_taped(eaves), slope_length=_taped(slope))
    )


def _taped(mm: int) -> Length:
    return Length(Fraction(mm), f"{mm} mm")


def _planned(roof: Roof, shingle: Shingle) -> Planned:
    begun = time.perf_counter()
    takeoff = take_off(roof, shingle)
    ms = (time.perf_counter() - begun) * 1000
    return Planned(ms, takeoff.plan.proven, takeoff.plan.strips, _row_by_row(takeoff))


def _row_by_row(takeoff: TakeOff) -> int:
    model = CutModel(
        classes_of(takeoff.rows, takeoff.shingle), takeoff.ridge_pieces, takeoff.shingle
    )
    return model.fewest_strips().cost(model.row_by_row())
