"""The demo's whole story in a book: laid out once, and again only when its sources change."""

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from demo_data.kept import keeping_place, open_demo
from domain.job import Job
from storage.book import Book
from storage.week_and_jobs import find_jobs

NOW = datetime(2026, 11, 25, 19, 30)
"""The evening that it is laid out for."""

_PATIENCE_S = 300


def copy_of_demo(shared: Path, copy: Path) -> Path:
    """Make the demo's book at ``copy``: laid out by the first worker of a run that wants it.

    A checkout keeps it for the next run beside that of ``make demo``; without a place of its own it
    is kept in the folder that the workers share. Who comes meanwhile waits on the lock of a
    database, which is free again if the first one is killed.
    """
    place = keeping_place() or shared
    lock = sqlite3.connect(shared / "laying-out.lock", timeout=_PATIENCE_S, isolation_level=None)
    with closing(lock):
        lock.execute("BEGIN EXCLUSIVE")
        open_demo(copy, NOW, place / "tests")
    return copy


def jobs_of(path: Path) -> list[Job]:
    """Every job of a book."""
    with closing(Book.open(path, lambda: NOW)) as book:
        return [book.job(line.id) for line in find_jobs(path, "")]


def each_roof_once(jobs: Iterable[Job]) -> list[Job]:
    """One job for every roof and covering on record."""
    surveyed = ((job.survey, job) for job in jobs if job.survey)
    roofs = {(s.measures, s.covering and s.covering.key): job for s, job in surveyed}
    return list(roofs.values())
