"""Nails and mastic. Every figure is common practice unless a rule names its source."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from domain.coverings.shingle import Shingle
from domain.cutting.plan import Piece
from domain.errors import Refused
from domain.exact import PI
from domain.setting_out.courses import Row
from domain.setting_out.flat_slopes import Edge, Roof
from domain.setting_out.kinds import EdgeKind

_NAILS_A_CLOSING_PIECE = 2
_SPOTS_A_TAB = 50  # mm of bead: two spots of 25
_UNDERLAY_NAIL_CENTRES = 300  # mm
STEEP = 60
"""Degrees above which the tabs are held by spots of mastic as well."""
_STEEL = Fraction(7850, 10**6)  # grams per cubic millimetre, from 7850 kg/m³
_QUARTER_PI = Fraction(PI) / 4


@dataclass(frozen=True, slots=True)
class Nail:
    """A clout nail; millimetres."""

    diameter: Fraction = Fraction(3)
    length: Fraction = Fraction(20)
    head_diameter: Fraction = Fraction(9)
    head_thickness: Fraction = Fraction(6, 5)

    @property
    def grams(self) -> Fraction:
        """Weight of the wire and the head."""
        wire = self.diameter**2 * self.length
        return _QUARTER_PI * (wire + self.head_diameter**2 * self.head_thickness) * _STEEL


SHINGLE_NAIL = Nail()
"""Holds strips and ridge pieces: as long as two strips and a thin deck ask. Common practice."""
FELT_NAIL = Nail(length=Fraction(13))
"""Holds felt and underlay: short, so that its point stays in a shed's boards. Common practice."""


def nails_in_box(nail: Nail, box_kg: Fraction) -> int:
    """Count the nails in a box of so many kilograms, from the weight of one."""
    return floor(box_kg * 1000 / nail.grams)


@dataclass(frozen=True, slots=True)
class NailBoxes:
    """How many nails of each kind a box holds; a kilogram is usual. Common practice."""

    shingle: int = nails_in_box(SHINGLE_NAIL, box_kg=Fraction(1))
    felt: int = nails_in_box(FELT_NAIL, box_kg=Fraction(1))

    def __post_init__(self) -> None:
        for field, number in (("shingle_nails", self.shingle), ("felt_nails", self.felt)):
            if number < 1:
                raise Refused(field, number, "Give 1 or more.")


@dataclass(frozen=True, slots=True)
class Mastic:
    """Bitumen mastic in cartridges."""

    diameter: Fraction = Fraction(6)
    """Of the bead, mm."""
    cartridge: Fraction = Fraction(310)
    """Millilitres."""
    allowance_percent: int = 10
    """Bead laid over what is reckoned."""


MASTIC = Mastic()


@dataclass(frozen=True, slots=True)
class Fixings:
    """What holds a roof down and seals it."""

    shingle_nails: int
    ridge_nails: int
    edge_nails: int
    underlay_nails: int
    shingle_boxes: int
    felt_boxes: int
    mastic: Fraction
    """Length of the bead, mm."""
    cartridges: int

    @property
    def through_strips(self) -> int:
        """Shingle nails of the roof; felt nails hold the underlay alone."""
        return self.shingle_nails + self.ridge_nails + self.edge_nails


def fix(
    roof: Roof,
    rows: Iterable[Row],
    pieces: Iterable[Piece],
    closing: int,
    shingle: Shingle,
    boxes: NailBoxes,
) -> Fixings:
    """Count the nails and the mastic of a roof.

    ``pieces`` are those of its ``rows``, ``closing`` the number over its ridges and hips.
    """
    free = [edge for slope in roof.slopes for edge in slope.free_edges]
    with_strips = [edge for slope in roof.slopes for edge in slope.strip_edges]
    at_cut_outs_and_ends = sum(piece.cutouts_inside + 2 for piece in pieces)
    closing_nails = _NAILS_A_CLOSING_PIECE * closing
    edge_nails = _nails_along(with_strips, shingle.edge_nail_centres)
    underlay_nails = _nails_along(free, _UNDERLAY_NAIL_CENTRES)
    through_strips = at_cut_outs_and_ends + closing_nails + edge_nails
    bead = _bead(roof, rows, closing + len(roof.closed_runs), shingle)
    return Fixings(
        shingle_nails=at_cut_outs_and_ends,
        ridge_nails=closing_nails,
        edge_nails=edge_nails,
        underlay_nails=underlay_nails,
        shingle_boxes=ceil(Fraction(through_strips, boxes.shingle)),
        felt_boxes=ceil(Fraction(underlay_nails, boxes.felt)),
        mastic=bead,
        cartridges=cartridges(bead, MASTIC),
    )


def cartridges(bead: Fraction, mastic: Mastic) -> int:
    """Count the cartridges that a round bead of so many millimetres takes."""
    millilitres = bead * _QUARTER_PI * mastic.diameter**2 / 1000
    return ceil(millilitres / mastic.cartridge)


def _nails_along(edges: Iterable[Edge], centres: Fraction | int) -> int:
    """Count the nails along edges, both ends of each included."""
    return sum(floor(edge.length / centres) + 1 for edge in edges)


def _bead(roof: Roof, rows: Iterable[Row], tabs: int, shingle: Shingle) -> Fraction:
    """Return the length of the mastic bead, allowance included.

    Once along every free edge, the eaves once more for the tabs of the first course, a break once
    for the same, a valley on each side, two spots under each tab of a steep slope, and the width
    of a tab for every ridge and hip piece, twice for the closing piece of each run.
    """
    lines = [edge.length for slope in roof.slopes for edge in slope.free_edges]
    lines += [
        slope.eaves for slope in roof.slopes if slope.lower_edge in (EdgeKind.EAVES, EdgeKind.BREAK)
    ]
    spots = sum(
        ceil((row.u1 - row.u0) / shingle.tab) * _SPOTS_A_TAB
        for row in rows
        if roof.is_steep(roof.slopes[row.slope], STEEP)
    )
    bead = sum(lines, Fraction(0)) + 2 * roof.valley + spots + tabs * shingle.tab
    return bead * (100 + MASTIC.allowance_percent) / 100
