"""Reading a long history: what the first screen and the list of jobs wait for."""

import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from bench.figures import Line, median
from storage.week_and_jobs import find_jobs, read_week

RUNS = 15
SCREEN = 40
"""Lines of the list on a tall screen."""


def measure_reading(book: Path, today: date) -> Iterator[Line]:
    """Read the week, find by words, and list everything; counts come with what is listed."""
    yield Line("the week", _timed(lambda: read_week(book, today)))
    yield Line("jobs found by “quarry 99”", _timed(lambda: find_jobs(book, "quarry 99")[:SCREEN]))
    yield Line("every job, a screenful drawn", _timed(lambda: find_jobs(book, "")[:SCREEN]))


def _timed(read: Callable[[], object]) -> str:
    def once() -> float:
        begun = time.perf_counter()
        read()
        return (time.perf_counter() - begun) * 1000

    return f"{median([once() for _ in range(RUNS)]):.1f} ms"
