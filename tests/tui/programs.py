"""Programs of the system, stood in for by a script of our own."""

import sys
from pathlib import Path

import pytest


def stand_in(
    folder: Path, name: str, monkeypatch: pytest.MonkeyPatch, *, ends: int = 0, runs_s: float = 0
) -> Path:
    """Put a program of a name first in the way, and a desktop behind it.

    It writes to both of its outputs, runs so many seconds and ends so. Returns the file in which it
    notes what it was called with, a line each, and after that its input.
    """
    bin_, noted = folder / "bin", folder / f"{name}.noted"
    bin_.mkdir(exist_ok=True)
    script = bin_ / name
    script.write_text(
        f"#!{sys.executable}\n"
        "import pathlib, sys, time\n"
        "print('noise'); print('noise', file=sys.stderr)\n"
        f"half = pathlib.Path({str(noted)!r} + '.half')\n"
        "half.write_text('\\n'.join([*sys.argv[1:], sys.stdin.read()]), encoding='utf-8')\n"
        f"half.rename({str(noted)!r})\n"
        f"time.sleep({runs_s})\n"
        f"sys.exit({ends})\n",
        encoding="utf-8",
    )
    script.chmod(0o700)
    monkeypatch.setenv("PATH", str(bin_))
    monkeypatch.setenv("DISPLAY", ":9")
    return noted
