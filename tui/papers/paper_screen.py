"""A paper as it will be seen: read on screen, set on A4, opened, drafted as an e-mail, copied."""

from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from domain.papers.blocks import Paper
from domain.tone import Tone
from tui.frame.safe_text import one_line
from tui.frame.screen import BaseScreen
from tui.papers.as_text import plain_text
from tui.papers.handing_on import copy_message, draft_email, keep_pdf, keep_text, open_pdf
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
        """Save the paper as plain text in the folder of papers, and say where."""
        self.in_worker(self._saved())

    def action_open_pdf(self) -> None:
        """Save the paper as an A4 PDF and open it with the system's own program."""
        self.in_worker(open_pdf(self, self.paper))

    def action_draft(self) -> None:
        """Save an e-mail to the customer with the PDF attached, and open it. Nothing is sent."""
        self.in_worker(draft_email(self, self.paper))

    def action_copy(self) -> None:
        """Copy a message to the customer, or a paper of one's own.

        A terminal may refuse without a word: what only it was asked to copy is saved too.
        """
        self.in_worker(copy_message(self, self.paper))

    async def _printed(self) -> None:
        self.say(f"Saved as {await keep_pdf(self.open_book, self.paper)}")

    async def _saved(self) -> None:
        where = keep_text(self.open_book, self.paper.title, plain_text(self.paper))
        self.say(f"Saved as {where}")
