"""The demo's whole story in a book: laid out once, whichever worker of a run asks for it first."""

import shutil
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from demo_data.layout import lay_out_book
from demo_data.story import Story
from domain.job import Job
from storage.book import Book
from storage.week_and_jobs import find_jobs

NOW = datetime(2026, 11, 25, 19, 30)
"""The evening that it is laid out for."""

_PATIENCE_S = 300


def copy_of_demo(shared: Path, copy: Path) -> Path:
    """Copy the demo's book out of a folder that all workers share, where the first lays it out.

    Who comes meanwhile waits on the lock of a database, which is free again if that one is killed.
    """
    laid_out, half = shared / "laid-out.headlap", shared / "half-laid-out.headlap"
    lock = sqlite3.connect(shared / "laying-out.lock", timeout=_PATIENCE_S, isolation_level=None)
    with closing(lock):
        lock.execute("BEGIN EXCLUSIVE")
        if not laid_out.exists():
            half.unlink(missing_ok=True)
            lay_out_book(half, Story.read(), NOW)
            half.rename(laid_out)
    return Path(shutil.copy(laid_out, copy))


def jobs_of(path: Path) -> list[Job]:
    """Every job of a book."""
    with closing(Book.open(path, lambda: NOW)) as book:
        return [book.job(line.id) for line in find_jobs(path, "")]


def each_roof_once(jobs: Iterable[Job]) -> list[Job]:
    """One job for every roof and covering on record."""
    surveyed = ((job.survey, job) for job in jobs if job.survey)
    roofs = {(s.measures, s.covering and s.covering.key): job for s, job in surveyed}
    return list(roofs.values())
