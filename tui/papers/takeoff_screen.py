"""The take-off as a paper, one key from the roof drawn to scale."""

import asyncio
from typing import ClassVar

from textual.dom import DOMNode

from domain.drawing.draw_roof import draw_roof
from domain.papers.blocks import Paper
from domain.takeoff.roof_takeoff import TakeOff
from tui.papers.paper_screen import PaperScreen
from tui.roof.drawing_screen import DrawingScreen


class TakeoffScreen(PaperScreen):
    """What was counted, and the paper that tells of it."""

    place: ClassVar[str] = "takeoff"

    def __init__(self, paper: Paper, takeoff: TakeOff) -> None:
        super().__init__(paper)
        self._takeoff = takeoff

    def namespaces(self) -> list[tuple[str, DOMNode]]:
        """Its own command, then those of every paper."""
        return [*super().namespaces(), (PaperScreen.place, self)]

    def action_drawing(self) -> None:
        """Show the roof to scale."""
        self.in_worker(self._drawn())

    async def _drawn(self) -> None:
        drawing = await asyncio.to_thread(draw_roof, self._takeoff)
        self.app.push_screen(DrawingScreen(drawing))
