"""Coverings side by side: a column each, a row for each thing told of them."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from tui.reading.side_by_side import Row
from tui.safe_text import fitted, shortened
from tui.theme import PALETTES, Palette

_LABEL = 16
_WIDEST = 30


class Columns(Widget):
    """Columns under their names; a click on one chooses it."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Columns { height: auto; }"

    names: reactive[tuple[str, ...]] = reactive((), layout=True)
    """What stands above each column."""
    groups: reactive[tuple[tuple[Row, ...], ...]] = reactive((), layout=True)
    """What is told of each, in groups with an empty line between."""
    chosen: reactive[int | None] = reactive(None)
    """The column that is taken now."""

    class Picked(Message):
        """A column was clicked."""

        def __init__(self, column: int) -> None:
            self.column = column
            super().__init__()

    def render(self) -> RenderResult:
        """Names, then the rows: what is the same in all is quiet."""
        p = PALETTES[self.app.theme]
        lines = [self._heading(p)]
        for group in self.groups:
            lines += [Text(""), *(self._line(row, p) for row in group)]
        return Text("\n").join(lines)

    def on_click(self, event: events.Click) -> None:
        """Choose the column under the mouse."""
        column = (event.x - _LABEL) // self._width
        if 0 <= column < len(self.names):
            self.post_message(self.Picked(column))

    @property
    def _width(self) -> int:
        """Cells of a column."""
        return min(_WIDEST, (self.size.width - _LABEL) // max(1, len(self.names)))

    def _heading(self, p: Palette) -> Text:
        line = Text(" " * _LABEL, end="")
        for column, name in enumerate(self.names):
            here = column == self.chosen
            sign = "●" if here else "○"
            words = shortened(name, self._width - 5)
            line.append(f"{column + 1} ", style=f"bold {p.brick}")
            line.append(
                fitted(f"{sign} {words}", self._width - 2), style=p.brick if here else p.ink
            )
        return line

    def _line(self, row: Row, p: Palette) -> Text:
        line = Text(fitted(row.label, _LABEL), style=p.quiet, end="")
        for cell in row.cells:
            style = f"bold {p.brick if row.counts else p.ink}" if row.differs else p.quiet
            line.append(fitted(cell or "–", self._width), style=style)
        return line
