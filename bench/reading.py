"""Reading a long history: what the first screen and the list of jobs wait for."""

import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from bench.figures import Line, median
from storage.week_and_jobs import count_jobs, find_jobs, read_week

RUNS = 15


def measure_reading(book: Path, today: date) -> Iterator[Line]:
    """Read the week, find by words, and list and count everything."""
    yield Line("the week", _timed(lambda: read_week(book, today)))
    yield Line("jobs found by “quarry 99”", _timed(lambda: find_jobs(book, "quarry 99", None)))
    yield Line("every job", _timed(lambda: find_jobs(book, "", None)))
    yield Line("how many of each stage", _timed(lambda: count_jobs(book, "")))


def _timed(read: Callable[[], object]) -> str:
    def once() -> float:
        begun = time.perf_counter()
        read()
        return (time.perf_counter() - begun) * 1000

    return f"{median([once() for _ in range(RUNS)]):.1f} ms"
