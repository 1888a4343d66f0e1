"""The figures of a take-off laid out for other programs, as JSON would hold them."""

from fractions import Fraction

from domain.cutting.working import WayOfLaying, WorkingPlan
from domain.exact import half_up
from domain.setting_out.courses import Courses
from domain.setting_out.flat_slopes import Slope
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, TakeOff, packs_for, plan_to_work_by


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
        "cut_plan_at_least": takeoff.fewest.bound,
        "proven": takeoff.fewest.proven,
        "row_by_row_strips": takeoff.fewest.row_by_row,
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
        "working": _working_as_json(takeoff, plan_to_work_by(takeoff)),
    }


def _working_as_json(takeoff: ShingleTakeOff, plan: WorkingPlan) -> dict[str, object]:
    """Lay out the plan to work by: its figures, its cut table and its laying table."""
    needed = takeoff.covering.with_breakage(plan.strips + takeoff.strips.edge)
    return {
        "strips": plan.strips,
        "strips_to_buy": needed - min(takeoff.packing.loose_strips, needed),
        "packs": packs_for(needed, takeoff.packing),
        "whole": plan.whole,
        "pieces": plan.pieces,
        "shingle_nails": plan.nails,
        "sheet_lines": plan.lines,
        "cuts": [
            {
                "times": way.times,
                "cuts_mm": [_decimals(cut, 2) for cut in way.cuts],
                "kinds": [part.kind.value for part in way.parts],
            }
            for way in plan.cutting
        ],
        "rows": [_laying_as_json(way) for way in plan.laying],
    }


def _laying_as_json(way: WayOfLaying) -> dict[str, object]:
    """Lay out a line of the laying table."""
    start = {} if way.start is None else {"start_mm": _decimals(way.start, 2)}
    return {
        "slopes": [index + 1 for index in way.slopes],
        "courses": list(way.courses),
        **start,
        "lay_mm": [_decimals(piece.length, 2) for piece in way.pieces],
        "from_mm": [_decimals(piece.part.length, 2) for piece in way.pieces],
        "kinds": [piece.part.kind.value for piece in way.pieces],
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


def _decimals(value: Fraction, places: int) -> float:
    """Round half up for showing; the float is printed with no more than the places asked for."""
    scale: int = 10**places
    return half_up(value * scale) / scale
