"""Start-up: from the command to the week, beside a bare program, run by turns."""

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from bench.bare import WORD
from bench.figures import Line, median
from bench.terminal import ms_until
from domain.week import plan_week
from storage.week_and_jobs import read_week

RUNS = 15
_BARE = (sys.executable, str(Path(__file__).with_name("bare.py")))


def measure_startup(book: Path, today: date) -> Iterator[Line]:
    """Start both by turns; the week counts as there when tonight's first line is."""
    first = plan_week(read_week(book, today), today).tonight[0].words[:16]
    week = (sys.executable, "-m", "tui.shell.command_line", "--book", str(book))
    pairs = [(ms_until(WORD, _BARE), ms_until(first, week)) for _ in range(RUNS + 1)]
    bare, ours = (median(times) for times in zip(*pairs[1:], strict=True))  # the first warms up
    yield Line("a bare program's one word", f"{bare:.0f} ms", f"median of {RUNS}, by turns")
    yield Line("tonight's first line", f"{ours:.0f} ms", f"{ours / bare:.2f} times as long")
