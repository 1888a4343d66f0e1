"""A paper as it will be seen: read on screen, saved as plain text, copied."""

from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from domain.papers.blocks import Paper, Tone
from storage.papers import keep_paper, papers_folder
from tui.papers.draw import plain_text
from tui.safe_text import one_line
from tui.screens.base import BaseScreen
from tui.widgets.paper_sheet import PaperSheet


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
