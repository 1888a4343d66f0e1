"""A paper as it will be seen: read on screen, saved as plain text, copied."""

from typing import ClassVar

from rich.text import Text
from textual import events
from textual.app import RenderResult
from textual.containers import VerticalScroll
from textual.geometry import Size
from textual.widget import Widget

from domain.papers.blocks import Paper, Tone
from storage.papers import keep_paper, papers_folder
from tui.papers.draw import draw, plain_text
from tui.safe_text import one_line
from tui.screens.base import BaseScreen
from tui.theme import PALETTES

WIDEST = 92
"""Cells; wider than this the eye loses the line between a description and its amount."""


class PaperScreen(BaseScreen):
    """Scrolls with the arrow and page keys; the paper itself has no controls in it."""

    place: ClassVar[str] = "paper"
    title_words: ClassVar[str] = "paper"
    CSS = """
    PaperScreen VerticalScroll { align-horizontal: center; scrollbar-size-vertical: 1; }
    """

    def __init__(self, paper: Paper) -> None:
        super().__init__()
        self.paper = paper

    def heading_words(self) -> str:
        """Which paper it is."""
        return one_line(self.paper.title)

    def body(self) -> list[Widget]:
        """The sheet, on a ground of its own."""
        return [VerticalScroll(PaperSheet(self.paper))]

    def on_mount(self) -> None:
        """The keys scroll at once."""
        self.query_one(VerticalScroll).focus()

    def action_save(self) -> None:
        """Write it beside the book and say where."""
        self.errand(self._saved())

    def action_copy(self) -> None:
        """Copy it. A terminal may refuse without a word, so it is saved too."""
        self.errand(self._copied())

    async def _saved(self) -> None:
        self.say(f"Saved as {self._keep()}")

    async def _copied(self) -> None:
        where = self._keep()
        self.app.copy_to_clipboard(plain_text(self.paper))
        self.say(f"Copied, if your terminal allows it. It is also saved as {where}", Tone.QUIET)

    def _keep(self) -> str:
        folder = papers_folder(self.desk.path)
        return str(keep_paper(folder, self.paper.title, plain_text(self.paper)))


class PaperSheet(Widget):
    """The paper, drawn to the width there is."""

    DEFAULT_CSS = f"""
    PaperSheet {{
        width: 1fr; max-width: {WIDEST + 8}; height: auto; padding: 1 4; background: $panel;
    }}
    """

    def __init__(self, paper: Paper) -> None:
        super().__init__()
        self._paper = paper

    def render(self) -> RenderResult:
        """The paper in the colours in force."""
        return self._drawn(self.content_size.width)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  as Textual calls it
        """As many lines as it takes."""
        return self._drawn(width).plain.count("\n") + 1

    def on_resize(self, event: events.Resize) -> None:
        """At 80 columns the margins give way to the paper."""
        self.styles.padding = (1, 4) if event.container_size.width >= WIDEST else (1, 2)

    def _drawn(self, width: int) -> Text:
        return draw(self._paper, max(20, width), PALETTES[self.app.theme])
