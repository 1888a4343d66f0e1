"""The program on a slow machine: another thread is always busy, and the book takes its time."""

import threading
import time
from pathlib import Path
from typing import Any

from tui.frame.open_book import OpenBook
from tui.frame.wall_clock import wall_clock
from tui.shell.command_line import run_app

_ANSWER_S = 0.3
"""What the slow book takes for each answer."""


def run(book: str, *, slowed: bool) -> None:
    """Open the screen on a book, as the command line does."""
    if slowed:
        threading.Thread(target=_spin, daemon=True).start()
        _slow_down()
    run_app(Path(book), wall_clock)


def _spin() -> None:
    while True:
        sum(range(10_000))


def _slow_down() -> None:
    quick = OpenBook._opened

    def opened(self: OpenBook) -> Any:
        time.sleep(_ANSWER_S)
        return quick(self)

    OpenBook._opened = opened  # type: ignore[method-assign]
