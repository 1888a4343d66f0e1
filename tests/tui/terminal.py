"""The program in a terminal of its own, typed into at any speed.

A pilot waits until the program idles after each key and so hides what a quick hand would lose.
"""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import sys
import termios
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from types import TracebackType

_PATIENCE_S = 90
_STYLES = re.compile(
    rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|[PX^_\]].*?(?:\x1b\\|\x07)|[@-Z\\-_=>])", re.DOTALL
)

ENTER, ESCAPE, PAGE_DOWN, HOME = "\r", "\x1b", "\x1b[6~", "\x1b[H"


def ctrl(letter: str) -> str:
    """What a terminal sends for a letter with the control key."""
    return chr(ord(letter) & 0x1F)


class Terminal:
    """One run of the program on a book; a context kills it if it has not ended by then."""

    def __init__(
        self,
        book: Path,
        *,
        slowed: bool = False,
        size: tuple[int, int] = (80, 24),
        command: Sequence[str] = (),
        root: Path | None = None,
    ) -> None:
        """``slowed`` has a busy thread beside it, and a book that takes its time.

        ``command`` is run instead, in the checkout at ``root`` if one is given.
        """
        self._seen = b""
        self._status: int | None = None
        code = f"from tests.tui.slowed import run; run({str(book)!r}, slowed={slowed})"
        run = list(command or (sys.executable, "-c", code))
        self.pid, self._fd = pty.fork()
        if not self.pid:
            path = os.pathsep.join(sys.path if root is None else [str(root)])
            os.environ |= {"TERM": "xterm-256color", "PYTHONPATH": path}
            os.chdir(root or Path.cwd())
            os.execv(run[0], run)
        columns, lines = size
        fcntl.ioctl(self._fd, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        os.close(self._fd)
        self.ends(signal.SIGKILL)

    def shows(self, words: str) -> None:
        """Wait until words are drawn that were not at the last call; fails if they never are."""
        wanted, end = words.encode(), time.monotonic() + _PATIENCE_S
        while wanted not in _STYLES.sub(b"", self._seen):
            assert time.monotonic() < end, f"never drawn: {words}"
            self._read(0.05)
        self._seen = b""

    def reads(self, seconds: float) -> str:
        """Let it draw for so long; returns all that was drawn since the last wait, as text."""
        self._read(seconds)
        return _STYLES.sub(b"", self._seen).decode(errors="replace")

    def waits(self, so: Callable[[], bool], every_s: float = 0.05) -> None:
        """Wait until something is so outside, looked at so often; fails if it never is."""
        end = time.monotonic() + _PATIENCE_S
        while not so():
            assert time.monotonic() < end, "it never came"
            self._read(every_s)

    def types(self, *keys: str, pause_s: float) -> None:
        """Type keys or whole words, a character at a time, with a pause after each."""
        for each in keys:
            for character in [each] if each.startswith("\x1b") else each:
                os.write(self._fd, character.encode())
                self._read(pause_s)

    def pastes(self, text: str) -> None:
        """Paste, as a terminal that brackets what is pasted."""
        os.write(self._fd, f"\x1b[200~{text}\x1b[201~".encode())

    def ends(self, sign: signal.Signals | None = None) -> int:
        """Wait until the program has ended, after a signal if one is given; returns its status."""
        if self._status is not None:
            return self._status
        if sign is not None:
            os.kill(self.pid, sign)
        end = time.monotonic() + _PATIENCE_S
        while time.monotonic() < end:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self._status = os.waitstatus_to_exitcode(status)
                return self._status
            if sign is not signal.SIGKILL:
                self._read(0.02)
        raise AssertionError("it never ended")

    def _read(self, seconds: float) -> None:
        """Take what is drawn for so long; a terminal that is never read stops the program."""
        end = time.monotonic() + seconds
        while (rest := end - time.monotonic()) > 0:
            if select.select([self._fd], [], [], rest)[0]:
                try:
                    self._seen += os.read(self._fd, 65536)
                except OSError:  # the program has let go of the terminal
                    return
