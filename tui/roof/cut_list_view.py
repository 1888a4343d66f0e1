"""The cut list as rows, a part of a strip or roll to a row; those of one strip are marked."""

from collections.abc import Sequence

from rich.text import Text

from domain.drawing.marks import Mark
from domain.signs import Sign
from tui.frame.theme import PALETTES
from tui.roof.cut_list_shown import CutRow
from tui.widgets.line_list import LineList


class CutRows(LineList):
    """Rows of the cut list. The cursor shows also while something else has the focus."""

    DEFAULT_CSS = "CutRows { height: 1fr; }"

    def __init__(self, rows: Sequence[CutRow]) -> None:
        super().__init__()
        self.rows = tuple(rows)

    def on_mount(self) -> None:
        """Put the cursor on the first row."""
        self.show(len(self.rows), self._row)

    def go_to(self, mark: Mark) -> None:
        """Put the cursor on the part of a piece."""
        self.cursor = [row.mark for row in self.rows].index(mark)

    def _row(self, place: int, _width: int) -> Text:
        p, row = PALETTES[self.app.theme], self.rows[place]
        strip, letter = row.mark.strip, row.mark.letter
        same = strip == self.rows[self.cursor].mark.strip
        mark = Sign.HERE if place == self.cursor else "│" if same else " "
        number = f"{strip:>3}"
        line = Text(mark, style=p.verdigris, end="")
        line.append(f"{number}{letter or ' '} ", style=f"bold {p.verdigris if same else p.ink}")
        return line.append(f"{row.cut}  {row.goes}", style=p.ink if letter else p.quiet)
