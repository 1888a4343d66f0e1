"""Left in order when the window is closed or the machine shut down, not only by the key for it."""

import asyncio
import signal
from collections.abc import Callable
from contextlib import suppress

_ASKED_TO_LEAVE = ("SIGHUP", "SIGTERM", "SIGINT")
"""The terminal was closed, the machine is being shut down, another program says stop: ctrl+c is a
key like others. Windows has none of them."""


def leave_when_told(leave: Callable[[int], None]) -> None:
    """Have ``leave`` called with the exit status that a shell expects of a program ended so.

    It runs in the loop of the app, which then closes the book as it always does.
    """
    loop = asyncio.get_running_loop()
    for name in _ASKED_TO_LEAVE:
        with suppress(AttributeError, NotImplementedError):
            number = getattr(signal, name)
            loop.add_signal_handler(number, leave, 128 + number)
