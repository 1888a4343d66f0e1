"""A roof as an SVG in black and white, every slope from its eaves."""

from collections.abc import Iterator
from fractions import Fraction

from domain.drawing.values import Drawing, DrawnSlope
from domain.exact import half_up

_GAP = 400
"""Millimetres of roof between two slopes, for what is written there."""


def drawing_svg(drawing: Drawing) -> str:
    """The slopes one above the other, in millimetres of roof."""
    width = max(half_up(max(u for u, _ in s.outline)) for s in drawing.slopes)
    parts, top = [], 0
    for slope in drawing.slopes:
        foot = top + half_up(slope.slope.length) + _GAP // 2
        parts.append(f'<g transform="translate(0 {foot})">{"".join(_slope(slope))}</g>')
        top = foot + _GAP // 2
    box = f"-200 0 {width + 400} {top}"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{"".join(parts)}</svg>'


def _slope(slope: DrawnSlope) -> Iterator[str]:
    for course in slope.courses:
        for piece in course.pieces:
            points = " ".join(f"{_n(u)},{_n(-v)}" for u, v in piece.exposed)
            yield f'<polygon points="{points}" fill="none" stroke="black" stroke-width="8"/>'
            if piece.mark and piece.exposed:
                middle = (piece.exposed[0][0] + piece.exposed[1][0]) / 2
                yield (
                    f'<text x="{_n(middle)}" y="{_n(-course.butt - 30)}" font-size="90" '
                    f'font-family="Inter" text-anchor="middle">{piece.mark}</text>'
                )


def _n(mm: Fraction) -> str:
    return str(half_up(mm))
