"""Figures that follow from the shape of a slope."""

from fractions import Fraction

from domain.drawing.figures import Line, Polygon, clip_line, rectangle
from domain.setting_out.flat_slopes import Slope


def outline_of(slope: Slope) -> Polygon:
    """Return the corners of a slope from the left end of its eaves: four, or three if it points."""
    zero, right, left = Fraction(0), slope.inset + slope.top, slope.inset
    top = ((right, slope.length), (left, slope.length))
    return ((zero, zero), (slope.eaves, zero), *(top if slope.top else top[:1]))


def band(slope: Slope, low: Fraction, high: Fraction) -> Polygon:
    """Return what lies between two heights, at least as wide as the slope."""
    u0 = min(Fraction(0), slope.inset)
    return rectangle(u0, low, max(slope.eaves, slope.inset + slope.top), high)


def across(slope: Slope, outline: Polygon, height: Fraction) -> Line | None:
    """Return the line from edge to edge at a height; None at the point of a triangle."""
    (u0, v0), (u1, v1), *_ = band(slope, height, height)
    return clip_line(((u0, v0), (u1, v1)), outline)
