"""Files handed to the program that the system opens them with."""

import os
import shutil
import subprocess
import sys
import threading
from pathlib import Path

from tui.frame.unhurried import unhurried

_SOON_S = 1
"""Within this an opener says that it cannot; one that runs on shows the file itself."""


async def opened(path: Path) -> bool:
    """Open a file with the system's own program for it; False where there is none or it refuses.

    What the program writes goes nowhere near the terminal, and it outlives this one.
    """
    return await unhurried(lambda: _opened(path))


def _opened(path: Path) -> bool:
    if sys.platform == "win32":
        try:
            os.startfile(path)  # noqa: S606  the system's own way of opening
        except OSError:
            return False
        return True
    program = _opener()
    if program is None:
        return False
    try:
        process = subprocess.Popen(  # noqa: S603  the system's opener, given one path
            [program, str(path.absolute())],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError:
        return False
    try:
        return process.wait(_SOON_S) == 0
    except subprocess.TimeoutExpired:
        threading.Thread(target=process.wait, daemon=True).start()
        return True


def _opener() -> str | None:
    """The opener's path; None without a desktop, where it would look for a terminal's programs."""
    if sys.platform == "darwin":
        return shutil.which("open")
    desktop = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return shutil.which("xdg-open") if desktop else None
