"""The history of a job: a diary, one line for each thing that was done."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.widget import Widget

from domain.history import in_a_line, show_moment
from tui.frame.safe_text import shortened
from tui.frame.screen import BaseScreen
from tui.job.entry_screen import EntryScreen
from tui.widgets.line_list import LineList

if TYPE_CHECKING:
    from storage.journal import JournalEntry

_UNDONE = "  undone"


class HistoryScreen(BaseScreen):
    """The latest first, Enter shows one in full; what was undone stays in it and says so."""

    place: ClassVar[str] = "history"
    title_words: ClassVar[str] = "history"
    CSS = """
    HistoryScreen LineList { margin: 0 2; }
    """

    def __init__(self, job_id: int, called: str) -> None:
        """``called`` is what the heading calls the job: its reference and place."""
        super().__init__()
        self.undo_of = job_id
        self._job_id, self._called = job_id, called
        self._entries: tuple[JournalEntry, ...] = ()
        self._when: list[str] = []

    def heading_words(self) -> str:
        """Return which job it is of."""
        return self._called

    def body(self) -> list[Widget]:
        """Return the list."""
        return [LineList()]

    def on_mount(self) -> None:
        """Put the cursor on the latest line."""
        self.query_one(LineList).focus()

    def action_open(self) -> None:
        """Show the line under the cursor in full."""
        self.query_one(LineList).action_choose()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Show every field that changed, before and after."""
        event.stop()
        self.app.push_screen(EntryScreen(self._job_id, self._called, self._entries[event.row]))

    async def reload(self) -> None:
        """Read what was done of the job."""
        self._entries = await self.open_book.ask(lambda book: book.history(self._job_id))
        now = self.open_book.now()
        self._when = [show_moment(entry.at, now) for entry in self._entries]
        self.query_one(LineList).show(len(self._entries), self._draw)

    def _draw(self, row: int, width: int) -> Text:
        entry, p, when = self._entries[row], self.palette, self._when
        text = Text(f"{when[row]:<{max(map(len, when)) + 2}}", style=p.quiet, end="")
        undone = _UNDONE if entry.undone else ""
        told = in_a_line(entry.words, entry.changes)
        words = shortened(told, width - text.cell_len - len(undone))
        text.append(words, style=p.quiet if undone else p.ink)
        return text.append(undone, style=p.quiet)
