"""A roof from above, so that it is known which slope is slope 1: a sketch, not to scale.

Slopes are numbered as everywhere; slope 1 lies at the foot of the sketch.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sin
from typing import TypeAlias

from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import RoofForm

PlanPoint: TypeAlias = tuple[Fraction, Fraction]
"""To the right and up; the sketch is a unit high."""

_ONE, _HALF = Fraction(1), Fraction(1, 2)
_NARROWEST, _WIDEST = Fraction(3, 4), Fraction(3, 2)
_BARN = (0, 2, 3, 1)
"""Its slopes as they are crossed from one eaves to the other: the lower ones are numbered first."""


@dataclass(frozen=True, slots=True)
class PlanSlope:
    """One slope from above."""

    number: int
    corners: tuple[PlanPoint, ...]
    """Its lower edge first."""


@dataclass(frozen=True, slots=True)
class Plan:
    """The slopes of a roof from above."""

    width: Fraction
    """Against a height of 1."""
    slopes: tuple[PlanSlope, ...]


def plan_of(roof: Roof) -> Plan | None:
    """The plan of a roof; None for one that was taped slope by slope: nobody said how they meet."""
    if roof.form is RoofForm.SLOPES:
        return None
    if roof.form is RoofForm.PYRAMID:
        return Plan(_ONE, tuple(_around(len(roof.slopes))))
    if roof.form is RoofForm.HIP:
        width = max(_ONE, _wide(roof.slopes[:2]))
        return Plan(width, tuple(_hipped(width)))
    width = _wide(roof.slopes)
    order = _BARN if roof.form is RoofForm.BARN else range(len(roof.slopes))
    return Plan(width, tuple(_bands(order, width)))


def _wide(across: Sequence[Slope]) -> Fraction:
    """How wide a roof is against its depth, within what can be drawn."""
    deep = sum((slope.length for slope in across), Fraction(0))
    return min(max(across[0].eaves / deep, _NARROWEST), _WIDEST)


def _bands(order: Sequence[int], width: Fraction) -> Iterator[PlanSlope]:
    """Slopes from one eaves to the other; past the middle they are seen from the far side."""
    for place, index in enumerate(order):
        low, high = Fraction(place, len(order)), Fraction(place + 1, len(order))
        near, far = ((Fraction(0), low), (width, low)), ((width, high), (Fraction(0), high))
        yield PlanSlope(index + 1, (*near, *far) if 2 * place < len(order) else (*far, *near))


def _hipped(width: Fraction) -> Iterator[PlanSlope]:
    """The two long slopes, then the one at the right and the one at the left."""
    zero = Fraction(0)
    left, right = (_HALF, _HALF), (width - _HALF, _HALF)
    corners = ((zero, zero), (width, zero), (width, _ONE), (zero, _ONE))
    yield PlanSlope(1, (corners[0], corners[1], right, left))
    yield PlanSlope(2, (corners[2], corners[3], left, right))
    yield PlanSlope(3, (corners[1], corners[2], right))
    yield PlanSlope(4, (corners[3], corners[0], left))


def _around(sides: int) -> Iterator[PlanSlope]:
    """Triangles round the middle, going clockwise as they are seen from above."""
    middle = (_HALF, _HALF)
    for index in range(sides):
        ends = (_corner(index, sides), _corner(index + 1, sides))
        yield PlanSlope(index + 1, (*ends[::-1], middle))


def _corner(index: int, sides: int) -> PlanPoint:
    """A corner of the eaves, the first at the right foot of the sketch."""
    turn = -pi / 2 + pi / sides - 2 * pi * index / sides
    return _HALF + Fraction(cos(turn)) / 2, _HALF + Fraction(sin(turn)) / 2
