"""What a window that went left unsaved: gone on with, or thrown away."""

from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.tone import Tone
from tui.frame.safe_text import fitted, one_line, shortened
from tui.frame.screen import BaseScreen
from tui.widgets.line_list import LineList

if TYPE_CHECKING:
    from storage.kept_typing import KeptTyping
    from tui.shell.typing_kept import TypingKept

_WORDS = "Not saved when the window closed. It is kept until you save it or throw it away."
_WHAT = 34


class UnsavedScreen(BaseScreen):
    """One row a form: what it is, of which job, and what was typed into it."""

    place: ClassVar[str] = "unsaved"
    title_words: ClassVar[str] = "typing that was not saved"
    CSS = """
    UnsavedScreen LineList { margin: 0 2; }
    UnsavedScreen #words { margin: 0 2 1 2; color: $quiet; }
    """

    def __init__(self, kept: "TypingKept") -> None:
        """``kept`` holds what was left, and forgets what is dealt with here."""
        super().__init__()
        self._kept = kept

    def body(self) -> list[Widget]:
        """Return the words and the list."""
        return [Static(Content(_WORDS), id="words"), LineList()]

    def on_mount(self) -> None:
        """Put the cursor on the first."""
        self.query_one(LineList).focus()

    async def reload(self) -> None:
        """Show what is left."""
        self.query_one(LineList).show(len(self._kept.left), self._draw)

    def action_open(self) -> None:
        """Go on with the one under the cursor."""
        self.query_one(LineList).action_choose()

    def action_throw_away(self) -> None:
        """Throw away the one under the cursor."""
        self._take(self.query_one(LineList).cursor)
        if self._kept.left:
            self.in_worker(self.reload())
        else:
            self.dismiss()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open it where it was typed, with what was typed in it."""
        event.stop()
        typing = self._kept.left[event.row]
        if typing.is_dialog:  # it is only told, so it stays in the list until it is thrown away
            if typing.job_id is not None:
                self.program.go_on_with(typing)
            else:
                self.say(one_line(f"You had typed {typing.told}"), Tone.QUIET)
            return
        self._take(event.row)
        if not self._kept.left:
            self.dismiss()
        self.app.call_later(self.program.go_on_with, typing)

    def _take(self, row: int) -> "KeptTyping":
        left = self._kept.left
        self._kept.left = (*left[:row], *left[row + 1 :])
        self._kept.keep()
        return left[row]

    def _draw(self, row: int, width: int) -> Text:
        typing, p = self._kept.left[row], self.palette
        what = f"{typing.called}  {typing.form}".strip()
        text = Text(fitted(what, _WHAT), style=f"bold {p.ink}", end="")
        return text.append(f"  {shortened(one_line(typing.words), width - _WHAT - 2)}", p.quiet)
