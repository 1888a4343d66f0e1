"""One line of a job's history in full: every field that changed, before and after."""

from typing import TYPE_CHECKING, ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget

from domain.history import show_moment, starting
from domain.papers.blocks import Block, Column, Paper, Table, Words
from tui.frame.screen import BaseScreen
from tui.papers.paper_view import PaperView

if TYPE_CHECKING:
    from storage.journal import JournalEntry

_COLUMNS = (Column("what"), Column("before"), Column("after"))
_NOTHING = "–"


class EntryScreen(BaseScreen):
    """A page to read; Escape goes back to the history."""

    place: ClassVar[str] = "entry"
    title_words: ClassVar[str] = "history"
    CSS = "EntryScreen VerticalScroll { align-horizontal: center; scrollbar-size-vertical: 1; }"

    def __init__(self, job_id: int, called: str, entry: "JournalEntry") -> None:
        """``called`` is what the heading calls the job."""
        super().__init__()
        self.undo_of = job_id
        self._called, self._entry = called, entry

    def heading_words(self) -> str:
        """Return which job it is of."""
        return self._called

    def body(self) -> list[Widget]:
        """Return the page."""
        return [VerticalScroll(PaperView(self._paper()))]

    def on_mount(self) -> None:
        """Give the focus to what scrolls."""
        self.query_one(VerticalScroll).focus()

    def _paper(self) -> Paper:
        entry = self._entry
        when = show_moment(entry.at, self.open_book.now())
        rows = tuple(
            (each.label, each.before or _NOTHING, each.after or _NOTHING) for each in entry.changes
        )
        told: Block = Table(_COLUMNS, rows) if rows else Words("Nothing that can be shown changed.")
        saved = f"{when}, undone since" if entry.undone else when
        return Paper(starting(entry.words), (Words(saved), told))
