"""What comes in rolls, laid along the eaves: underlay under the shingles, and felt.

Every figure is common practice.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

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
    carried_over: Fraction
    """Beyond a ridge, hip or break."""
    width: Fraction = Fraction(1000)
    over_edge: Fraction = Fraction(50)
    """Beyond every free edge."""
    through_valley: Fraction = Fraction(100)
    """Beyond a valley."""
    remnant: Fraction = Fraction(500)
    """Least length of a roll's remainder that is worth beginning a row with."""

    def __post_init__(self) -> None:
        if self.roll < _SHORTEST_ROLL:
            raise Refused(f"{self.words.lower()}_roll", show_mm(self.roll), "Give 1 m or more.")


UNDERLAY = RollMaterial(
    words="Underlay",
    roll=Fraction(15_000),
    side_lap=Fraction(100),
    end_lap=Fraction(100),
    carried_over=Fraction(100),
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
    """Cut the rows of every slope one after another from the rolls."""
    rows = (row.length for slope in roof.slopes for row in roll_rows(slope, material))
    return cut_from_rolls(rows, material)


def cut_from_rolls(rows: Iterable[Fraction], material: RollMaterial) -> RollLay:
    """Cut rows of the lengths given one after another from the rolls."""
    needs = tuple(rows)
    runs = cut_runs(
        needs,
        stock=material.roll,
        lap=material.end_lap,
        worth_laying=lambda remnant, need: remnant >= min(need, material.remnant),
    )
    return RollLay(len(needs), runs.bought, runs.laid, runs.laps, runs.pieces)


def roll_rows(slope: Slope, material: RollMaterial) -> Iterator[RollRow]:
    """Give every row of a slope, from the eaves up."""
    rise = material.width - material.side_lap
    beyond = slope.length + material.over_edge + _over_top(slope.finish, material) - material.width
    over_left, over_right = (_over_side(edge.kind, material) for edge in slope.sides)
    for row in range(1 + max(0, ceil(beyond / rise))):
        low = rise * row - material.over_edge
        heights = (max(low, Fraction(0)), min(low + material.width, slope.length))
        yield RollRow(
            number=row + 1,
            low=low,
            left=min(map(slope.left, heights)) - over_left,
            right=max(map(slope.right, heights)) + over_right,
        )


def _over_top(finish: Finish, material: RollMaterial) -> Fraction:
    """Return how far the last row runs on above the top of the slope.

    At a break it is carried on under the upper slope as over a ridge.
    """
    allowances = {
        Finish.RIDGE: material.carried_over,
        Finish.BREAK: material.carried_over,
        Finish.TOP: material.over_edge,
    }
    return allowances.get(finish, Fraction(0))


def _over_side(edge: EdgeKind, material: RollMaterial) -> Fraction:
    """Return how far a row runs on beyond a side of the slope; a wall ends it, as at the top."""
    allowances = {
        EdgeKind.HIP: material.carried_over,
        EdgeKind.VALLEY: material.through_valley,
        EdgeKind.ABUTMENT: Fraction(0),
    }
    return allowances.get(edge, material.over_edge)
