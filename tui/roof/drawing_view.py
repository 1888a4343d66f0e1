"""A roof drawn to scale in terminal cells: only the lines on screen are drawn."""

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from domain.drawing.drawing_parts import Drawing, DrawnPiece
from tui.frame.theme import PALETTES
from tui.roof.cell_layout import MARGIN, Plate, line_of, plate
from tui.roof.colours import Chosen
from tui.roof.painter import Painter

ZOOMS = tuple(Fraction(n) for n in ("1/6", "1/4", "1/2", "1", "2", "3", "4", "6"))
"""Lines to a course, or to what of a row of felt is as high."""
_A_LINE, _TWO_LINES = 3, 4
"""Places in :data:`ZOOMS` of a line and of two: no more is needed to read a mark."""


class RoofDrawing(ScrollView, can_focus=True, inherit_bindings=False):
    """The slopes of a roof; arrows go from piece to piece, page keys and wheel scroll."""

    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1, 0)", "piece before", show=False),
        Binding("right", "step(1, 0)", "next piece", show=False),
        Binding("up", "step(0, -1)", "course above", show=False),
        Binding("down", "step(0, 1)", "course below", show=False),
        Binding("pageup", "page_up", "page up", show=False),
        Binding("pagedown", "page_down", "page down", show=False),
        Binding("ctrl+pageup", "page_left", "page left", show=False),
        Binding("ctrl+pagedown", "page_right", "page right", show=False),
        Binding("home", "scroll_home", "to the top", show=False),
        Binding("end", "scroll_end", "to the foot", show=False),
    ]
    DEFAULT_CSS = """
    RoofDrawing { background: $background; scrollbar-size: 1 1; }
    """

    zoom = reactive(_A_LINE)
    """Place in :data:`ZOOMS`."""
    chosen = reactive(Chosen())
    """What is marked."""

    class Pointed(Message):
        """A piece was pointed at, by the cursor or by a click."""

        def __init__(self, drawn: DrawnPiece) -> None:
            self.drawn = drawn
            super().__init__()

    def __init__(self, drawing: Drawing) -> None:
        super().__init__()
        self._drawing = drawing
        self._plate = self._laid_out(_A_LINE)
        self._at = (0, 0)

    def put(self, drawing: Drawing) -> None:
        """Draw the same roof by another plan, at the same scale."""
        self._drawing = drawing
        self._lay_out()

    def fit_width(self) -> None:
        """Zoom to the largest size at which the roof is no wider than the window.

        Never so small that nothing can be written on its courses.
        """
        width = self.scrollable_content_region.width
        slope = self._drawing.slopes[0]
        largest = _TWO_LINES if slope.exposure == line_of(slope) else _A_LINE  # a row has many
        plates = {zoom: self._laid_out(zoom) for zoom in range(largest + 1)}
        readable = {zoom: plate for zoom, plate in plates.items() if not plate.is_small}
        fits = [zoom for zoom, plate in readable.items() if plate.size[0] <= width]
        self.zoom = max(fits, default=min(readable))

    def magnify(self, by: int) -> None:
        """Show it larger (1) or smaller (-1), as far as that goes."""
        self.zoom = max(0, min(len(ZOOMS) - 1, self.zoom + by))

    def fit(self) -> None:
        """Show all of it, as large as the window allows."""
        width, height = self.size
        self.zoom = max(
            (
                place
                for place in range(len(ZOOMS))
                for columns, lines in [self._laid_out(place).size]
                if columns <= width and lines <= height
            ),
            default=0,
        )

    def go_to(self, drawn: DrawnPiece) -> None:
        """Bring a piece into view."""
        cells = self._plate.cells(drawn)
        if cells:
            column, line, columns, lines = cells
            self._at = (column + columns // 2, line + lines // 2)
            around = Region(column - MARGIN, line - 2, columns + 2 * MARGIN, lines + 4)
            self.scroll_to_region(around, animate=False, force=True)

    def action_step(self, right: int, down: int) -> None:
        """Go to the nearest other piece in a direction."""
        here = self._plate.piece(*self._at)
        columns, lines = self._plate.size
        x, y = self._at[0] + right, self._at[1] + down
        while 0 <= x < columns and 0 <= y < lines:
            found = self._plate.piece(x, y)
            if found is not None and found is not here:
                self._point(found, x, y)
                return
            x, y = x + right, y + down

    def on_click(self, event: events.Click) -> None:
        """Point at the piece under the mouse."""
        x, y = event.x + self.scroll_offset.x, event.y + self.scroll_offset.y
        found = self._plate.piece(x, y)
        if found is not None:
            self._point(found, x, y)

    def render_line(self, y: int) -> Strip:
        """The line ``y`` of what is visible."""
        ground = Style(bgcolor=PALETTES[self.app.theme].ground)
        left, width = self.scroll_offset.x, self.scrollable_content_region.width
        strip = Strip(self._line(y + self.scroll_offset.y, ground))
        return strip.adjust_cell_length(left + width, ground).crop(left, left + width)

    def watch_zoom(self) -> None:
        """Draw it at the new scale, and keep the piece in view."""
        self._lay_out()

    def watch_chosen(self) -> None:
        """Draw the roof again: what the cursor stands on is marked."""
        self.refresh()

    def on_resize(self) -> None:
        """Set the slopes side by side as the width allows."""
        self._lay_out()

    def _point(self, drawn: DrawnPiece, x: int, y: int) -> None:
        self.go_to(drawn)
        self._at = (x, y)
        self.post_message(self.Pointed(drawn))

    def _line(self, y: int, ground: Style) -> Iterator[Segment]:
        """The slopes that a line of the plate crosses, and the ground between them."""
        palette, at = PALETTES[self.app.theme], 0
        for slope in self._plate.slopes:
            if -1 <= y - slope.y <= slope.lines:
                yield Segment(" " * (slope.x - MARGIN - at), ground)
                yield from Painter(slope, palette, self.chosen).line(y - slope.y)
                at = slope.x - MARGIN + slope.box[0]

    def _lay_out(self) -> None:
        self._plate = self._laid_out(self.zoom)
        self.virtual_size = Size(*self._plate.size)
        self.refresh()

    def _laid_out(self, zoom: int) -> Plate:
        mm = line_of(self._drawing.slopes[0]) / ZOOMS[zoom]
        return plate(self._drawing, mm, self.scrollable_content_region.width)
