"""Steps of the work, strips to cut and courses to lay, set for the screen and as plain text."""

from collections.abc import Sequence

from rich.text import Text

from domain.papers.blocks import Column, Cut, Cuts, Laying, Table
from tui.frame.text_layout import wrapped
from tui.frame.theme import Palette
from tui.papers.text_table import draw_table


def draw_sentences(rows: Sequence[str], width: int, p: Palette) -> list[Text]:
    """Each begins a line."""
    return [Text(t, style=p.ink, end="") for row in rows for t in wrapped(row, width)]


def draw_cuts(block: Cuts, width: int, p: Palette) -> list[Text]:
    """What holds for all, then a line for each way of cutting."""
    table = Table(
        (Column("Strips"), Column("Cut at, from the left end"), Column("Parts, left to right")),
        tuple((f"{cut.times} ×", ", ".join(cut.cuts), _parts(cut)) for cut in block.rows),
    )
    piles = f"Piles: {', '.join(block.piles)}"
    told = draw_sentences((block.notes,), width, p)
    return told + draw_table(table, width, p) + draw_sentences((piles,), width, p)


def _parts(cut: Cut) -> str:
    return " | ".join(f"{part.name or 'spare'} {part.mm:,}" for part in cut.parts)


def draw_laying(block: Laying, width: int, p: Palette) -> list[Text]:
    """What holds for every course, then a line for courses that are laid alike."""
    table = Table(
        (Column("Courses"), Column("From left to right"), Column("Nails a course", True)),
        tuple(
            (row.courses, " | ".join(part.words for part in row.parts), str(row.nails))
            for row in block.rows
        ),
    )
    slopes = [Text(t, style=f"bold {p.ink}", end="") for t in wrapped(block.slopes, width)]
    return draw_sentences(block.notes, width, p) + slopes + draw_table(table, width, p)
