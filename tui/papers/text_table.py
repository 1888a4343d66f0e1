"""Sets a table: numbers lined up at the right and never broken, words wrapped in what is left."""

from rich.text import Text

from domain.papers.blocks import Table
from tui.frame.text_layout import (
    GAP,
    natural_width,
    pairs,
    set_beside,
    share_width,
    to_the_right,
    wrapped,
)
from tui.frame.theme import Palette


def draw_table(table: Table, width: int, p: Palette) -> list[Text]:
    """The table over the whole width; where it cannot fit, each row as labels and values."""
    widths = _column_widths(table, width)
    if widths is None:
        return _records(table, width, p)
    title = tuple(column.title for column in table.columns)
    rule = Text("─" * width, style=p.line, end="")
    drawn = [*_row(table, title, widths, p.quiet), rule]
    for row in table.rows:
        drawn += _row(table, row, widths, p.ink)
    return drawn


def _column_widths(table: Table, width: int) -> list[int] | None:
    """Cells of each column; None if numbers and a little of the words do not fit side by side."""
    wants = [
        max(natural_width(text) for text in (column.title, *(row[place] for row in table.rows)))
        for place, column in enumerate(table.columns)
    ]
    words = [place for place, column in enumerate(table.columns) if not column.number]
    numbers = sum(want for place, want in enumerate(wants) if place not in words)
    room = width - numbers - GAP * (len(wants) - 1)
    given = share_width((wants[place] for place in words), room)
    if given is None or room < 0:
        return None
    for place, cells in zip(words, given, strict=True):
        wants[place] = cells
    if words and table.columns[-1].number:
        wants[words[0]] += room - sum(given)  # so that the numbers end at the edge
    return wants


def _row(table: Table, row: tuple[str, ...], widths: list[int], style: str) -> list[Text]:
    lines: list[Text] = []
    at = 0
    for column, text, cells in zip(table.columns, row, widths, strict=True):
        parts = [Text(t, style=style, end="") for t in wrapped(text, max(1, cells))]
        if column.number:
            parts = [to_the_right(part, cells) for part in parts]
        lines = set_beside(lines, parts, at) if at else parts
        at += cells + GAP
    return lines


def _records(table: Table, width: int, p: Palette) -> list[Text]:
    """Each row as title and value, one under the other."""
    titles = [column.title for column in table.columns]
    drawn: list[Text] = []
    for number, row in enumerate(table.rows):
        if number:
            drawn.append(Text("", end=""))
        drawn += pairs(zip(titles, row, strict=True), width, p)
    return drawn
