"""What a backup, or the book itself, holds: enough to tell one from another."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from storage.backups.copying import read_alone
from storage.bookfile import connect
from storage.errors import OF_SQLITE, Damaged, in_words


@dataclass(frozen=True, slots=True)
class Holding:
    """What stands in a book."""

    jobs: int
    last_invoice: int
    """Its number; 0 for none."""
    last_change: datetime | None
    """When anything was last saved; None if nothing ever was."""


def holding_of_backup(path: Path) -> Holding:
    """Return what a backup holds. Raises :class:`Damaged` if it cannot be read."""
    try:
        with closing(read_alone(path)) as connection:
            return _holding(connection)
    except OF_SQLITE as error:
        raise Damaged from error


def holding_of_book(path: Path) -> Holding:
    """Return what the book holds, be it open or not. Raises what a fault is told as."""
    try:
        with closing(connect(path, read_only=True)) as connection:
            return _holding(connection)
    except OF_SQLITE as error:
        raise in_words(error) from error


def _holding(connection: sqlite3.Connection) -> Holding:
    (jobs,) = connection.execute("SELECT count(*) FROM job").fetchone()
    wanted = "SELECT coalesce(max(number), 0) FROM document WHERE series = 'invoice'"
    (last_invoice,) = connection.execute(wanted).fetchone()
    (at,) = connection.execute("SELECT max(at) FROM action").fetchone()
    try:
        last_change = None if at is None else datetime.fromisoformat(at)
    except ValueError as error:
        raise Damaged from error
    return Holding(jobs, last_invoice, last_change)
