"""Keys and pastes wait here until what the ones before set off has come to rest.

Typed ahead while a form opens, a key would find the screen below, or a form that is still to be
filled; the first letters of a name would be lost or stand at its end. So they are let through one
at a time, in the order typed: each when the screen in front stands, is filled and has the cursor.
"""

import asyncio
from collections import deque
from contextlib import suppress

from textual import events
from textual.app import App, ScreenStackError
from textual.message_pump import MessagePump
from textual.worker import WorkerCancelled, WorkerFailed

KEYS_WAIT = "keys wait"
"""The group of workers that decide where the next key belongs: they open, fill, save or find."""

_LOOK_AGAIN_S = 0.05
_PATIENCE_S = 15
"""What never comes to rest must not leave a program without keys, so they are let through then."""


class HeldKeys:
    """The keys typed and not yet let through."""

    def __init__(self, app: App[None]) -> None:
        self._app = app
        self._held: deque[events.Key | events.Paste] = deque()
        self._passing: events.Event | None = None
        self._pump: asyncio.Task[None] | None = None

    @property
    def at_rest(self) -> bool:
        """Whether none waits, and what the last one set off has come to rest."""
        return self._pump is None or self._pump.done()

    def holds(self, event: events.Event) -> bool:
        """Whether the app must not handle this now; it is posted again when its turn comes."""
        if event is self._passing or not isinstance(event, events.Key | events.Paste):
            return False
        if event.is_forwarded:
            return False  # it has been where it belongs, and comes up through the widgets
        self._held.append(event)
        if self.at_rest:
            self._pump = asyncio.create_task(self._let_through())
        return True

    async def _let_through(self) -> None:
        with suppress(ScreenStackError):  # the program is left: there is nothing to type into
            await self._rested()
            while self._held:
                self._passing = self._held.popleft()
                self._app.post_message(self._passing)
                await self._rested()

    async def _rested(self) -> None:
        with suppress(TimeoutError):
            await asyncio.wait_for(self._comes_to_rest(), _PATIENCE_S)

    async def _comes_to_rest(self) -> None:
        """Return when nothing is at work that a key set off, and the cursor stays where it is.

        Messages are first come, first served in each widget, so one that has answered has worked
        off all before; a key goes from the widget with the cursor up to the app.
        """
        app, before = self._app, None
        while True:
            await self._has_answered(app)
            way = (app.focused or app.screen).ancestors_with_self
            for node in way:
                await self._has_answered(node)
            works = [w for w in app.workers if w.group == KEYS_WAIT and not w.is_finished]
            for work in works:
                with suppress(WorkerFailed, WorkerCancelled):  # said by whoever began it
                    await work.wait()
            now = (app.screen, app.focused)
            if now == before and not works:
                return
            before = now

    async def _has_answered(self, node: MessagePump) -> None:
        """Wait until it has worked off everything sent to it so far, or is gone."""
        answered = asyncio.Event()
        node.call_later(answered.set)
        while self._is_there(node) and not answered.is_set():
            with suppress(TimeoutError):
                await asyncio.wait_for(answered.wait(), _LOOK_AGAIN_S)

    def _is_there(self, node: MessagePump) -> bool:
        return self._app.is_running if node is self._app else node.is_attached
