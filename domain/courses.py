"""Courses up a slope, and the rows of shingles they are made of."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Row:
    """What one course covers of its slope, before it is cut into pieces. Lengths are mm."""

    slope: int
    """Index of the slope in :attr:`domain.roof.Roof.slopes`."""
    course: int
    """1 is at the eaves."""
    u0: Fraction
    """Left end, from the slope's left eaves corner."""
    u1: Fraction
    """Right end."""
    offset: Fraction
    """Joints and cut-outs stand at u ≡ offset (mod a tab): half a tab in odd courses, 0 in even."""
    left_loss: Fraction
    """What a left piece loses at its outer end where it is nailed: the edge has moved in by then."""
    right_loss: Fraction
    """As ``left_loss``, of a right piece."""
