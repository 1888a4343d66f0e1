"""The edges of a slope, with what is laid along them."""

from collections.abc import Iterator
from fractions import Fraction

from domain.coverings.felt import Felt
from domain.coverings.registry import Covering
from domain.coverings.shingle import Shingle
from domain.drawing.drawing_parts import DrawnEdge
from domain.drawing.figures import Line, Polygon, clip, sides
from domain.setting_out.flat_slopes import Slope, slant
from domain.setting_out.kinds import FREE, EdgeKind

_CLOSED = {EdgeKind.RIDGE, EdgeKind.HIP}
"""What one-tab pieces close, or a capping."""


def drawn_edges(
    slope: Slope, outline: Polygon, covering: Covering, *, from_right: bool
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
        closing = _closing(line, outline, covering, forward=forward) if kind in _CLOSED else ()
        starts = kind is EdgeKind.BREAK and line[0][1] == line[1][1] == 0
        has_strip = (kind in FREE or starts) and isinstance(covering, Shingle)
        drawn.append(DrawnEdge(kind, line, has_strip, tuple(closing)))
    return tuple(drawn)


def _closing(
    line: Line, outline: Polygon, covering: Covering, *, forward: bool
) -> Iterator[Polygon]:
    """Give half of each piece along an edge, in the order in which they are laid.

    Capping is one: where a roll follows another is not drawn. A slanting edge is as long as it is
    to a micrometre, so its pieces stand as near to square.
    """
    (u0, v0), (u1, v1) = line if forward else line[::-1]
    length = slant(v1 - v0, u1 - u0)
    along = ((u1 - u0) / length, (v1 - v0) / length)
    inward = (-along[1], along[0]) if forward else (along[1], -along[0])
    if isinstance(covering, Felt):
        half, show = covering.capping / 2, length
    else:
        half, show = covering.half_tab, covering.ridge_exposure
    across = (inward[0] * half, inward[1] * half)
    start = Fraction(0)
    while start < length:
        end = min(start + show, length)
        a, b = ((u0 + along[0] * s, v0 + along[1] * s) for s in (start, end))
        corners = (a, b, (b[0] + across[0], b[1] + across[1]), (a[0] + across[0], a[1] + across[1]))
        yield clip(corners if forward else corners[::-1], outline)
        start = end
