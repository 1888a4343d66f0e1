"""Weights and what carries them: the old covering, the van, sacks, what lies on the roof.

Every figure is common practice.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

FELT_KG = Fraction(7, 2)
"""Of old felt, a square metre and layer."""
SHINGLES_KG = Fraction(9)
"""Of old shingles, a square metre and layer."""


@dataclass(frozen=True, slots=True)
class Load:
    """A weight to be carried, and how much goes at a time."""

    kg: Fraction
    limit: Fraction | None
    """Kilograms that a van may carry or a sack holds; None if it is not known."""

    @property
    def times(self) -> int | None:
        """Trips or sacks; none for nothing, None while the limit is not known."""
        return None if not self.limit else ceil(self.kg / self.limit)

    @property
    def oversteps(self) -> bool:
        """Whether it is more than goes at a time."""
        return self.limit is not None and self.kg > self.limit


def boards_over(area: Fraction, cover: Fraction) -> Fraction:
    """Return the metres of board that cover so many square metres; ``cover`` in millimetres."""
    return area * 1000 / cover


def area_of_boards(metres: Fraction, cover: Fraction) -> Fraction:
    """Return the square metres that so many metres of board cover; ``cover`` in millimetres."""
    return metres * cover / 1000
