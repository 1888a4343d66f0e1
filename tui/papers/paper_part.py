"""A part of a page that is drawn as a paper is: words, a table, totals."""

from rich.text import Text
from textual.app import RenderResult
from textual.geometry import Size
from textual.reactive import reactive
from textual.widget import Widget

from domain.papers.blocks import Paper
from tui.frame.theme import PALETTES
from tui.papers.as_text import draw_paper


class PaperPart(Widget):
    """A paper within a page: as high as what it shows, and no line while it is empty."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "PaperPart { height: auto; }"

    paper: reactive[Paper | None] = reactive(None, layout=True)
    """What it shows."""

    def render(self) -> RenderResult:
        """The paper in the colours in force."""
        return self._drawn(self.content_size.width)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  as Textual calls it
        """Return how many lines the paper takes at that width."""
        return self._drawn(width).plain.count("\n") + 1 if self.paper else 0

    def _drawn(self, width: int) -> Text:
        if self.paper is None:
            return Text("")
        return draw_paper(self.paper, width, PALETTES[self.app.theme])
