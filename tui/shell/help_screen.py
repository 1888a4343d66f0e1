"""Help: the keys of the place it was asked from, then those of anywhere, then how a job goes."""

from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from tui.frame.command_places import PLACES
from tui.frame.screen import BaseScreen
from tui.papers.paper_view import PaperView
from tui.shell.help_page import help_paper


class HelpScreen(BaseScreen):
    """A page to read; Escape goes back to where one was."""

    place: ClassVar[str] = "help"
    title_words: ClassVar[str] = "help"
    CSS = """
    HelpScreen VerticalScroll { align-horizontal: center; scrollbar-size-vertical: 1; }
    """

    def __init__(self, places: tuple[str, ...]) -> None:
        """``places`` of commands that were in force where it was asked, the nearest first."""
        super().__init__()
        self._places = places

    def heading_words(self) -> str:
        """Return the name of the screen that help was asked on."""
        return ", ".join(PLACES[place].lower() for place in self._places if place)

    def body(self) -> list[Widget]:
        """Return the help page."""
        return [VerticalScroll(PaperView(help_paper(self._places)))]

    def on_mount(self) -> None:
        """Give the focus to what scrolls, so that the arrow keys scroll it at once."""
        self.query_one(VerticalScroll).focus()
