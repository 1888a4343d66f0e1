"""The take-off: everything that one roof takes in one covering, counted."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import TypeAlias

from domain.coverings.felt import Felt
from domain.coverings.pitch import check_pitch
from domain.coverings.registry import Covering
from domain.coverings.shingle import Shingle
from domain.cutting.fewest import Fewest, fewest_of
from domain.cutting.laid import laid_pieces
from domain.cutting.offcuts import Offcut, offcuts_of
from domain.cutting.plan import CutPlan
from domain.cutting.plans import Plans, fits
from domain.cutting.remembered import cuts_of, work_of
from domain.cutting.shortest_sheet import ToCover
from domain.cutting.working import WorkingPlan
from domain.integer_programme import GoesOn, always
from domain.setting_out.checks import not_too_large
from domain.setting_out.courses import Courses, Row, lay_courses, rows_of_slope
from domain.setting_out.flat_slopes import Roof
from domain.takeoff.edging import edge_strips, ridge_pieces
from domain.takeoff.felt_takeoff import FeltTakeOff, take_off_felt
from domain.takeoff.fixings import STEEP, Fixings, fix
from domain.takeoff.packing import Packing, usual_packing
from domain.takeoff.rolls import RollLay, lay_rolls

PlanCuts: TypeAlias = Callable[[Sequence[Row], Shingle, int], CutPlan]
"""Finds the cut plan of the rows and so many ridge and hip pieces."""


@dataclass(frozen=True, slots=True)
class Strips:
    """Strips of the covering, from the roof to the merchant's counter."""

    cut_plan: int
    """In courses, ridges and hips, by the plan that is counted."""
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
    fewest: Fewest
    """The cut plan of the fewest strips."""
    ridge_pieces: int
    """Over ridges and hips."""
    strips: Strips
    underlay: RollLay
    fixings: Fixings
    cautions: tuple[str, ...]
    """What is in doubt, each a sentence."""
    working: WorkingPlan | None = None
    """The plan to work by: strips and fixings count it. None before it is worked out; they count
    the fewest then."""

    @property
    def over_fewest(self) -> int:
        """How many strips the plan to work by takes over the fewest."""
        return self.strips.cut_plan - self.fewest.strips

    @property
    def offcuts(self) -> tuple[Offcut, ...]:
        """What is left of the strips that are cut, and can be used."""
        plan = self.working or self.fewest.ways
        return offcuts_of(plan, self.covering, self.ridge_pieces)


TakeOff: TypeAlias = ShingleTakeOff | FeltTakeOff
"""What a roof takes, whatever covers it; each has roof, covering, packing, cautions."""


def take_off(
    roof: Roof,
    covering: Covering,
    packing: Packing | None = None,
    plan_cuts: PlanCuts = cuts_of,
    kept: Plans | None = None,
) -> TakeOff:
    """Count everything that a roof takes in one covering; the plans are for shingles alone.

    It is counted by the plans that were ``kept`` if they are of this roof.

    Raises :class:`Refused` if the covering does not suit the pitch or a slope is too short for it,
    and for a roof larger than is counted.
    """
    not_too_large(roof.area)
    packing = packing or usual_packing(covering)
    if isinstance(covering, Felt):
        return take_off_felt(roof, covering, packing)
    return take_off_shingles(roof, covering, packing, plan_cuts, kept)


def take_off_shingles(
    roof: Roof,
    shingle: Shingle,
    packing: Packing | None = None,
    plan_cuts: PlanCuts = cuts_of,
    kept: Plans | None = None,
) -> ShingleTakeOff:
    """Count everything that a roof takes in shingles.

    It is worked out only if ``kept`` holds the plans of this roof. Raises :class:`Refused` if the
    shingles do not suit the pitch or a slope is too short for them.
    """
    packing = packing or usual_packing(shingle)
    cautions = roof.cautions + check_pitch(shingle, roof.pitch) + tuple(_steep(roof))
    courses = tuple(lay_courses(slope, shingle) for slope in roof.slopes)
    laid = _rows(roof, courses, shingle)
    closing = ridge_pieces(roof.closed_runs, shingle)
    if kept is not None and not fits(kept.working, laid, shingle, closing):
        kept = None
    fewest = (
        kept.fewest if kept else fewest_of(plan_cuts(laid, shingle, closing), roof.slopes, shingle)
    )
    takeoff = ShingleTakeOff(
        roof=roof,
        covering=shingle,
        packing=packing,
        courses=courses,
        rows=laid,
        fewest=fewest,
        ridge_pieces=closing,
        strips=_strips(fewest, fewest.strips, edge_strips(roof, shingle), shingle, packing),
        underlay=lay_rolls(roof, packing.underlay),
        fixings=_fixed(fewest.ways, roof, laid, closing, shingle, packing),
        cautions=cautions + _doubts(fewest),
    )
    return by_plan(takeoff, kept.working) if kept else takeoff


def worked_out(takeoff: TakeOff, goes_on: GoesOn = always) -> TakeOff:
    """The take-off by the plan to work by: what is shown, printed, nailed and cut by.

    It takes up to three seconds. One in felt, or worked out already, stays as it is. Raises
    :class:`domain.integer_programme.Stopped` once ``goes_on`` says no.
    """
    if isinstance(takeoff, FeltTakeOff) or takeoff.working is not None:
        return takeoff
    return by_plan(takeoff, plan_to_work_by(takeoff, goes_on))


def by_plan(takeoff: ShingleTakeOff, working: WorkingPlan) -> ShingleTakeOff:
    """The take-off with its strips and fixings counted by a plan to work by."""
    shingle, packing = takeoff.covering, takeoff.packing
    roof, rows, closing = takeoff.roof, takeoff.rows, takeoff.ridge_pieces
    return replace(
        takeoff,
        working=working,
        strips=_strips(takeoff.fewest, working.strips, takeoff.strips.edge, shingle, packing),
        fixings=_fixed(working, roof, rows, closing, shingle, packing),
    )


def plan_to_work_by(takeoff: ShingleTakeOff, goes_on: GoesOn = always) -> WorkingPlan:
    """The plan with the shortest sheet, of those that need no more packs than the fewest strips.

    Raises :class:`domain.integer_programme.Stopped` once ``goes_on`` says no.
    """
    strips, per_pack = takeoff.strips, takeoff.packing.strips_per_pack
    most = strips.cut_plan
    held = takeoff.packing.loose_strips + strips.packs * per_pack
    while takeoff.covering.with_breakage(most + 1 + strips.edge) <= held:
        most += 1
    roof = ToCover(takeoff.roof.slopes, takeoff.rows, takeoff.covering, takeoff.ridge_pieces)
    return work_of(roof, takeoff.fewest, most, goes_on)


def _rows(roof: Roof, courses: Sequence[Courses], shingle: Shingle) -> tuple[Row, ...]:
    """Return the rows of all slopes."""
    slopes = enumerate(zip(roof.slopes, courses, strict=True))
    return tuple(
        row for index, (slope, up) in slopes for row in rows_of_slope(index, slope, up, shingle)
    )


def _fixed(
    plan: WorkingPlan,
    roof: Roof,
    rows: Sequence[Row],
    closing: int,
    shingle: Shingle,
    packing: Packing,
) -> Fixings:
    """Count nails and mastic by the pieces of a plan."""
    pieces = (laid.piece for laid in laid_pieces(plan, rows))
    return fix(roof, rows, pieces, closing, shingle, packing.nail_boxes)


def _strips(
    fewest: Fewest, in_courses: int, edge: int, shingle: Shingle, packing: Packing
) -> Strips:
    """Count what is bought, and what row by row would have been bought more."""
    laid = in_courses + edge
    needed = shingle.with_breakage(laid)
    packs = packs_for(needed, packing)
    by_rows = shingle.with_breakage(fewest.row_by_row + edge)
    return Strips(
        cut_plan=in_courses,
        edge=edge,
        breakage=needed - laid,
        from_stock=min(packing.loose_strips, needed),
        packs=packs,
        saved=max(0, fewest.row_by_row - in_courses),
        packs_saved=packs_for(by_rows, packing) - packs,
    )


def packs_for(needed: int, packing: Packing) -> int:
    """How many packs so many strips take; loose ones never make it less than none."""
    return ceil(Fraction(max(0, needed - packing.loose_strips), packing.strips_per_pack))


def _steep(roof: Roof) -> Iterator[str]:
    """Tell of slopes on which the strips would slide."""
    steep = [n for n, slope in enumerate(roof.slopes, 1) if roof.is_steep(slope, STEEP)]
    if steep:
        named = f"Slope{'s' if len(steep) > 1 else ''} {' and '.join(map(str, steep))}"
        yield f"{named}: over {STEEP}°. Two spots of mastic under each tab, or the tabs will lift."


def _doubts(fewest: Fewest) -> tuple[str, ...]:
    """Tell of what the cut plan could not prove in the time it had."""
    doubts = []
    if not fewest.proven:
        doubts.append(
            f"Strips: {fewest.strips} found; not proven to be the fewest, could be as few as "
            f"{fewest.bound}."
        )
    if not fewest.pieces_proven:
        doubts.append("Shingle nails: the count may be high, as the fewest pieces are not proven.")
    return tuple(doubts)
