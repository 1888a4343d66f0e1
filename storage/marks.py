"""By what a job, or the book itself, is known again: its first action, which never changes.

The number of a job says only which one it is in this book, as it stands: in another book, or in a
backup that was restored, that number may be another job's.
"""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from storage.bookfile import connect
from storage.errors import OF_SQLITE, in_words

_FIRST_OF_JOB = """
    SELECT id || ' ' || at || ' ' || made_in FROM action WHERE job_id = ? ORDER BY id LIMIT 1
"""
_FIRST = "SELECT id || ' ' || at || ' ' || made_in FROM action ORDER BY id LIMIT 1"
_CALLED = """
    SELECT trim(job.ref || ' ' || site.place) FROM job JOIN site ON site.id = site_id
    WHERE job.id = ?
"""


@dataclass(frozen=True, slots=True)
class JobMark:
    """A job as it is known again."""

    mark: str
    """Empty if the book does not know who took the enquiry."""
    called: str
    """Its reference and place."""


def mark_of_job(book: Path, job_id: int) -> JobMark | None:
    """Return by what the job of a number is known; None if there is none.

    Raises what a fault of the book is told as.
    """
    try:
        with closing(connect(book, read_only=True)) as connection:
            called = connection.execute(_CALLED, (job_id,)).fetchone()
            first = _first(connection, _FIRST_OF_JOB, job_id)
            return None if called is None else JobMark(first, called[0])
    except OF_SQLITE as error:
        raise in_words(error) from error


def mark_of_book(book: Path) -> str:
    """Return by what a book is known; empty while nothing was ever saved in it.

    Raises what a fault of the book is told as.
    """
    try:
        with closing(connect(book, read_only=True)) as connection:
            return _first(connection, _FIRST)
    except OF_SQLITE as error:
        raise in_words(error) from error


def _first(connection: sqlite3.Connection, wanted: str, *given: int) -> str:
    found = connection.execute(wanted, given).fetchone()
    return "" if found is None else str(found[0])
