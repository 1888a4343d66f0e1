"""What is said under Find where the words find no job, and what they may have been meant for."""

import asyncio
from typing import TYPE_CHECKING, cast

from textual.content import Content
from textual.widgets import Static

from storage.near_names import near_names
from tui.frame.commands import key_of
from tui.frame.safe_text import one_line

if TYPE_CHECKING:
    from tui.frame.screen import BaseScreen

_NO_JOB = f"No job here yet: {key_of('anywhere', 'new_enquiry')} adds one."
_NONE = (
    f"No job with these words. {key_of('jobs', 'back')} clears them; "
    f"{key_of('anywhere', 'new_enquiry')} adds an enquiry."
)
_PAUSE_S = 0.15
"""Seconds without a key before near names are looked for."""


class NothingFound(Static):
    """Away while a job is found, and while the words are a size."""

    DEFAULT_CSS = """
    NothingFound { margin: 0 2; height: auto; color: $quiet; display: none; }
    """

    nearest = ""
    """The likeliest words that find a job instead; empty while there are none."""
    _words = ""

    def show(self, words: str, found: int, elsewhere: int, *, is_size: bool) -> None:
        """Say it of words that find so many in the list, and of other stages so many."""
        self._words, self.nearest = words, ""
        away = bool(found) or is_size
        if not away:
            self.update(Content(self._said(words, elsewhere)))
            if words.strip() and not elsewhere:
                cast("BaseScreen", self.screen).in_background(self._looked(words))
        if self.display is away:  # to set it anew would have all laid out anew
            self.display = not away

    def _said(self, words: str, elsewhere: int) -> str:
        if not words.strip():
            return "No job of this stage." if elsewhere else _NO_JOB
        if elsewhere:
            return f"No job of this stage with these words; {elsewhere} of others: Enter."
        return _NONE

    async def _looked(self, words: str) -> None:
        """Offer what is a letter away, once typing pauses."""
        await asyncio.sleep(_PAUSE_S)
        if self._words != words or not self.is_attached:
            return
        path = cast("BaseScreen", self.screen).open_book.path
        near = await asyncio.to_thread(near_names, path, words)
        if near and self._words == words and self.is_attached:
            self.nearest = near[0]
            named = ", ".join(map(one_line, near))
            said = f"No job with these words. Nearest: {named}. Enter finds {one_line(near[0])}."
            self.update(Content(said))
