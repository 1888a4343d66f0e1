"""The lays of a row: where its end pieces and whole strips can stand on the lattice.

A row is laid from left to right as a left piece, whole strips and a right piece, or as one piece
if it fits inside a strip where its lattice puts it. All lengths are exact millimetres.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from domain.coverings.shingle import Shingle
from domain.setting_out.courses import Row


@dataclass(frozen=True, slots=True)
class Lay:
    """What a row is made of, in tabs; a row in one piece has nothing but ``row``."""

    left: int = 0
    wholes: int = 0
    """Whole strips, not tabs."""
    right: int = 0
    row: int = 0

    @property
    def pieces(self) -> int:
        """How many pieces are nailed."""
        return 1 if self.row else 2 + self.wholes


@dataclass(frozen=True, slots=True)
class RowClass:
    """Rows that can be laid in the same ways, with ends that can share a tab with the same others.

    ``lead`` is what a left piece fills of its outer tab, ``tail`` what a right piece fills of its.
    """

    lead: Fraction
    tail: Fraction
    lays: tuple[Lay, ...]
    rows: tuple[Row, ...]


def classes_of(rows: Sequence[Row], shingle: Shingle) -> tuple[RowClass, ...]:
    """The rows gathered into classes, in the order in which the courses go on."""
    alike: dict[tuple[Fraction, Fraction, tuple[Lay, ...]], list[Row]] = {}
    for row in sorted(rows, key=lambda r: (r.slope, r.course)):
        lead = lead_of(row, shingle)
        tail = _filled(row.u1 - row.u0 - lead, shingle.tab)
        alike.setdefault((lead, tail, lays_of(row, shingle)), []).append(row)
    return tuple(RowClass(*key, tuple(members)) for key, members in alike.items())


def lead_of(row: Row, shingle: Shingle) -> Fraction:
    """From the row's left end to the first lattice line strictly right of it: over 0, to a tab."""
    return _filled(row.offset - row.u0, shingle.tab)


def lays_of(row: Row, shingle: Shingle) -> tuple[Lay, ...]:
    """Every lay that is allowed: at least one.

    A lay with an end piece narrower where it is nailed than ``shingle.least_end`` is allowed only
    to a row that has no other.
    """
    one_piece = tuple(_one_piece(row, shingle))
    ended = list(_ended(row, shingle))
    firm = tuple(lay for lay, left, right in ended if _is_firm(row, left, right, shingle))
    return (one_piece + firm) or tuple(lay for lay, _, _ in ended)


def _one_piece(row: Row, shingle: Shingle) -> Iterator[Lay]:
    """The row as one piece, if it fits inside a strip."""
    reach = shingle.tab - lead_of(row, shingle) + row.u1 - row.u0
    if reach <= shingle.width:
        yield Lay(row=math.ceil(reach / shingle.tab))


def _ended(row: Row, shingle: Shingle) -> Iterator[tuple[Lay, Fraction, Fraction]]:
    """Every lay with a left and a right piece, and the lengths of the two."""
    width, left = row.u1 - row.u0, lead_of(row, shingle)
    while left <= shingle.width and left < width:
        wholes = math.ceil((width - left) / shingle.width) - 1
        right = width - left - wholes * shingle.width
        tabs_left, tabs_right = (math.ceil(piece / shingle.tab) for piece in (left, right))
        yield Lay(left=tabs_left, wholes=wholes, right=tabs_right), left, right
        left += shingle.tab


def _is_firm(row: Row, left: Fraction, right: Fraction, shingle: Shingle) -> bool:
    """Whether both end pieces are wide enough where they are nailed."""
    nailed = (left - row.left_loss, right - row.right_loss)
    return min(nailed) >= shingle.least_end


def _filled(length: Fraction, tab: Fraction) -> Fraction:
    """What a length fills of its last tab: over 0, up to the whole tab."""
    return length % tab or tab
