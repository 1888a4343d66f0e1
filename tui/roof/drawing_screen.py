"""The roof drawn to scale, with its cut list beside it or below it: each shows the other."""

import asyncio
from typing import ClassVar

from textual import events
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.drawing.draw_working import draw_working
from domain.drawing.drawing_parts import Drawing, DrawnPiece
from domain.takeoff.felt_takeoff import FeltTakeOff
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.roof.colours import Chosen, place_of
from tui.roof.cut_list_shown import CutRow, cut_list_shown, piece_words
from tui.roof.cut_list_view import CutRows
from tui.roof.drawing_view import RoofDrawing
from tui.widgets.line_list import LineList

_WIDE = 100
"""Columns from which the lengths of a roof in felt stand beside it."""
_LOW = 30
"""Lines under which the list below the roof has few."""


class DrawingScreen(BaseScreen):
    """The drawing of one roof; ``whose`` tells in the heading which it is."""

    place: ClassVar[str] = "drawing"
    title_words: ClassVar[str] = "the roof to scale"
    CSS = """
    DrawingScreen #both { layout: vertical; height: 1fr; padding: 0 2; }
    DrawingScreen RoofDrawing { width: 1fr; height: 1fr; }
    DrawingScreen #list { width: 1fr; height: 7; }
    DrawingScreen #told { height: 2; padding: 0 2; }
    DrawingScreen #here { height: auto; color: $ink; }
    DrawingScreen #key { height: 1; padding: 0 2; color: $quiet; }
    DrawingScreen #titles { height: 1; color: $quiet; }
    DrawingScreen.-high #list { height: 14; }
    DrawingScreen.-high #told { height: 4; }
    DrawingScreen.-beside #both { layout: horizontal; margin-top: 1; }
    DrawingScreen.-beside #list { width: 35; height: 1fr; margin-left: 1; }
    """

    def __init__(self, drawing: Drawing, whose: str = "") -> None:
        super().__init__()
        self._whose, self._drawing = whose, drawing
        self._roof, self._here = RoofDrawing(drawing), Static("", id="here")
        self._shown = cut_list_shown(drawing)
        self._list = CutRows(self._shown.rows)
        self._titles = Static(Content(self._shown.titles), id="titles")
        self._is_new = True

    def heading_words(self) -> str:
        """Return whose roof it is."""
        return one_line(self._whose)

    def body(self) -> list[Widget]:
        """The roof, the cut list, what the cursor stands on, what the signs mean."""
        both = Container(self._roof, Vertical(self._titles, self._list, id="list"), id="both")
        told = VerticalScroll(self._here, id="told", can_focus=False)
        return [both, told, Static(Content(self._shown.signs), id="key")]

    def on_mount(self) -> None:
        """Begin at the first way of cutting; the keys go over the roof."""
        self.set_focus(self._roof)

    def on_resize(self, event: events.Resize) -> None:
        """Put the list beside or under the roof, as the window allows."""
        in_felt = isinstance(self._drawing.takeoff, FeltTakeOff)
        self.set_class(in_felt and event.size.width >= _WIDE, "-beside")
        self.set_class(event.size.height >= _LOW, "-high")
        self._fit_list()
        self.call_after_refresh(self._fit_width)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own
        """A roof in felt has one plan alone, as has one that is not worked out."""
        takeoff = self._drawing.takeoff
        has_two = not isinstance(takeoff, FeltTakeOff) and takeoff.working is not None
        return action != "fewest" or has_two

    def on_roof_drawing_pointed(self, event: RoofDrawing.Pointed) -> None:
        """Show the course of the piece in the list, and what is laid in it from the left."""
        event.stop()
        self._roof.chosen = Chosen(place=place_of(event.drawn))
        self._here.update(Content(piece_words(event.drawn, self._drawing)))
        row = self._shown.row_of(event.drawn)
        if row is not None:
            with self.prevent(LineList.Moved):
                self._list.cursor = row

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Show on the roof what the row is about, wherever it lies."""
        event.stop()
        self._mark(event.row)

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Bring it into view, wherever the roof was scrolled to."""
        event.stop()
        self._mark(event.row)

    def action_fewest(self) -> None:
        """Show the plan of the fewest strips, or again the one to work by."""
        self.in_worker(self._other_plan())

    async def _other_plan(self) -> None:
        takeoff = self._drawing.takeoff
        if isinstance(takeoff, FeltTakeOff) or takeoff.working is None:
            return
        now = self._drawing.plan
        other = takeoff.fewest.ways if now == takeoff.working else takeoff.working
        self._drawing = await asyncio.to_thread(draw_working, takeoff, other)
        self._shown = cut_list_shown(self._drawing)
        self._roof.put(self._drawing)
        self._titles.update(Content(self._shown.titles))
        self._list.put(self._shown.rows)
        self._fit_list()
        self._mark(0)

    def action_zoom(self, by: int) -> None:
        """Draw it larger or smaller."""
        self._roof.magnify(by)

    def action_fit(self) -> None:
        """Draw all of it on one screen."""
        self._roof.fit()

    def action_turn(self) -> None:
        """Go from the roof to the cut list, or back."""
        self.set_focus(self._list if self._roof.has_focus else self._roof)  # before the next key

    def _fit_list(self) -> None:
        """Give the list below the roof the lines that it fills, and the roof all others."""
        below = self._list.parent
        if isinstance(below, Vertical):
            most = len(self._list.rows) + 1  # its titles
            below.styles.max_height = None if self.has_class("-beside") else most

    def _fit_width(self) -> None:
        """As large as can be read: from the top at first, later with what is chosen in view."""
        self._roof.fit_width()
        is_new, self._is_new = self._is_new, False
        self.call_after_refresh(lambda: self._mark(self._list.cursor, go=not is_new))

    def _mark(self, place: int, *, go: bool = True) -> None:
        """Mark on the roof what a row of the list is about, and ``go`` to the first of it."""
        row = self._list.rows[place]
        drawn = next((drawn for drawn in self._drawing.pieces if _is_about(row, drawn)), None)
        self._roof.chosen = Chosen(row.marks, row.courses)
        self._here.update(Content(row.told))
        if drawn and go:
            self._roof.go_to(drawn)


def _is_about(row: CutRow, drawn: DrawnPiece) -> bool:
    piece = drawn.piece
    return drawn.mark in row.marks or (piece.slope, piece.course) in row.courses
