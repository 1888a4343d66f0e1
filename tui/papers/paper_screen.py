"""A paper as it will be seen: read on screen, set on A4, saved as plain text, copied."""

import asyncio
from pathlib import Path
from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from domain.papers.blocks import Paper
from domain.tone import Tone
from storage.saved_papers import keep_paper, papers_folder, prints_folder
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text
from tui.papers.paper_view import PaperView


class PaperScreen(BaseScreen):
    """Scrolls with the arrow and page keys; the paper itself has no controls in it."""

    place: ClassVar[str] = "paper"
    title_words: ClassVar[str] = "paper"
    CSS = """
    PaperScreen VerticalScroll { align-horizontal: center; scrollbar-size-vertical: 1; }
    """

    def __init__(self, paper: Paper, other: Paper | None = None, words: str = "") -> None:
        """``other`` is a version that ``words`` say lies beneath it."""
        super().__init__()
        self.paper = paper
        self._other, self._words = other, words

    def heading_words(self) -> str:
        """Return the title of the paper."""
        return one_line(self.paper.title)

    def body(self) -> list[Widget]:
        """Return the paper, on a ground of its own."""
        return [VerticalScroll(PaperView(self.paper))]

    def on_mount(self) -> None:
        """Give the focus to what scrolls, so that the arrow keys scroll it at once."""
        self.query_one(VerticalScroll).focus()
        if self._words:
            self.say(self._words, Tone.CAUTION)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's own names
        """There is only something to turn to where there is another version."""
        return action != "turn_over" or self._other is not None

    async def action_turn_over(self) -> None:
        """Show the other version."""
        if self._other is None:
            return
        self.paper, self._other = self._other, self.paper
        scroll = self.query_one(VerticalScroll)
        await scroll.remove_children()
        await scroll.mount(PaperView(self.paper))
        scroll.scroll_home(animate=False)
        self.refresh_heading()

    def action_print(self) -> None:
        """Save the paper as an A4 PDF, and say where."""
        self.in_worker(self._printed())

    def action_save(self) -> None:
        """Save the paper as plain text in the folder beside the book, and say where."""
        self.in_worker(self._saved())

    def action_copy(self) -> None:
        """Copy it. A terminal may refuse without a word, so it is saved too."""
        self.in_worker(self._copied())

    async def _printed(self) -> None:
        paper = self.paper
        logo = await self.open_book.ask(lambda book: book.picture(paper.look.logo))
        where = await asyncio.to_thread(self._keep_pdf, paper, logo)
        self.say(f"Saved as {where}")

    async def _saved(self) -> None:
        self.say(f"Saved as {self._keep()}")

    async def _copied(self) -> None:
        where = self._keep()
        self.app.copy_to_clipboard(plain_text(self.paper))
        self.say(f"Copied (if your terminal supports it). Also saved as {where}", Tone.QUIET)

    def _keep(self) -> Path:
        text = plain_text(self.paper).encode()
        return keep_paper(papers_folder(self.open_book.path), self.paper.title, text, ".txt")

    def _keep_pdf(self, paper: Paper, logo: bytes) -> Path:
        folder = prints_folder(self.open_book.path)
        return keep_paper(folder, paper.title, pdf_of(paper, logo), ".pdf")
