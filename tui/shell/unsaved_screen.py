"""What a window that went left unsaved: gone on with, or thrown away."""

from contextlib import suppress
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from domain.errors import HeadlapError
from domain.signs import Sign
from domain.tone import Tone
from storage.kept_typing import still_belongs
from tui.frame.safe_text import fitted, one_line, shortened
from tui.frame.screen import BaseScreen
from tui.widgets.line_list import LineList

if TYPE_CHECKING:
    from storage.kept_typing import KeptTyping
    from tui.shell.typing_kept import TypingKept

_WORDS = "Not saved when the window closed. It is kept until you save it or throw it away."
_WHAT = 34


class UnsavedScreen(BaseScreen):
    """One row a form: what it is, of which job, and what was typed into it; all of one below."""

    place: ClassVar[str] = "unsaved"
    title_words: ClassVar[str] = "typing that was not saved"
    CSS = """
    UnsavedScreen LineList { margin: 0 2; }
    UnsavedScreen #words { margin: 0 2 1 2; color: $quiet; }
    UnsavedScreen #front { margin: 0 2 1 2; height: auto; max-height: 60%; }
    UnsavedScreen #front { border-top: solid $line; }
    """

    def __init__(self, kept: "TypingKept") -> None:
        """``kept`` holds what was left, and forgets what is dealt with here."""
        super().__init__()
        self._kept = kept

    def body(self) -> list[Widget]:
        """Return the words, the list, and what was typed in the one in front."""
        return [Static(Content(_WORDS), id="words"), LineList(), Static(id="front")]

    def on_mount(self) -> None:
        """Put the cursor on the first."""
        self.query_one(LineList).focus()

    async def reload(self) -> None:
        """Show what is left; once the book is open, what of it no longer belongs there."""
        self._show()
        with suppress(HeadlapError):  # said by the week; what cannot be known is only shown
            await self.open_book.warm_up()
        self._show()

    def _show(self) -> None:
        left = self._kept.left
        self.query_one(LineList).show(len(left), self._draw)
        self._show_front()

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

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        """Show all of the one in front."""
        event.stop()
        self._show_front()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        """Open it where it was typed, with what was typed in it."""
        event.stop()
        typing = self._kept.left[event.row]
        if not self._belongs(typing):
            self.say(_elsewhere(typing), Tone.CAUTION)
            return
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

    def _belongs(self, typing: "KeptTyping") -> bool:
        return still_belongs(typing, self.open_book.path)

    def _take(self, row: int) -> "KeptTyping":
        left = self._kept.left
        self._kept.left = (*left[:row], *left[row + 1 :])
        self._kept.keep()
        return left[row]

    def _show_front(self) -> None:
        row, left = self.query_one(LineList).cursor, self._kept.left
        if row >= len(left):
            return
        typing = left[row]
        parts = [(f"{_called(typing)}\n", "bold $ink"), (one_line(typing.words), "$ink")]
        if not self._belongs(typing):
            parts.append((f"\n{Sign.CAUTION} {_elsewhere(typing)}", "$caution"))
        self.query_one("#front", Static).update(Content.assemble(*parts))

    def _draw(self, row: int, width: int) -> Text:
        typing, p = self._kept.left[row], self.palette
        text = Text(fitted(_called(typing), _WHAT), style=f"bold {p.ink}", end="")
        return text.append(f"  {shortened(one_line(typing.words), width - _WHAT - 2)}", p.quiet)


def _called(typing: "KeptTyping") -> str:
    return one_line(f"{typing.called}  {typing.form}".strip())


def _elsewhere(typing: "KeptTyping") -> str:
    """Why it cannot be gone on with."""
    if typing.job_id is None:
        return "It was typed in another book: read it here, and type again what you need."
    return one_line(
        f"{typing.called} is no longer in this book, or is another job by now: read it here, and "
        "type again what you need."
    )
