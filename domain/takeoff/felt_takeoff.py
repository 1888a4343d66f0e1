"""Felt in rolls: the lengths of every slope, the capping over ridges and hips, their fixings.

Every figure is common practice.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from domain.coverings.felt import Felt
from domain.coverings.pitch import check_pitch
from domain.setting_out.flat_slopes import Roof
from domain.takeoff.packing import Packing
from domain.takeoff.rolls import RollLay, RollMaterial, RollRow, cut_from_rolls, roll_rows


@dataclass(frozen=True, slots=True)
class FeltLay:
    """How the felt of a whole roof is laid; lengths in millimetres."""

    sheets: tuple[tuple[RollRow, ...], ...]
    """Every row by slope, from the eaves up.

    Those that go over a break, and those above it, are of the lower slope.
    """
    lengths: RollLay
    capping_runs: tuple[Fraction, ...]
    """Over every ridge, then every hip, with what goes on at both ends; the longest first."""
    capping: RollLay
    """Its rolls are strips: those of the last sheet's roll, then each as long as a roll."""
    from_sheets: int
    """Strips that what is left of the last sheet's roll gives."""
    strips_a_roll: int
    """Strips of capping that a roll gives side by side."""

    @property
    def rows(self) -> tuple[tuple[Fraction, ...], ...]:
        """Length of every row with what is turned down, by slope, from the eaves up."""
        return tuple(tuple(row.length for row in rows) for rows in self.sheets)

    @property
    def capping_rolls(self) -> int:
        """Rolls set aside to be cut along into strips."""
        fresh = max(0, self.capping.rolls - self.from_sheets)
        return ceil(Fraction(fresh, self.strips_a_roll))

    @property
    def rolls(self) -> int:
        """All rolls begun."""
        return self.lengths.rolls + self.capping_rolls

    @property
    def laid(self) -> Fraction:
        """Length off the rolls, laps included; capping counts by its share of a roll's width."""
        return self.lengths.laid + self.capping.laid / self.strips_a_roll

    @property
    def side_laps(self) -> tuple[Fraction, ...]:
        """Length of every lap of a row over the row below: that of the shorter of the two."""
        return tuple(min(pair) for slope in self.rows for pair in pairwise(slope))

    @property
    def capping_edges(self) -> tuple[Fraction, ...]:
        """Length of both edges of every run of capping."""
        return 2 * self.capping_runs


@dataclass(frozen=True, slots=True)
class FeltFixings:
    """What holds the felt down and sticks its laps."""

    edge_nails: int
    lap_nails: int
    capping_nails: int
    boxes: int
    """Of nails, all of them together."""
    adhesive: Fraction
    """Length of all laps and capping edges that are stuck, mm."""
    tins: int
    """Of lap adhesive."""

    @property
    def nails(self) -> int:
        """All nails of the roof."""
        return self.edge_nails + self.lap_nails + self.capping_nails


@dataclass(frozen=True, slots=True)
class FeltTakeOff:
    """What a roof takes in felt."""

    roof: Roof
    covering: Felt
    packing: Packing
    lay: FeltLay
    fixings: FeltFixings
    cautions: tuple[str, ...]
    """What is in doubt, each a sentence."""


def take_off_felt(roof: Roof, felt: Felt, packing: Packing) -> FeltTakeOff:
    """Count everything that a roof takes in felt.

    Raises :class:`domain.errors.Refused` if felt does not suit the pitch, or a roll is too short.
    """
    cautions = roof.cautions + check_pitch(felt, roof.pitch)
    lay = lay_felt(roof, felt, packing.felt_roll)
    return FeltTakeOff(roof, felt, packing, lay, _fix(roof, felt, lay, packing), cautions)


def lay_felt(roof: Roof, felt: Felt, roll: Fraction) -> FeltLay:
    """Cut the rows of every slope, and the capping, from rolls of so many millimetres.

    Raises :class:`domain.errors.Refused` for a roll too short to lay.
    """
    material = felt_roll_material(felt, roll)
    sheets = tuple(_rows_by_slope(roof, material))
    lengths = cut_from_rolls((row.length for rows in sheets for row in rows), material)
    runs = (*sorted(roof.ridge_runs, reverse=True), *sorted(roof.hip_runs, reverse=True))
    capping_runs = tuple(run + 2 * felt.capping_end for run in runs)
    left = roll - sum(p.length for p in lengths.pieces if p.stock == lengths.rolls)
    from_sheets = [left] * felt.capping_strips if left >= material.remnant else []
    return FeltLay(
        sheets=sheets,
        lengths=lengths,
        capping_runs=capping_runs,
        capping=cut_from_rolls(capping_runs, material, from_sheets),
        from_sheets=len(from_sheets),
        strips_a_roll=felt.capping_strips,
    )


def _rows_by_slope(roof: Roof, material: RollMaterial) -> Iterator[tuple[RollRow, ...]]:
    """The rows that begin on each slope, or on the surface it is the lowest of."""
    laid = {
        index: tuple(roll_rows(surface, material, break_at))
        for index, surface, break_at in roof.surfaces
    }
    return (laid.get(index, ()) for index in range(len(roof.slopes)))


def felt_roll_material(felt: Felt, roll: Fraction) -> RollMaterial:
    """Return what felt shares with underlay: nothing goes over a hip, the capping does that."""
    return RollMaterial(
        words="Felt",
        roll=roll,
        side_lap=felt.side_lap,
        end_lap=felt.end_lap,
        over_ridge=-felt.short_of_ridge,
        over_point=-felt.short_of_ridge,
        over_hip=Fraction(0),
        width=felt.width,
        over_edge=felt.turned_down,
        off_break=felt.off_break,
    )


def _fix(roof: Roof, felt: Felt, lay: FeltLay, packing: Packing) -> FeltFixings:
    """Count the nails, and what is stuck: side laps, end laps and capping edges."""
    edges = [edge.length for slope in roof.slopes for edge in slope.free_edges]
    at_edges, at_laps, at_capping = (
        _nails_along(lines, felt.nail_centres)
        for lines in (edges, lay.side_laps, lay.capping_edges)
    )
    across = lay.lengths.end_laps * felt.width + lay.capping.end_laps * felt.capping
    adhesive = sum((*lay.side_laps, *lay.capping_edges), across)
    return FeltFixings(
        edge_nails=at_edges,
        lap_nails=at_laps,
        capping_nails=at_capping,
        boxes=ceil(Fraction(at_edges + at_laps + at_capping, packing.nail_boxes.felt)),
        adhesive=adhesive,
        tins=ceil(adhesive / packing.adhesive_tin),
    )


def _nails_along(lines: Iterable[Fraction], centres: Fraction) -> int:
    """Count the nails along lines, both ends of each included."""
    return sum(floor(line / centres) + 1 for line in lines)
