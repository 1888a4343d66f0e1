"""The take-off: everything that one roof takes in one covering, counted."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import TypeAlias

from domain.coverings.felt import Felt
from domain.coverings.pitch import check_pitch
from domain.coverings.registry import Covering
from domain.coverings.shingle import Shingle
from domain.cutting.plan import CutPlan, plan_cuts
from domain.exact import half_up
from domain.setting_out.checks import not_too_large
from domain.setting_out.courses import Courses, Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Roof, Slope
from domain.takeoff.edging import edge_strips, ridge_pieces
from domain.takeoff.felt_takeoff import FeltTakeOff, take_off_felt
from domain.takeoff.fixings import Fixings, fix
from domain.takeoff.packing import Packing, usual_packing
from domain.takeoff.rolls import RollLay, lay_rolls

PlanCuts: TypeAlias = Callable[[Sequence[Row], Shingle, int], CutPlan]
"""Finds the cut plan of the rows and so many ridge and hip pieces."""


@dataclass(frozen=True, slots=True)
class Strips:
    """Strips of the covering, from the roof to the merchant's counter."""

    cut_plan: int
    """In courses, ridges and hips."""
    edge: int
    """Along the free edges, their tabs cut off."""
    breakage: int
    """Had in hand beyond what is laid."""
    from_stock: int
    """Loose strips that serve."""
    packs: int
    saved: int
    """Fewer than if every row were cut from fresh strips by itself."""
    packs_saved: int
    """Fewer than that would take."""

    @property
    def laid(self) -> int:
        """All that go on the roof."""
        return self.cut_plan + self.edge

    @property
    def to_buy(self) -> int:
        """What is laid and the breakage, less what stock gives."""
        return self.laid + self.breakage - self.from_stock


@dataclass(frozen=True, slots=True)
class ShingleTakeOff:
    """What a roof takes in shingles."""

    roof: Roof
    covering: Shingle
    packing: Packing
    courses: tuple[Courses, ...]
    """Of every slope, in the roof's order."""
    rows: tuple[Row, ...]
    """Of every slope, from the eaves up."""
    plan: CutPlan
    ridge_pieces: int
    """Over ridges and hips."""
    strips: Strips
    underlay: RollLay
    fixings: Fixings
    cautions: tuple[str, ...]
    """What is in doubt, each a sentence."""


TakeOff: TypeAlias = ShingleTakeOff | FeltTakeOff
"""What a roof takes, whatever covers it; each has roof, covering, packing, cautions."""


def take_off(
    roof: Roof,
    covering: Covering,
    packing: Packing | None = None,
    plan_cuts: PlanCuts = plan_cuts,
) -> TakeOff:
    """Count everything that a roof takes in one covering; ``plan_cuts`` is for shingles alone.

    Raises :class:`Refused` if the covering does not suit the pitch or a slope is too short for it,
    and for a roof larger than is counted.
    """
    not_too_large(roof.area)
    packing = packing or usual_packing(covering)
    if isinstance(covering, Felt):
        return take_off_felt(roof, covering, packing)
    return take_off_shingles(roof, covering, packing, plan_cuts)


def take_off_shingles(
    roof: Roof,
    shingle: Shingle,
    packing: Packing | None = None,
    plan_cuts: PlanCuts = plan_cuts,
) -> ShingleTakeOff:
    """Count everything that a roof takes in shingles.

    Raises :class:`Refused` if the shingles do not suit the pitch or a slope is too short for them.
    """
    packing = packing or usual_packing(shingle)
    cautions = roof.cautions + check_pitch(shingle, roof.pitch)
    courses = tuple(lay_courses(slope, shingle) for slope in roof.slopes)
    laid = _rows(roof, courses, shingle)
    closing = ridge_pieces(roof.closed_runs, shingle)
    plan = plan_cuts(laid, shingle, closing)
    return ShingleTakeOff(
        roof=roof,
        covering=shingle,
        packing=packing,
        courses=courses,
        rows=laid,
        plan=plan,
        ridge_pieces=closing,
        strips=_strips(plan, edge_strips(roof, shingle), shingle, packing),
        underlay=lay_rolls(roof, packing.underlay),
        fixings=fix(roof, plan.pieces, closing, shingle, packing.nails_in_box),
        cautions=cautions + _doubts(plan),
    )


def as_json(takeoff: TakeOff) -> dict[str, object]:
    """Lay the figures out for other programs: lengths to two decimals, areas to four, half up."""
    if isinstance(takeoff, FeltTakeOff):
        return _felt_as_json(takeoff)
    return _shingles_as_json(takeoff)


def _shingles_as_json(takeoff: ShingleTakeOff) -> dict[str, object]:
    """Lay out the figures of a roof in shingles."""
    slopes = zip(takeoff.roof.slopes, takeoff.courses, strict=True)
    return {
        "area_m2": _decimals(takeoff.roof.area / 10**6, 4),
        "slopes": [_slope_as_json(slope, courses) for slope, courses in slopes],
        "ridge_pieces": takeoff.ridge_pieces,
        "cut_plan_strips": takeoff.strips.cut_plan,
        "cut_plan_at_least": takeoff.plan.bound,
        "proven": takeoff.plan.proven,
        "row_by_row_strips": takeoff.plan.row_by_row,
        "packs_saved": takeoff.strips.packs_saved,
        "edge_strips": takeoff.strips.edge,
        "strips_to_buy": takeoff.strips.to_buy,
        "strips_per_pack": takeoff.packing.strips_per_pack,
        "packs": takeoff.strips.packs,
        "underlay_rows": takeoff.underlay.rows,
        "underlay_rolls": takeoff.underlay.rolls,
        "shingle_nails": takeoff.fixings.shingle_nails,
        "ridge_nails": takeoff.fixings.ridge_nails,
        "edge_nails": takeoff.fixings.edge_nails,
        "underlay_nails": takeoff.fixings.underlay_nails,
        "mastic_m": _decimals(takeoff.fixings.mastic / 1000, 2),
        "mastic_cartridges": takeoff.fixings.cartridges,
        "flashing_m": _decimals(takeoff.roof.flashing / 1000, 2),
        "valley_m": _decimals(takeoff.roof.valley / 1000, 2),
    }


def _slope_as_json(slope: Slope, courses: Courses) -> dict[str, object]:
    """Lay one slope's figures out."""
    return {
        "slope_mm": _decimals(slope.length, 2),
        "courses": courses.count,
        "exposure_mm": _decimals(courses.exposure, 2),
        "final_exposure_mm": _decimals(courses.final_exposure, 2),
        "chalk_lines_mm": [_decimals(line, 2) for line in courses.chalk_lines],
    }


def _felt_as_json(takeoff: FeltTakeOff) -> dict[str, object]:
    """Lay out the figures of a roof in felt."""
    lay, fixings = takeoff.lay, takeoff.fixings
    slopes = zip(takeoff.roof.slopes, lay.rows, strict=True)
    return {
        "area_m2": _decimals(takeoff.roof.area / 10**6, 4),
        "slopes": [
            {
                "slope_mm": _decimals(slope.length, 2),
                "rows": len(rows),
                "row_lengths_mm": [_decimals(row, 2) for row in rows],
            }
            for slope, rows in slopes
        ],
        "felt_rows": lay.lengths.rows,
        "sheet_rolls": lay.lengths.rolls,
        "capping_strips": lay.capping.rolls,
        "capping_rolls": lay.capping_rolls,
        "felt_rolls": lay.rolls,
        "felt_m": _decimals(lay.laid / 1000, 2),
        "side_lap_m": _decimals(sum(lay.side_laps, Fraction(0)) / 1000, 2),
        "end_laps": lay.lengths.end_laps,
        "edge_nails": fixings.edge_nails,
        "lap_nails": fixings.lap_nails,
        "capping_nails": fixings.capping_nails,
        "adhesive_m": _decimals(fixings.adhesive / 1000, 2),
        "adhesive_tins": fixings.tins,
    }


def _rows(roof: Roof, courses: Sequence[Courses], shingle: Shingle) -> tuple[Row, ...]:
    """Return the rows of all slopes."""
    slopes = enumerate(zip(roof.slopes, courses, strict=True))
    return tuple(
        row for index, (slope, up) in slopes for row in rows_of_slope(index, slope, up, shingle)
    )


def _strips(plan: CutPlan, edge: int, shingle: Shingle, packing: Packing) -> Strips:
    """Count what is bought, and what row by row would have been bought more."""
    laid = plan.strips + edge
    needed = shingle.with_breakage(laid)
    packs = _packs(needed, packing)
    by_rows = shingle.with_breakage(plan.row_by_row + edge)
    return Strips(
        cut_plan=plan.strips,
        edge=edge,
        breakage=needed - laid,
        from_stock=min(packing.loose_strips, needed),
        packs=packs,
        saved=plan.saved,
        packs_saved=_packs(by_rows, packing) - packs,
    )


def _packs(needed: int, packing: Packing) -> int:
    """Loose strips never make it less than none."""
    return ceil(Fraction(max(0, needed - packing.loose_strips), packing.strips_per_pack))


def _doubts(plan: CutPlan) -> tuple[str, ...]:
    """Tell of what the cut plan could not prove in the time it had."""
    doubts = []
    if not plan.proven:
        doubts.append(
            f"Strips: {plan.strips} found; not proven to be the fewest, could be as few as "
            f"{plan.bound}."
        )
    if not plan.pieces_proven:
        doubts.append("Shingle nails: the count may be high, as the fewest pieces are not proven.")
    return tuple(doubts)


def _decimals(value: Fraction, places: int) -> float:
    """Round half up for showing; the float is printed with no more than the places asked for."""
    scale: int = 10**places
    return half_up(value * scale) / scale
