"""Underlay in rolls along the eaves, under the shingles. Every figure is common practice."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from domain.errors import Refused
from domain.setting_out.roof import EdgeKind, Finish, Roof, Slope
from domain.takeoff.runs import cut_runs
from domain.units import show_mm

_SHORTEST_ROLL = 1000  # mm; a piece shorter than an end lap would never get on


@dataclass(frozen=True, slots=True)
class Underlay:
    """A roll and the rules it is laid by; millimetres."""

    width: Fraction = Fraction(1000)
    roll: Fraction = Fraction(15_000)
    """Length of a roll."""
    over_edge: Fraction = Fraction(50)
    """Beyond every free edge."""
    side_lap: Fraction = Fraction(100)
    """Of one row over the row below."""
    end_lap: Fraction = Fraction(100)
    """Within a row, where one roll follows another."""
    carried_over: Fraction = Fraction(100)
    """Beyond a ridge, hip, valley or break."""
    remnant: Fraction = Fraction(500)
    """Least length of a roll's remainder that is worth beginning a row with."""

    def __post_init__(self) -> None:
        if self.roll < _SHORTEST_ROLL:
            raise Refused("Underlay roll", show_mm(self.roll), "Give 1 m or more.")


@dataclass(frozen=True, slots=True)
class UnderlayLay:
    """How the underlay of a whole roof is laid."""

    rows: int
    rolls: int
    laid: Fraction
    """Millimetres off the rolls, end laps included."""


def lay_underlay(roof: Roof, underlay: Underlay) -> UnderlayLay:
    """Cut the rows of every slope one after another from the rolls."""
    needs = [need for slope in roof.slopes for need in underlay_rows(slope, underlay)]
    runs = cut_runs(
        needs,
        stock=underlay.roll,
        lap=underlay.end_lap,
        worth_laying=lambda remnant, need: remnant >= min(need, underlay.remnant),
    )
    return UnderlayLay(len(needs), runs.bought, runs.laid)


def underlay_rows(slope: Slope, underlay: Underlay) -> Iterator[Fraction]:
    """Give the length of every row of a slope, from the eaves up, with what goes over its ends."""
    rise = underlay.width - underlay.side_lap
    beyond = slope.length + underlay.over_edge + _over_top(slope.finish, underlay) - underlay.width
    over_ends = _over_side(slope.left_edge, underlay) + _over_side(slope.right_edge, underlay)
    for row in range(1 + max(0, ceil(beyond / rise))):
        low = rise * row - underlay.over_edge
        heights = (max(low, Fraction(0)), min(low + underlay.width, slope.length))
        yield max(map(slope.right, heights)) - min(map(slope.left, heights)) + over_ends


def _over_top(finish: Finish, underlay: Underlay) -> Fraction:
    """Return how far the last row runs on above the top of the slope.

    At a break it is carried on under the upper slope as over a ridge.
    """
    allowances = {
        Finish.RIDGE: underlay.carried_over,
        Finish.BREAK: underlay.carried_over,
        Finish.TOP: underlay.over_edge,
    }
    return allowances.get(finish, Fraction(0))


def _over_side(edge: EdgeKind, underlay: Underlay) -> Fraction:
    """Return how far a row runs on beyond a side of the slope.

    Through a valley it is carried as over a hip; a wall ends it, as at the top.
    """
    allowances = {EdgeKind.HIP: underlay.carried_over, EdgeKind.VALLEY: underlay.carried_over}
    return Fraction(0) if edge is EdgeKind.ABUTMENT else allowances.get(edge, underlay.over_edge)
