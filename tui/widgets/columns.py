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

OFFER_KEYS = "abc"
"""The letters that stand in the last row, a column each."""
_LABEL = 16
_WIDEST = 30


class Columns(Widget):
    """Columns under their names, and a last row of what is offered.

    A click on a column chooses it, one on its place in the last row offers it or not.
    """

    ALLOW_SELECT = False
    DEFAULT_CSS = "Columns { height: auto; }"

    names: reactive[tuple[str, ...]] = reactive((), layout=True)
    """What stands above each column."""
    groups: reactive[tuple[tuple[Row, ...], ...]] = reactive((), layout=True)
    """What is told of each, in groups with an empty line between."""
    chosen: reactive[int | None] = reactive(None)
    """The column that is taken now."""

    offered: reactive[tuple[bool | None, ...]] = reactive((), layout=True)
    """Whether each is to be offered; None for one that cannot be."""

    class Picked(Message):
        """A column was clicked."""

        def __init__(self, column: int) -> None:
            self.column = column
            super().__init__()

    class Offered(Message):
        """The last row was clicked in a column."""

        def __init__(self, column: int) -> None:
            self.column = column
            super().__init__()

    def render(self) -> RenderResult:
        """Names, then the rows: what is the same in all is quiet."""
        p = PALETTES[self.app.theme]
        lines = [self._heading(p)]
        for group in self.groups:
            lines += [Text(""), *(self._line(row, p) for row in group)]
        if self.offered:
            lines += [Text(""), self._offers(p)]
        return Text("\n").join(lines)

    def on_click(self, event: events.Click) -> None:
        """Choose the column under the mouse, or offer it."""
        column = (event.x - _LABEL) // self._width
        if 0 <= column < len(self.names):
            is_last = event.y == self.size.height - 1
            self.post_message((self.Offered if is_last else self.Picked)(column))

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

    def _offers(self, p: Palette) -> Text:
        """What the quote is to offer, each with the letter that puts it in or leaves it out."""
        line = Text(fitted("To be offered", _LABEL), style=p.quiet, end="")
        for letter, is_in in zip(OFFER_KEYS, self.offered, strict=False):
            line.append(f"{letter} ", style=f"bold {p.brick}")
            sign = "– cannot be" if is_in is None else "✓ yes" if is_in else "○ no"
            line.append(fitted(sign, self._width - 2), style=p.moss if is_in else p.quiet)
        return line

    def _line(self, row: Row, p: Palette) -> Text:
        line = Text(fitted(row.label, _LABEL), style=p.quiet, end="")
        for cell in row.cells:
            style = f"bold {p.brick if row.counts else p.ink}" if row.differs else p.quiet
            line.append(fitted(cell or "–", self._width), style=style)
        return line
