"""The book looked through: damage, rows whose owner is missing, gaps in numbers."""

import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from domain.errors import HeadlapError
from domain.quantity import plural
from storage.bookfile import State, connect, look_at
from storage.errors import OF_SQLITE, Damaged, in_words

_MOST = 100  # places of damage that are counted
_DAMAGED = "The file is damaged: restore a backup with headlap restore."
_COUNTED = {
    "job": "SELECT count(*) FROM job",
    "customer": "SELECT count(*) FROM customer",
    "quote": "SELECT count(*) FROM quote",
    "invoice": "SELECT count(*) FROM document WHERE series = 'invoice'",
    "receipt": "SELECT count(*) FROM document WHERE series = 'receipt'",
    "payment": "SELECT count(*) FROM payment",
    "price": "SELECT count(*) FROM price",
}


@dataclass(frozen=True, slots=True)
class Findings:
    """What was found in a book."""

    counts: tuple[tuple[str, int], ...]
    """What it holds: "job", 12."""
    faults: tuple[str, ...]
    """What is wrong, a sentence each; none if it is sound."""


def check_book(path: Path) -> Findings:
    """Look through all of a book, changing nothing. What is wrong is found, not raised.

    Raises what a fault is told as that says nothing of the book, such as a disk that fails.
    """
    try:
        state = look_at(path)
    except HeadlapError as error:
        return Findings((), (str(error),))
    if state is State.NEW:
        return Findings((), (f"There is no book at {path}.",))
    try:
        with closing(connect(path, read_only=True)) as connection:
            connection.execute("BEGIN")  # all of it as it stood at one moment
            faults = (*_damage(connection), *_orphans(connection), *_gaps(connection))
            counts = [
                (what, connection.execute(sql).fetchone()[0]) for what, sql in _COUNTED.items()
            ]
            return Findings(tuple(counts), faults)
    except OF_SQLITE as error:
        told = in_words(error)
        if isinstance(told, Damaged):
            return Findings((), (_DAMAGED,))
        raise told from error


def _damage(connection: sqlite3.Connection) -> Iterator[str]:
    if connection.execute(f"PRAGMA integrity_check({_MOST})").fetchone() != ("ok",):
        yield _DAMAGED


def _orphans(connection: sqlite3.Connection) -> Iterator[str]:
    """Speak of rows that belong to a row that is not there."""
    found = connection.execute("PRAGMA foreign_key_check").fetchall()
    for (table, owner), count in Counter((row[0], row[2]) for row in found).items():
        what = table.replace("_", " ")
        if count == 1:
            yield f"One {what} belongs to a {owner} that is not there."
        else:
            yield f"{count} {plural(what)} belong to a {owner} that is not there."


def _gaps(connection: sqlite3.Connection) -> Iterator[str]:
    """Speak of numbers that were given and are not there."""
    for series in ("invoice", "receipt"):
        wanted = "SELECT number FROM document WHERE series = ? ORDER BY number"
        before = 0
        for (number,) in connection.execute(wanted, (series,)):
            if number == before + 2:
                yield f"{series.capitalize()} {before + 1} is missing."
            elif number > before + 2:
                yield f"{series.capitalize()}s {before + 1} to {number - 1} are missing."
            before = number
