"""A list that draws only the rows on screen, so that fifty thousand jobs cost what fifty do."""

from collections.abc import Callable
from typing import ClassVar

from rich.style import Style
from rich.text import Text
from textual import events
from textual.actions import SkipAction
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tui.frame.theme import PALETTES

Draw = Callable[[int, int], Text]
"""Row number and width in cells → the row, one line."""
NO_ROW = -1
"""Where the cursor stands while no row is chosen; down goes to the first."""


class LineList(ScrollView, can_focus=True, inherit_bindings=False):
    """Rows of one line each, with a cursor. Enter or a click opens a row.

    Left and right are not taken, so that a screen can give them a meaning.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,k", "move(-1)", "up", show=False),
        Binding("down", "move(1)", "down", show=False),
        Binding("pageup", "page(-1)", "page up", show=False),
        Binding("pagedown", "page(1)", "page down", show=False),
        Binding("home", "to(0)", "first", show=False),
        Binding("end", "to(-1)", "last", show=False),
    ]
    DEFAULT_CSS = """
    LineList { height: 1fr; background: $background; scrollbar-size-vertical: 1; }
    """

    cursor = reactive(0)
    """The row the cursor stands on, or :data:`NO_ROW`."""

    class Chosen(Message):
        """A row was opened, by Enter or by a click; by Enter it may be :data:`NO_ROW`."""

        def __init__(self, line_list: "LineList", row: int) -> None:
            self.line_list = line_list
            self.row = row
            super().__init__()

        @property
        def control(self) -> "LineList":
            """The list it happened in."""
            return self.line_list

    class Moved(Chosen):
        """The cursor stands on another row."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id)
        self._count = 0
        self._draw: Draw = lambda _row, _width: Text("", end="")

    def show(self, count: int, draw: Draw) -> None:
        """Show ``count`` rows, each drawn when it comes on screen. The cursor stays if it can."""
        self._count, self._draw = count, draw
        self._take_size(Size(0, count))
        self.cursor = max(0, min(self.cursor, count - 1))
        self.refresh()

    def _take_size(self, lines: Size) -> None:
        """Be so long; all of the screen is laid out anew only where that can move something."""
        needs_bar = lines.height > self.container_size.height
        if self.styles.auto_dimensions or needs_bar is not self.show_vertical_scrollbar:
            self.virtual_size = lines
        else:
            self.set_reactive(LineList.virtual_size, lines)
            self._scroll_update(lines)

    @property
    def count(self) -> int:
        """How many rows there are."""
        return self._count

    def render_line(self, y: int) -> Strip:
        """The row at line ``y`` of what is visible."""
        row, width = y + self.scroll_offset.y, self.scrollable_content_region.width
        palette = PALETTES[self.app.theme]
        on_cursor = row == self.cursor < self._count and self.has_focus
        ground = Style.parse(f"on {palette.line}" if on_cursor else f"on {palette.ground}")
        if row >= self._count:
            return Strip.blank(width, ground)
        text = self._draw(row, width)
        strip = Strip(text.render(self.app.console)).adjust_cell_length(width)
        return strip.apply_style(ground)

    def watch_cursor(self, row: int) -> None:
        """Keep the cursor on screen."""
        self._scroll_to_cursor()
        self.refresh()
        if NO_ROW < row < self._count:
            self.post_message(self.Moved(self, row))

    def action_move(self, by: int) -> None:
        """A row up or down; over the first or the last the key goes to what the list stands in."""
        if not 0 <= self.cursor + by < self._count:
            raise SkipAction
        self.cursor += by

    def action_page(self, by: int) -> None:
        """Move the cursor a screenful up or down."""
        rows = by * max(1, self.size.height - 1)
        self.cursor = max(0, min(self._count - 1, self.cursor + rows))

    def action_to(self, row: int) -> None:
        """Put the cursor on the first row (0) or the last (−1)."""
        self.cursor = max(0, self._count - 1) if row < 0 else 0

    def action_choose(self) -> None:
        """Open the row under the cursor."""
        if self._count:
            self.post_message(self.Chosen(self, self.cursor))

    def key_enter(self, event: events.Key) -> None:
        """Open the row. No binding, so that the line of keys shows what the screen calls it."""
        event.stop()
        event.prevent_default()
        self.action_choose()

    def on_click(self, event: events.Click) -> None:
        """Open the row under the mouse."""
        row = event.y + self.scroll_offset.y
        if row < self._count:
            self.cursor = row
            self.action_choose()

    def on_resize(self) -> None:
        """Keep the cursor on screen when there are fewer lines."""
        self._scroll_to_cursor()

    def on_focus(self) -> None:
        """The cursor shows only in the list that has the focus."""
        self.refresh()

    def on_blur(self) -> None:
        """Draw it again without its cursor: the focus has gone elsewhere."""
        self.refresh()

    def _scroll_to_cursor(self) -> None:
        self.scroll_to_region(Region(0, self.cursor, 1, 1), animate=False, force=True)
