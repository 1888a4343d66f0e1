"""The terminal as Textual has it, but that a lone Esc is told from a longer key at once.

And what is written to a window that is closed is lost, and no more: Textual's thread that writes
would end by it, and the program wait for ever, the book open, until there were room in its queue.

A terminal sends Esc for that key, and as the first of several characters for an arrow or F3. Which
of both it was is known when nothing follows for a while; Textual looks every tenth of a second.
"""

import os
import selectors
from codecs import getincrementaldecoder
from contextlib import suppress
from typing import Any, TextIO

from textual import constants
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver

_LOOK_S = 0.1
"""How often it is asked whether the program ends."""
_MOST = 4096
"""Bytes that are read at once."""


class LastingOutput:
    """Writes to a terminal for as long as there is one."""

    def __init__(self, terminal: TextIO) -> None:
        self._terminal = terminal

    def write(self, text: str) -> None:
        """Write a text; once the window is closed, nowhere."""
        try:
            self._terminal.write(text)
        except OSError:
            self._lose_the_rest()

    def flush(self) -> None:
        """Send what was written."""
        try:
            self._terminal.flush()
        except OSError:
            self._lose_the_rest()

    def _lose_the_rest(self) -> None:
        """Let go of what was not taken: Python would try again at its end, and end as failed."""
        with suppress(OSError):
            terminal = self._terminal.fileno()
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, terminal)
            os.close(nowhere)

    def fileno(self) -> int:
        """The number by which the system knows the terminal."""
        return self._terminal.fileno()


class PromptDriver(LinuxDriver):
    """Looks again as soon as what was read cannot be the beginning of a longer key."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._file: Any = LastingOutput(self._file)

    def run_input_thread(self) -> None:
        """Read keys until the program ends, or the terminal has gone and there are no more."""
        parser = XTermParser(self._debug)
        decode = getincrementaldecoder("utf-8")().decode
        wait = _LOOK_S
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                read = os.read(self.fileno, _MOST) if selector.select(wait) else None
                if read == b"":
                    return
                typed = decode(read or b"")
                for event in (*(parser.feed(typed) if typed else ()), *parser.tick()):
                    self.process_message(event)
                wait = constants.ESCAPE_DELAY if read else _LOOK_S
