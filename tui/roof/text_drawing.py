"""A roof in lines of text: every course or row, and what is written on its pieces or lengths."""

from collections.abc import Iterator
from fractions import Fraction

from rich.text import Text

from domain.drawing.drawing_parts import DrawnCourse, DrawnSlope
from domain.exact import half_up
from domain.papers.blocks import Picture
from tui.frame.text_layout import wrapped
from tui.frame.theme import Palette

_MARGIN = 10
"""Cells for the number of a course or row, and the height that it is laid to."""


def roof_lines(picture: Picture, width: int, p: Palette) -> list[Text]:
    """Every slope from its top down, at one scale; marks that have no room are left to the list."""
    slopes = picture.drawing.slopes
    room = max(1, width - _MARGIN - 1)
    mm = max(Fraction(_reach(slope)[1] - _reach(slope)[0], room) for slope in slopes)
    named = zip(slopes, picture.names, strict=True)
    return [line for slope, name in named for line in _slope(slope, name, mm, width, p)][:-1]


def _slope(slope: DrawnSlope, called: str, mm: Fraction, width: int, p: Palette) -> Iterator[Text]:
    name = f"{called}, {half_up(slope.slope.eaves):,} along its lower edge"
    yield from (Text(line, style=f"bold {p.ink}", end="") for line in wrapped(name, width))
    for course in reversed(slope.courses):
        line = Text(f"{course.number:>3}", style=p.ink, end="")
        line.append(f"{half_up(course.set_to):>6,} ".replace("-", "−"), style=p.quiet)
        yield line.append(_course(course, _reach(slope)[0], mm), style=p.brick)
    yield Text(end="")


def _course(course: DrawnCourse, left: Fraction, mm: Fraction) -> str:
    """The pieces between strokes, the mark of each inside if it fits."""
    cells: dict[int, str] = {}
    for piece in course.pieces:
        if not piece.exposed:
            continue
        start, end = (
            half_up((bound(u for u, _ in piece.exposed) - left) / mm) for bound in (min, max)
        )
        mark = str(piece.mark) if piece.mark else ""
        if len(mark) < end - start:
            cells |= dict(enumerate(mark.center(end - start - 1), start=start + 1))
        cells |= {start: "│", end: "│"}
    return "".join(cells.get(cell, " ") for cell in range(max(cells, default=-1) + 1)).rstrip()


def _reach(slope: DrawnSlope) -> tuple[Fraction, Fraction]:
    """How far left and right a slope goes."""
    ends = [u for u, _ in slope.outline]
    return min(ends), max(ends)
