"""The edges of a slope, with what is laid along them."""

from collections.abc import Iterator
from fractions import Fraction

from domain.drawing.figures import Line, Polygon, clip, sides
from domain.drawing.values import DrawnEdge
from domain.setting_out.coverings import Shingle
from domain.setting_out.kinds import FREE, EdgeKind
from domain.setting_out.values import Slope, slant

_CLOSED = {EdgeKind.RIDGE, EdgeKind.HIP}
"""What one-tab pieces close."""


def edges_of(
    slope: Slope, outline: Polygon, shingle: Shingle, *, from_right: bool
) -> tuple[DrawnEdge, ...]:
    """Return the lower edge, the right edge, the top if there is one, and the left edge.

    Hip pieces are laid from the eaves up. Two slopes that meet at a ridge see its ends the other
    way round: one of them is set out ``from_right``.
    """
    tops = (EdgeKind(slope.finish.value),) if slope.top else ()
    kinds = (slope.lower_edge, slope.right_edge, *tops, slope.left_edge)
    drawn = []
    for kind, line in zip(kinds, sides(outline), strict=True):
        upward = kind is EdgeKind.HIP and line[0][1] == 0
        forward = upward or (kind is EdgeKind.RIDGE and from_right)
        closing = _closing(line, outline, shingle, forward=forward) if kind in _CLOSED else ()
        drawn.append(DrawnEdge(kind, line, kind in FREE, tuple(closing)))
    return tuple(drawn)


def _closing(line: Line, outline: Polygon, shingle: Shingle, *, forward: bool) -> Iterator[Polygon]:
    """Give the pieces along an edge, half a tab of each, in the order in which they are laid.

    A slanting edge is as long as it is to a micrometre, so its pieces stand as near to square.
    """
    (u0, v0), (u1, v1) = line if forward else line[::-1]
    length = slant(v1 - v0, u1 - u0)
    along = ((u1 - u0) / length, (v1 - v0) / length)
    inward = (-along[1], along[0]) if forward else (along[1], -along[0])
    across = (inward[0] * shingle.half_tab, inward[1] * shingle.half_tab)
    start = Fraction(0)
    while start < length:
        end = min(start + shingle.ridge_exposure, length)
        a, b = ((u0 + along[0] * s, v0 + along[1] * s) for s in (start, end))
        corners = (a, b, (b[0] + across[0], b[1] + across[1]), (a[0] + across[0], a[1] + across[1]))
        yield clip(corners if forward else corners[::-1], outline)
        start = end
