"""Start-up: from the command to the week, beside a bare program, run by turns."""

import sys
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from bench.bare import WORD
from bench.figures import Line, Pace, median
from bench.terminal import ms_until
from domain.week import plan_week
from storage.week_and_jobs import read_week

TURNS = 9
MOST_OF_BARE, MOST_OF_SHORT = 1.4, 1.1
"""At most so many times as long as a bare program, and as the shortest history."""

_BARE = (sys.executable, str(Path(__file__).with_name("bare.py")))


def machine_pace() -> Pace:
    """The pace of the machine at this moment, by five starts of a bare program."""
    return Pace(median([ms_until(WORD, _BARE) for _ in range(5)]))


def week_of(book: Path) -> tuple[str, ...]:
    """The command that opens a book."""
    return (sys.executable, "-m", "tui.shell.command_line", "--book", str(book))


def first_words(book: Path, today: date) -> str:
    """What tonight's first line begins with: once it is there, so is the week."""
    return plan_week(read_week(book, today), today).tonight[0].words[:16]


def measure_startup(books: Mapping[int, Path], today: date) -> Iterator[Line]:
    """Start a bare program and the week of every book, by turns; ratios are those of a turn."""
    words = {jobs: first_words(book, today) for jobs, book in books.items()}
    turns = [
        (ms_until(WORD, _BARE), {n: ms_until(words[n], week_of(books[n])) for n in books})
        for _ in range(TURNS + 1)
    ][1:]  # the first warms up
    shortest = min(books)
    yield Line("a bare program's one word", f"{median([bare for bare, _ in turns]):.0f} ms")
    for jobs in books:
        to_bare = median([weeks[jobs] / bare for bare, weeks in turns])
        to_short = median([weeks[jobs] / weeks[shortest] for _, weeks in turns])
        yield Line(
            f"tonight's first line, {jobs:,} jobs",
            f"{median([weeks[jobs] for _, weeks in turns]):.0f} ms",
            f"{to_bare:.2f} of the bare one (at most {MOST_OF_BARE}), "
            f"{to_short:.2f} of {shortest} jobs (at most {MOST_OF_SHORT})",
        )
