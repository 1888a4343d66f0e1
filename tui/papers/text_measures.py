"""Measures to tape, set for the screen and as plain text."""

from math import ceil

from rich.cells import cell_len
from rich.text import Text

from domain.papers.blocks import Measures
from tui.frame import safe_text
from tui.frame.text_layout import GAP, pairs, set_beside, to_the_right
from tui.frame.theme import Palette


def measure_columns(block: Measures, width: int, p: Palette) -> list[Text]:
    """In columns, read down, numbers and measures lined up; as pairs where that is too wide."""
    rows = [(safe_text.one_line(label), safe_text.one_line(mm)) for label, mm in block.rows]
    labels, figures = (max((cell_len(row[i]) for row in rows), default=0) for i in (0, 1))
    cells = labels + figures + 2 * GAP
    if not rows or cells > width:
        return pairs(rows, width, p)
    deep = ceil(len(rows) / ((width + GAP) // (cells + GAP)))
    drawn: list[Text] = []
    for start in range(0, len(rows), deep):
        column = [_measure(label, mm, labels, cells, p) for label, mm in rows[start : start + deep]]
        drawn = set_beside(drawn, column, start // deep * (cells + GAP)) if drawn else column
    return drawn


def _measure(label: str, mm: str, labels: int, cells: int, p: Palette) -> Text:
    line = to_the_right(Text(label, style=p.quiet, end=""), labels)
    return line.append_text(to_the_right(Text(mm, style=p.ink, end=""), cells - labels))
