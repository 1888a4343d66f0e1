"""What comes in rolls, laid along the eaves: underlay under the shingles, and felt.

Every figure is common practice.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from domain.errors import Refused
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.takeoff.runs import RunPiece, cut_runs
from domain.units import show_mm

_SHORTEST_ROLL = 1000  # mm; a piece shorter than an end lap would never get on


@dataclass(frozen=True, slots=True)
class RollMaterial:
    """A roll and the rules its lengths are laid by; millimetres."""

    words: str
    """What people call it: "Underlay"."""
    roll: Fraction
    """Length of a roll."""
    side_lap: Fraction
    """Of one row over the row below."""
    end_lap: Fraction
    """Within a row, where one roll follows another."""
    over_ridge: Fraction
    """Beyond a ridge; less than 0 stops short of it."""
    over_point: Fraction
    """Beyond the point of a slope between hips."""
    over_hip: Fraction
    """Beyond a hip."""
    width: Fraction = Fraction(1000)
    over_edge: Fraction = Fraction(50)
    """Beyond every free edge."""
    through_valley: Fraction = Fraction(100)
    """Beyond a valley."""
    remnant: Fraction = Fraction(500)
    """Least length of a roll's remainder that is worth beginning a row with."""
    off_break: Fraction = Fraction(0)
    """No lap lies so near to a break; a row that would begin there begins twice as far below."""

    def __post_init__(self) -> None:
        if self.roll < _SHORTEST_ROLL:
            raise Refused(f"{self.words.lower()}_roll", show_mm(self.roll), "Give 1 m or more.")


UNDERLAY = RollMaterial(
    words="Underlay",
    roll=Fraction(15_000),
    side_lap=Fraction(100),
    end_lap=Fraction(100),
    over_ridge=Fraction(100),
    over_point=Fraction(0),
    over_hip=Fraction(100),
)


@dataclass(frozen=True, slots=True)
class RollLay:
    """How the lengths of a whole roof are laid."""

    rows: int
    rolls: int
    laid: Fraction
    """Millimetres off the rolls, end laps included."""
    end_laps: int
    """Where one roll follows another within a row."""
    pieces: tuple[RunPiece, ...]
    """What is cut from the rolls, in that order; the runs they are of are the rows."""


@dataclass(frozen=True, slots=True)
class RollRow:
    """Where a row lies on its slope, with what goes over the edges; millimetres."""

    number: int
    """1 is at the eaves."""
    low: Fraction
    """Its lower edge, up from the eaves; less than 0 is turned down."""
    left: Fraction
    """Its left end, along the eaves."""
    right: Fraction

    @property
    def length(self) -> Fraction:
        """Along the eaves."""
        return self.right - self.left


def lay_rolls(roof: Roof, material: RollMaterial) -> RollLay:
    """Cut the rows of every surface one after another from the rolls."""
    rows = (
        row.length
        for _, surface, break_at in roof.surfaces
        for row in roll_rows(surface, material, break_at)
    )
    return cut_from_rolls(rows, material)


def cut_from_rolls(
    rows: Iterable[Fraction], material: RollMaterial, first: Iterable[Fraction] = ()
) -> RollLay:
    """Cut rows of the lengths given one after another from the rolls.

    What is left of another cut, in the lengths given, may come ``first``.
    """
    needs = tuple(rows)
    runs = cut_runs(
        needs,
        stock=material.roll,
        lap=material.end_lap,
        worth_laying=lambda remnant, need: remnant >= min(need, material.remnant),
        first=first,
    )
    return RollLay(len(needs), runs.bought, runs.laid, runs.laps, runs.pieces)


def roll_rows(
    slope: Slope, material: RollMaterial, break_at: Fraction | None = None
) -> Iterator[RollRow]:
    """Give every row of a slope, from the eaves up; of a surface with a break also that height."""
    top = slope.length + _over_top(slope.finish, material)
    over_left, over_right = (_over_side(edge.kind, material) for edge in slope.sides)
    for number, low in enumerate(_lows(top, material, break_at), start=1):
        heights = (max(low, Fraction(0)), min(low + material.width, slope.length))
        yield RollRow(
            number=number,
            low=low,
            left=min(map(slope.left, heights)) - over_left,
            right=max(map(slope.right, heights)) + over_right,
        )


def _lows(top: Fraction, material: RollMaterial, break_at: Fraction | None) -> Iterator[Fraction]:
    """Give the lower edges of rows until one reaches the top.

    Where a lap would lie near a break the row begins well below it, and goes over it.
    """
    low = -material.over_edge
    yield low
    while low + material.width < top:
        low += material.width - material.side_lap
        if break_at is not None and material.off_break:
            begin = break_at - 2 * material.off_break
            if begin < low < break_at + material.off_break:
                low = begin
        yield low


def _over_top(finish: Finish, material: RollMaterial) -> Fraction:
    """Return how far the last row runs on above the top of the slope, or stops short of it."""
    allowances = {
        Finish.RIDGE: material.over_ridge,
        Finish.POINT: material.over_point,
        Finish.TOP: material.over_edge,
    }
    return allowances.get(finish, Fraction(0))


def _over_side(edge: EdgeKind, material: RollMaterial) -> Fraction:
    """Return how far a row runs on beyond a side of the slope; a wall ends it, as at the top."""
    allowances = {
        EdgeKind.HIP: material.over_hip,
        EdgeKind.VALLEY: material.through_valley,
        EdgeKind.ABUTMENT: Fraction(0),
    }
    return allowances.get(edge, material.over_edge)
