"""From a key to what it brings in the running program: a list, a search, a job, the way back."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from bench.figures import Line, Pace, median
from bench.startup import first_words, week_of
from bench.terminal import Terminal
from storage.week_and_jobs import find_jobs

TIMES = 9
F3, ESCAPE, ENTER = b"\x1bOR", b"\x1b", b"\r"

_WHOLE = "m payment"
"""What stands last at the foot of a finished job once all of its page does."""


def measure_keys(book: Path, today: date, pace: Pace) -> Iterator[Line]:
    """Open the list, find a job by one more figure, open it, and go back to the week."""
    week, newest = first_words(book, today), find_jobs(book, "")[0].customer
    found = find_jobs(book, "past customer 42")[0].customer
    steps = (
        ("the list of jobs", 60, F3, newest, b"/customer 4"),
        ("found by one more figure", 50, b"2", found, ENTER),
        ("a job, whole", 150, ENTER, _WHOLE, b""),
        ("back to the list", 50, ESCAPE, found, ESCAPE),
        ("back to the week", 50, ESCAPE, week, b""),
    )
    times: dict[str, list[float]] = {what: [] for what, *_ in steps}
    terminal = Terminal(week_of(book))
    try:
        terminal.ms_until(week)
        for _ in range(TIMES):
            for what, _most, keys, words, then in steps:
                terminal.press(keys)
                times[what].append(terminal.ms_until(words))
                terminal.press(then)
    finally:
        terminal.end()
    for what, most, *_ in steps:
        first, *again = times[what]
        told = f"from the key, {pace.limit(most)}; the first time {first:.0f}"
        yield Line(what, f"{median(again):.0f} ms", told)
