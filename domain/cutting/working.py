"""The plan to work by, as values: ways of cutting a strip, and ways of laying a row.

A strip is cut at tab lines, or within a tab that a right and a left piece share; what a piece does
not need of its part is trimmed off in place. Strips cut alike are one line, and so are rows laid
alike. Lengths are exact millimetres.
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import accumulate


class PartKind(StrEnum):
    """What a part of a strip can be used for."""

    RUN = "run"
    """Whole tabs: any piece no longer than it, or, of one tab, a ridge piece."""
    RIGHT = "right"
    """A right piece: its left end stands on a tab line, its right end within a tab."""
    LEFT = "left"
    """A left piece: its right end stands on a tab line, its left end within a tab."""
    SPARE = "spare"
    """What nothing needs."""


@dataclass(frozen=True, slots=True, order=True)
class CutPart:
    """A part of a strip; parts that are equal are one pile."""

    kind: PartKind
    length: Fraction


@dataclass(frozen=True, slots=True)
class WayOfCutting:
    """Strips that are cut alike: one line of the cut table."""

    times: int
    """How many strips."""
    parts: tuple[CutPart, ...]
    """From left to right, end to end over the whole strip."""

    @property
    def cuts(self) -> tuple[Fraction, ...]:
        """Where it is cut, from its left end."""
        return tuple(accumulate(part.length for part in self.parts))[:-1]


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """A piece of a row as it is laid, and the part it is trimmed from."""

    length: Fraction
    part: CutPart
    cutouts: int
    """Cut-outs strictly inside the piece: it is nailed above each, and near each end."""


@dataclass(frozen=True, slots=True)
class WayOfLaying:
    """Rows that are laid alike: one line of the laying table."""

    slopes: tuple[int, ...]
    """Indexes of slopes of the same shape."""
    courses: tuple[int, ...]
    """1 is at the eaves; each is laid so on each of the slopes."""
    pieces: tuple[LaidPiece, ...]
    """From left to right."""
    start: Fraction | None = None
    """Of a row in one piece: how far into its first tab it begins."""

    @property
    def rows(self) -> int:
        """How many rows are laid so."""
        return len(self.slopes) * len(self.courses)


@dataclass(frozen=True, slots=True)
class WorkingPlan:
    """How a roof is cut and laid by the shortest sheet."""

    strips: int
    """Every strip laid or cut, without edge strips and breakage."""
    whole: int
    """Strips that are not cut, though a piece may be trimmed from one in place."""
    cutting: tuple[WayOfCutting, ...]
    """The cut table, the way that is cut most often first."""
    laying: tuple[WayOfLaying, ...]
    """The laying table, by slope and course."""

    @property
    def lines(self) -> int:
        """Lines of both tables."""
        return len(self.cutting) + len(self.laying)

    @property
    def pieces(self) -> int:
        """Pieces laid on the courses."""
        return sum(way.rows * len(way.pieces) for way in self.laying)

    @property
    def nails(self) -> int:
        """One above each cut-out inside a piece, and one near each of its ends."""
        return sum(way.rows * (piece.cutouts + 2) for way in self.laying for piece in way.pieces)
