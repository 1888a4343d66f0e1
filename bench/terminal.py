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

_CONTROL = re.compile(
    rb"\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)|\x1b[P_^X][^\x1b]*\x1b\\|\x1b\[[0-?]*[ -/]*[@-~]|\x1b[ -~]"
)
_MODE_ASKED = re.compile(rb"\x1b\[\?(\d+)\$p")
_SYNCHRONISED = b"2026"


def ms_until(words: str, command: Sequence[str], timeout_s: float = 30.0) -> float:
    """Milliseconds from starting a program until ``words`` stand on its screen; then it is ended.

    ``words`` must be drawn in one piece. Raises :class:`TimeoutError` with what was on the screen
    instead.
    """
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
    begun = time.perf_counter()
    program = subprocess.Popen(
        command,
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env=_environment(),
        start_new_session=True,
    )
    os.close(slave)
    try:
        return (_seen_at(words.encode(), master, begun + timeout_s) - begun) * 1000
    finally:
        os.killpg(program.pid, signal.SIGKILL)
        program.wait()
        os.close(master)


def _seen_at(words: bytes, master: int, until: float) -> float:
    """When the words were on the screen, by the same clock as ``until``."""
    seen = b""
    while (left := until - time.perf_counter()) > 0:
        if not select.select([master], [], [], left)[0]:
            break
        try:
            chunk = os.read(master, 65536)
        except OSError:  # how Linux says that the program has ended
            break
        now = time.perf_counter()
        _answer(chunk, master)
        seen += chunk
        if words in _CONTROL.sub(b"", seen):
            return now
    shown = _CONTROL.sub(b"", seen).decode(errors="replace")
    raise TimeoutError(f"{words.decode()!r} never came up. On the screen: {shown[-2000:]}")


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
