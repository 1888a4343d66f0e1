"""A paper as it will be seen: read on screen, set on A4, opened, drafted as an e-mail, copied."""

import asyncio
from pathlib import Path
from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from domain.papers.blocks import Paper
from domain.tone import Tone
from storage.saved_papers import keep_paper, papers_folder, prints_folder
from tui.frame.opener import opened
from tui.frame.safe_text import one_line, shortened
from tui.frame.screen import BaseScreen
from tui.papers.as_email import draft_of
from tui.papers.as_pdf import pdf_of
from tui.papers.as_text import plain_text
from tui.papers.copying import copy_or_save
from tui.papers.paper_view import PaperView

_SHOWN = 60
"""Cells of what was copied that are said back."""


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
        """There must be another version to turn to, and a customer to write to."""
        if action == "draft":
            return self.paper.letter is not None
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

    def action_open_pdf(self) -> None:
        """Save the paper as an A4 PDF and open it with the system's own program."""
        self.in_worker(self._opened())

    def action_draft(self) -> None:
        """Save an e-mail to the customer with the PDF attached, and open it. Nothing is sent."""
        self.in_worker(self._drafted())

    def action_copy(self) -> None:
        """Copy a message to the customer, or a paper of one's own.

        A terminal may refuse without a word: what only it was asked to copy is saved too.
        """
        self.in_worker(self._copied())

    async def _printed(self) -> None:
        self.say(f"Saved as {await self._keep_pdf(self.paper)}")

    async def _saved(self) -> None:
        self.say(f"Saved as {self._keep(self.paper.title, plain_text(self.paper))}")

    async def _opened(self) -> None:
        self.in_background(self._show(await self._keep_pdf(self.paper)))

    async def _drafted(self) -> None:
        paper, today = self.paper, self.open_book.today
        letter = paper.letter
        if letter is None:
            return
        pdf = await self._keep_pdf(paper)

        def keep() -> Path:
            draft = draft_of(letter, pdf.read_bytes(), pdf.name, today)
            return keep_paper(pdf.parent, paper.title, draft, ".eml")

        self.in_background(self._show(await asyncio.to_thread(keep)))

    async def _show(self, where: Path) -> None:
        """Open a file, and say where it is."""
        if await opened(where):
            self.say(f"Opened {where}")
        else:
            self.say(f"Saved as {where} – open it from there.")

    async def _copied(self) -> None:
        title, letter = self.paper.title, self.paper.letter
        if letter is None:
            what, text = title, plain_text(self.paper)
        else:
            what, text = f"{title} message", " ".join(one_line(letter.short).split())
        unsure = await copy_or_save(self.app, self.open_book.path, what, text)
        if unsure:
            self.say(unsure, Tone.QUIET)
        else:
            self.say(f"Copied: {shortened(text, _SHOWN)}")

    def _keep(self, title: str, text: str) -> Path:
        return keep_paper(papers_folder(self.open_book.path), title, text.encode(), ".txt")

    async def _keep_pdf(self, paper: Paper) -> Path:
        logo = await self.open_book.ask(lambda book: book.picture(paper.look.logo))
        folder = prints_folder(self.open_book.path)
        return await asyncio.to_thread(
            lambda: keep_paper(folder, paper.title, pdf_of(paper, logo), ".pdf")
        )
