"""A process forked from this one, so that nothing has to be loaded afresh, and killed."""

import os
import signal
import traceback
from collections.abc import Callable
from pathlib import Path


class Forked:
    """Something that runs in a fork, and says a letter at a time how far it is."""

    def __init__(self, what: Callable[[Callable[[bytes], object]], object], told: Path) -> None:
        """``what`` is given what it says its letters with; its fault is written to ``told``.

        No book may be open here: a fork must not go on with it.
        """
        self.heard = b""
        self._told = told
        self._ear, mouth = os.pipe()
        self._child = os.fork()
        if not self._child:
            code = 1
            try:
                os.close(self._ear)
                what(lambda letter: os.write(mouth, letter))
                code = 0
            except BaseException:
                told.write_text(traceback.format_exc(), encoding="utf-8")
            finally:
                os._exit(code)  # nothing of the test itself is run to its end here
        os.close(mouth)

    def hears(self, letter: bytes, times: int) -> None:
        """Wait until a letter was said so often, or nothing can be said any more."""
        while self.heard.count(letter) < times:
            said = os.read(self._ear, 4096)
            if not said:
                return
            self.heard += said

    def dies(self) -> str:
        """Kill it, and hear what it still said; what it died of if that was not the kill."""
        os.kill(self._child, signal.SIGKILL)
        return self.ends()

    def ends(self) -> str:
        """Wait for its end; what it died of, or nothing."""
        while said := os.read(self._ear, 4096):
            self.heard += said
        os.close(self._ear)
        os.waitpid(self._child, 0)
        return self._told.read_text("utf-8") if self._told.exists() else ""
