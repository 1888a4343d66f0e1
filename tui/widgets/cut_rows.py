"""The cut list as rows, a part of a strip to a row; the strip under the cursor is marked."""

from collections.abc import Sequence

from rich.text import Text

from domain.drawing.marks import Mark
from domain.exact import half_up
from tui.reading.drawing import CutRow, where_to
from tui.theme import PALETTES
from tui.widgets.line_list import LineList

TITLES = "strip  from    to  slope, course"


class CutRows(LineList):
    """Rows of the cut list. The cursor shows also while something else has the focus."""

    DEFAULT_CSS = "CutRows { height: 1fr; }"

    def __init__(self, rows: Sequence[CutRow]) -> None:
        super().__init__()
        self.rows = tuple(rows)

    def on_mount(self) -> None:
        """Show them from the first."""
        self.show(len(self.rows), self._row)

    def go_to(self, mark: Mark) -> None:
        """Put the cursor on the part of a piece."""
        marks = [Mark(row.strip, row.letter) for row in self.rows]
        self.cursor = marks.index(mark)

    def _row(self, place: int, _width: int) -> Text:
        p, row = PALETTES[self.app.theme], self.rows[place]
        same = row.strip == self.rows[self.cursor].strip
        first = not place or self.rows[place - 1].strip != row.strip
        here = place == self.cursor
        mark = "▸" if here else "│" if same else " "
        number = f"{row.strip:>3}" if first or same else "   "
        line = Text(mark, style=p.brick, end="")
        line.append(f"{number}{row.letter or ' '} ", style=f"bold {p.brick if same else p.ink}")
        cut = f"{half_up(row.part.start):>5,} {half_up(row.part.end):>5,}"
        return line.append(f"{cut}  {where_to(row.part)}", style=p.ink if row.letter else p.quiet)
