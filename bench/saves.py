"""A month of saves: all jobs of the demo's story recorded once more in a book with a history."""

import shutil
import time
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any, cast

from bench.figures import Line, Pace, median, nearly_worst
from demo_data.evenings import Evenings
from demo_data.layout import tell_jobs
from demo_data.story import Story
from storage.actions.accounts_actions import AccountActions
from storage.actions.enquiries_actions import EnquiryActions
from storage.actions.on_site_actions import OnSiteActions
from storage.actions.quotes_actions import QuoteActions
from storage.actions.stages_actions import StageActions
from storage.book import Book

MOST_MS = 2

_AREAS = (EnquiryActions, QuoteActions, StageActions, OnSiteActions, AccountActions)
_SAVES = {name for area in _AREAS for name in vars(area)} - {"would_be_short"}


class _Timed:
    """A book that notes how long each save takes, until it is on the disk and read back."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self.ms: list[float] = []
        self.busy_ms: list[float] = []
        """Of these, what the processor took: the rest is the disk."""

    def __getattr__(self, name: str) -> Any:
        act = getattr(self._book, name)
        return self._noted(act) if name in _SAVES else act

    def _noted(self, act: Callable[..., Any]) -> Callable[..., Any]:
        def noted(*given: Any) -> Any:
            begun, busy = time.perf_counter(), time.thread_time()
            answer = act(*given)
            self.busy_ms.append((time.thread_time() - busy) * 1000)
            self.ms.append((time.perf_counter() - begun) * 1000)
            return answer

        return noted


def measure_saves(book: Path, now: datetime, pace: Pace) -> Iterator[Line]:
    """Record the month in a copy of the book, with the journal, the triggers and the indexes."""
    copy = book.with_suffix(".saves.db")
    shutil.copy(book, copy)
    evenings = Evenings(now)
    opened = Book.open(copy, evenings)
    timed = _Timed(opened)
    try:
        opened.demand_sound()  # looked at once, while the week is read
        tell_jobs(cast(Book, timed), Story.read(), evenings, now.date())
    finally:
        opened.close()
    busy = f"{median(timed.busy_ms):.1f} ms of the processor, {pace.limit(MOST_MS)}"
    yield Line(f"a save, the median of {len(timed.ms)}", f"{median(timed.ms):.1f} ms", busy)
    yield Line("a save, 95 of 100 within", f"{nearly_worst(timed.ms):.1f} ms")
