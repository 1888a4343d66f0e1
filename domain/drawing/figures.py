"""Points, lines and polygons in the plane of a slope, and what of them lies on the slope.

u runs along the eaves from their left end, v up the slope; both are exact millimetres.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

Point: TypeAlias = tuple[Fraction, Fraction]
"""u, v."""
Line: TypeAlias = tuple[Point, Point]
Polygon: TypeAlias = tuple[Point, ...]
"""Its corners counter-clockwise, the first not repeated; empty if there is nothing of it."""


def rectangle(u0: Fraction, v0: Fraction, u1: Fraction, v1: Fraction) -> Polygon:
    """Return the rectangle between two corners."""
    return ((u0, v0), (u1, v0), (u1, v1), (u0, v1))


def sides(polygon: Polygon) -> Iterator[Line]:
    """Give its sides in turn; what lies inside is to the left of each."""
    return pairwise((*polygon, *polygon[:1]))


def clip(polygon: Polygon, outline: Polygon) -> Polygon:
    """Return what of a convex polygon lies inside a convex outline; empty if it has no area."""
    for side in sides(outline):
        depths = [_inside(point, side) for point in polygon]
        if min(depths, default=0) < 0:
            polygon = tuple(_kept(polygon, depths))
    corners = tuple(a for a, b in sides(polygon) if a != b)
    return corners if _has_area(corners) else ()


def clip_line(line: Line, outline: Polygon) -> Line | None:
    """Return what of a line lies inside a convex outline; None if it is no more than a point."""
    start, end = Fraction(0), Fraction(1)
    for side in sides(outline):
        a, b = (_inside(point, side) for point in line)
        if max(a, b) < 0:
            return None
        if a < 0:
            start = max(start, a / (a - b))
        elif b < 0:
            end = min(end, a / (a - b))
    return (_along(line, start), _along(line, end)) if start < end else None


def _kept(polygon: Polygon, depths: Sequence[Fraction]) -> Iterator[Point]:
    """Give the corners of what lies inside a side, given how far inside each corner lies."""
    ahead = (*depths[1:], *depths[:1])
    for line, a, b in zip(sides(polygon), depths, ahead, strict=True):
        if a >= 0:
            yield line[0]
        if min(a, b) < 0 < max(a, b):
            yield _along(line, a / (a - b))


def _inside(point: Point, side: Line) -> Fraction:
    """Return how far a point lies to the left of a side, in no unit; on it 0, right of it less."""
    (u0, v0), (u1, v1) = side
    return (u1 - u0) * (point[1] - v0) - (v1 - v0) * (point[0] - u0)


def _along(line: Line, share: Fraction) -> Point:
    """Return the point at a share of a line: 0 at its start, 1 at its end."""
    (u0, v0), (u1, v1) = line
    return u0 + (u1 - u0) * share, v0 + (v1 - v0) * share


def _has_area(corners: Polygon) -> bool:
    return any(_inside(point, (corners[0], corners[1])) for point in corners[2:])
