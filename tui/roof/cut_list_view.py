"""The cut list as rows: a way of cutting or of laying to a row, in felt a length of a roll."""

from collections.abc import Sequence

from rich.text import Text

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

    def put(self, rows: Sequence[CutRow]) -> None:
        """Show other rows, the cursor on the first."""
        self.rows, self.cursor = tuple(rows), 0
        self.show(len(self.rows), self._row)

    def _row(self, place: int, _width: int) -> Text:
        p, row = PALETTES[self.app.theme], self.rows[place]
        here = place == self.cursor
        line = Text(Sign.HERE if here else " ", style=p.verdigris, end="")
        line.append(f"{row.name} ", style=f"bold {p.verdigris if here else p.ink}")
        return line.append(row.rest, style=p.quiet if row.is_quiet else p.ink)
