"""The roof drawn to scale, with the cut list beside it or below it: each shows the other."""

from typing import ClassVar

from textual import events
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.drawing.drawing_parts import Drawing
from domain.drawing.marks import Mark
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.roof.colours import Chosen, place_of
from tui.roof.cut_list_shown import cut_list_shown, piece_words
from tui.roof.cut_list_view import CutRows
from tui.roof.drawing_view import RoofDrawing
from tui.widgets.line_list import LineList

_WIDE = 100
"""Columns from which the cut list stands beside the roof."""


class DrawingScreen(BaseScreen):
    """The drawing of one roof; ``whose`` tells in the heading which it is."""

    place: ClassVar[str] = "drawing"
    title_words: ClassVar[str] = "the roof to scale"
    CSS = """
    DrawingScreen #both { layout: horizontal; height: 1fr; padding: 0 2; margin-top: 1; }
    DrawingScreen RoofDrawing { width: 1fr; height: 1fr; }
    DrawingScreen #list { width: 35; margin-left: 1; }
    DrawingScreen #here { height: 1; padding: 0 2; color: $ink; }
    DrawingScreen #key { height: 1; padding: 0 2; color: $quiet; }
    DrawingScreen #titles { height: 1; color: $quiet; }
    DrawingScreen.-narrow #both { layout: vertical; margin-top: 0; }
    DrawingScreen.-narrow #list { width: 1fr; height: 6; margin-left: 0; }
    """

    def __init__(self, drawing: Drawing, whose: str = "") -> None:
        super().__init__()
        self._whose = whose
        self._pieces = {piece.mark: piece for piece in drawing.pieces if piece.mark}
        self._roof, self._here = RoofDrawing(drawing), Static("", id="here")
        self._beside = cut_list_shown(drawing)
        self._list = CutRows(self._beside.rows)

    def heading_words(self) -> str:
        """Return whose roof it is."""
        return one_line(self._whose)

    def body(self) -> list[Widget]:
        """The roof, the cut list, what the cursor stands on, what the signs mean."""
        titles = Static(Content(self._beside.titles), id="titles")
        both = Container(self._roof, Vertical(titles, self._list, id="list"), id="both")
        return [both, self._here, Static(Content(self._beside.signs), id="key")]

    def on_mount(self) -> None:
        """Begin at the first strip that is cut; the keys go over the roof."""
        self.set_focus(self._roof)

    def on_resize(self, event: events.Resize) -> None:
        """Put the list beside or under the roof, as the window allows."""
        self.set_class(event.size.width < _WIDE, "-narrow")
        self.call_after_refresh(self._fit_width)

    def on_roof_drawing_pointed(self, event: RoofDrawing.Pointed) -> None:
        """Show the strip of the piece in the list."""
        event.stop()
        mark = event.drawn.mark
        self._roof.chosen = Chosen(self._strip_of(mark), place_of(event.drawn))
        self._here.update(Content(piece_words(event.drawn)))
        if mark:
            with self.prevent(LineList.Moved):
                self._list.go_to(mark)

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Show the pieces of the strip on the roof."""
        event.stop()
        self._mark(event.row)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Bring the piece into view, wherever the roof was scrolled to."""
        event.stop()
        self._mark(event.row)

    def action_zoom(self, by: int) -> None:
        """Draw it larger or smaller."""
        self._roof.magnify(by)

    def action_fit(self) -> None:
        """Draw all of it on one screen."""
        self._roof.fit()

    def action_turn(self) -> None:
        """Go from the roof to the cut list, or back."""
        self.set_focus(self._list if self._roof.has_focus else self._roof)  # before the next key

    def _fit_width(self) -> None:
        """As large as can be read, with what is chosen in view."""
        self._roof.fit_width()
        self.call_after_refresh(lambda: self._mark(self._list.cursor))

    def _mark(self, place: int) -> None:
        """Mark the strip of a row of the cut list on the roof, and bring its piece into view.

        Ridge pieces and what is spare lie in no course: the first piece of their strip is shown.
        """
        row = self._list.rows[place]
        drawn = self._pieces.get(row.mark)
        self._roof.chosen = Chosen(self._strip_of(row.mark), place_of(drawn) if drawn else None)
        self._here.update(Content(row.told))
        shown = drawn or self._pieces.get(Mark(row.mark.strip, "a"))
        if shown:
            self._roof.go_to(shown)

    def _strip_of(self, mark: Mark | None) -> int | None:
        """The strip that is marked with all its pieces; no roll is."""
        return mark.strip if mark and self._beside.by_strip else None
