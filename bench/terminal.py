"""A terminal seen from outside: starts a program in one and waits for words on its screen."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import termios
import time
from collections.abc import Sequence

COLUMNS, LINES = 100, 30

_QUIET_S = 0.4

_CONTROL = re.compile(
    rb"\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b[P_^X][^\x1b]*\x1b\\|\x1b\[[0-?]*[ -/]*[@-~]|\x1b[ -~]"
)
_MODE_ASKED = re.compile(rb"\x1b\[\?(\d+)\$p")
_SYNCHRONISED = b"2026"


class Terminal:
    """A program that runs in a terminal of its own, until :meth:`end`."""

    def __init__(self, command: Sequence[str]) -> None:
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
        self._begun = time.perf_counter()
        self._program = subprocess.Popen(
            command,
            stdin=slave,
            stdout=slave,
            stderr=slave,
            env=_environment(),
            start_new_session=True,
        )
        os.close(slave)

    def end(self) -> None:
        """End the program."""
        os.killpg(self._program.pid, signal.SIGKILL)
        self._program.wait()
        os.close(self._master)

    def press(self, keys: bytes) -> None:
        """Press keys, once nothing was drawn for a while; the time is counted from here."""
        while select.select([self._master], [], [], _QUIET_S)[0]:
            _answer(os.read(self._master, 65536), self._master)
        self._begun = time.perf_counter()
        os.write(self._master, keys)

    def ms_until(self, words: str, timeout_s: float = 30.0) -> float:
        """Milliseconds from the start, or the last keys, until words are drawn, in one piece.

        Raises :class:`TimeoutError` with what was drawn instead.
        """
        seen, until = b"", self._begun + timeout_s
        while (left := until - time.perf_counter()) > 0:
            if not select.select([self._master], [], [], left)[0]:
                break
            try:
                chunk = os.read(self._master, 65536)
            except OSError:  # how Linux says that the program has ended
                break
            now = time.perf_counter()
            _answer(chunk, self._master)
            seen += chunk
            if words.encode() in _CONTROL.sub(b"", seen):
                return (now - self._begun) * 1000
        shown = _CONTROL.sub(b"", seen).decode(errors="replace")
        raise TimeoutError(f"{words!r} never came up. Drawn was: {shown[-2000:]}")


def ms_until(words: str, command: Sequence[str]) -> float:
    """Milliseconds from starting a program until words are drawn; then it is ended."""
    terminal = Terminal(command)
    try:
        return terminal.ms_until(words)
    finally:
        terminal.end()


def _answer(chunk: bytes, master: int) -> None:
    """Answer what a program asks of its terminal, so that it does not wait."""
    for mode in _MODE_ASKED.findall(chunk):
        os.write(master, b"\x1b[?%s;%d$y" % (mode, 2 if mode == _SYNCHRONISED else 0))
    if b"\x1b[c" in chunk:
        os.write(master, b"\x1b[?62;22c")


def _environment() -> dict[str, str]:
    """The environment of the programs; compiled files are kept, as on anybody's machine."""
    kept = {k: v for k, v in os.environ.items() if k not in ("PYTHONDONTWRITEBYTECODE", "COLUMNS")}
    return {**kept, "TERM": "xterm-256color", "COLORTERM": "truecolor"}
