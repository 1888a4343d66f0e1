"""From a key to what it brings in the running program: the list, a search, the way back."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from bench.figures import Line, median
from bench.startup import first_words, week_of
from bench.terminal import Terminal
from storage.week_and_jobs import find_jobs

TIMES = 9
F3, ESCAPE = b"\x1bOR", b"\x1b"


def measure_keys(book: Path, today: date) -> Iterator[Line]:
    """Open the list, find a job by one more figure, and go back to the week."""
    week, newest = first_words(book, today), find_jobs(book, "")[0].customer
    found = find_jobs(book, "past customer 42")[0].customer
    steps = (
        ("the list of jobs", F3, newest, b"/customer 4"),
        ("found by one more figure", b"2", found, ESCAPE),
        ("back to the week", ESCAPE, week, b""),
    )
    times: dict[str, list[float]] = {what: [] for what, *_ in steps}
    terminal = Terminal(week_of(book))
    try:
        terminal.ms_until(week)
        for _ in range(TIMES):
            for what, keys, words, then in steps:
                terminal.press(keys)
                times[what].append(terminal.ms_until(words))
                terminal.press(then)
    finally:
        terminal.end()
    for what, taken in times.items():
        yield Line(what, f"{median(taken):.0f} ms", "from the key")
