"""A job that was opened for one thing: it closes by itself once that is settled."""

import asyncio
from collections.abc import Callable

from domain.tone import Tone
from tui.frame.screen import BaseScreen
from tui.job.job_keys import JobKeys


class OpenedForOne(JobKeys):
    """Says what settled it on the screen below, whence it was opened."""

    def __init__(self, settled: Callable[[], bool] | None) -> None:
        """``settled`` tells whether it is; None for a job that was opened for all of it."""
        super().__init__()
        self._settled, self._last_words = settled, ""

    def on_screen_resume(self) -> None:
        """Close if what it was opened for was settled in the dialog that lay above."""
        if self._last_words:
            self._close_with(self._last_words)

    async def say_saved(
        self, sentence: str, tone: Tone = Tone.GOOD, *, lasting: bool = False
    ) -> None:
        """As any screen does; on that below if what this one was opened for is settled."""
        settled = self._settled
        if settled is None or self.unsaved or not await asyncio.to_thread(settled):
            await super().say_saved(sentence, tone, lasting=lasting)
        elif self.app.screen is self:  # no dialog lies above
            self._close_with(sentence)
        else:
            self._last_words = sentence

    def _close_with(self, sentence: str) -> None:
        below = self.app.screen_stack[self.app.screen_stack.index(self) - 1]
        if isinstance(below, BaseScreen):
            below.in_worker(below.say_saved(sentence))
        self.leave()
