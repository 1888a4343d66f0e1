"""What is done on a roof in felt, in that order: lengths as drawn, chalk lines, capping, laps."""

from collections.abc import Iterator

from domain.drawing.draw_felt import draw_felt
from domain.drawing.drawing_parts import Drawing
from domain.papers.blocks import Block, Column, Measures, Picture, Table
from domain.papers.felt_parts import felt_laying
from domain.papers.shared_parts import numbered
from domain.setting_out.kinds import EdgeKind
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.units import show_mm


def felt_on_roof(takeoff: FeltTakeOff) -> Iterator[Block]:
    """Everything that is needed on the roof."""
    drawing = draw_felt(takeoff)
    yield Picture(drawing)
    yield from _chalk_lines(drawing)
    yield _sheets(drawing)
    yield from felt_laying(takeoff)


def _chalk_lines(drawing: Drawing) -> Iterator[Measures]:
    """The lower edge of every row but the first, once for slopes that share them."""
    sharing: dict[tuple[tuple[str, str], ...], list[int]] = {}
    for slope in drawing.slopes:
        lines = tuple(
            (str(row.number), show_mm(row.set_to)) for row in slope.courses[1:] if row.set_to > 0
        )
        sharing.setdefault(lines, []).append(slope.number)
    for lines, slopes in sharing.items():
        if lines:
            named = f"{'slopes' if len(slopes) > 1 else 'slope'} {numbered(slopes)}"
            yield Measures(lines, f"Chalk lines for the lower edges of rows, {named}")


def _sheets(drawing: Drawing) -> Table:
    """Every length, marked as in the drawing."""
    titles = ("Length", "Cut", "Slope", "Row", "Lower edge")
    return Table(
        tuple(Column(title, True) for title in titles),
        tuple(
            (
                str(piece.mark),
                show_mm(piece.piece.length),
                str(slope.number),
                str(row.number),
                show_mm(row.set_to),
            )
            for slope in drawing.slopes
            for row in slope.courses
            if row.set_to > 0 or slope.slope.lower_edge is not EdgeKind.BREAK
            for piece in row.pieces
        ),
        "Felt lengths in laying order (laps and turn-downs included). 1a = roll 1, first cut",
    )
