"""A book read alone, with the standard library: all of it as it stood at one moment.

To open it anew each time, and have SQLite understand its tables and views, took longer than to read
the week or a page of the list. While a program shows a book the connection is kept: no transaction
is open between two readings, so that saves can be folded in, and it is opened anew as soon as
another file, or other content that SQLite did not write there, may stand at its path.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from threading import Lock
from typing import TypeAlias

from storage.bookfile import SCHEMA, open_current
from storage.errors import OF_SQLITE, in_words
from storage.mapping.codec import as_written
from storage.search_words import fold

_Stands: TypeAlias = tuple[tuple[int, ...] | None, tuple[int, ...] | None]
"""The file and the -wal file beside it: which they are, and when the first was last written."""


class KeptOpen:
    """The connection by which a program that has a book open reads it, time and again."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._lock = Lock()
        self._open: tuple[_Stands, sqlite3.Connection] | None = None

    @contextmanager
    def taken(self) -> Iterator[sqlite3.Connection]:
        """Have it for one reading; another one where it is taken. Raises as ``open_current``."""
        if not self._lock.acquire(blocking=False):
            with closing(_opened(self._path)) as another:
                yield another
            return
        try:
            connection = self._as_it_stands()
            yield connection
            connection.rollback()
        except BaseException:
            self._shut()
            raise
        finally:
            self._lock.release()

    def shut(self) -> None:
        """Close it: the next reading opens it again."""
        with self._lock:
            self._shut()

    def _as_it_stands(self) -> sqlite3.Connection:
        """The connection, opened anew if the file is not what it was or is of another version."""
        now = _stands(self._path)
        if self._open is not None:
            before, connection = self._open
            if before == now and _schema(connection) == SCHEMA:
                return connection
        self._shut()
        self._open = now, _opened(self._path)
        return self._open[1]

    def _shut(self) -> None:
        if self._open is not None:
            self._open[1].close()
        self._open = None


_KEPT: dict[Path, KeptOpen] = {}


def keep_open(path: Path) -> None:
    """Keep the connection by which a book is read, until :func:`let_go`."""
    _KEPT.setdefault(path, KeptOpen(path))


def let_go(path: Path) -> None:
    """Close it, before the book is: whoever closes a file last takes the files beside it away."""
    kept = _KEPT.pop(path, None)
    if kept is not None:
        kept.shut()


@contextmanager
def reading(path: Path) -> Iterator[sqlite3.Connection]:
    """The book as it stands at one moment, to be read alone; its faults in words."""
    kept = _KEPT.get(path)
    try:
        with closing(_opened(path)) if kept is None else kept.taken() as connection:
            connection.execute("BEGIN")  # all of it as it stood at one moment
            with as_written():
                yield connection
    except OF_SQLITE as error:
        raise in_words(error) from error


def _opened(path: Path) -> sqlite3.Connection:
    connection = open_current(path)
    connection.row_factory = sqlite3.Row
    connection.create_function("fold", 1, fold, deterministic=True)
    return connection


def _schema(connection: sqlite3.Connection) -> int:
    (stated,) = connection.execute("PRAGMA user_version").fetchone()
    return int(stated)


def _stands(path: Path) -> _Stands:
    """What is at the path, and beside it."""
    book, log = _found(path), _found(Path(f"{path}-wal"))
    written = book and (book.st_dev, book.st_ino, book.st_size, book.st_mtime_ns)
    return written, log and (log.st_dev, log.st_ino)


def _found(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except OSError:
        return None
