"""A paper on a ground of its own, drawn to the width there is."""

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.geometry import Size
from textual.widget import Widget

from domain.papers.blocks import Paper
from tui.frame.theme import PALETTES
from tui.papers.as_text import draw_paper

WIDEST = 92
"""Cells; wider than this the eye loses the line between a description and its amount."""
_NARROW, _WIDE = 2, 4
"""Cells of margin at each side."""


class PaperView(Widget):
    """A paper on the screen, as high as it is long: put it where it can scroll."""

    DEFAULT_CSS = f"""
    PaperView {{
        width: 1fr; max-width: {WIDEST + 2 * _WIDE}; height: auto;
        padding: 1 {_NARROW}; background: $panel;
    }}
    """

    def __init__(self, paper: Paper) -> None:
        super().__init__()
        self._paper = paper

    def render(self) -> RenderResult:
        """The paper in the colours in force."""
        return self._drawn(self.content_size.width)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  as Textual calls it
        """Return how many lines the paper takes at that width."""
        return self._drawn(width).plain.count("\n") + 1

    def on_resize(self, event: events.Resize) -> None:
        """At 80 columns the margins give way to the paper."""
        margin = _WIDE if event.container_size.width > WIDEST else _NARROW
        self.styles.padding = (1, margin)

    def _drawn(self, width: int) -> Text:
        return draw_paper(self._paper, width, PALETTES[self.app.theme])
