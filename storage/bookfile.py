"""The file of the book: how it is recognised and opened. The standard library alone."""

import sqlite3
import stat
from contextlib import closing
from enum import Enum, auto
from pathlib import Path
from typing import Final

from storage.backups.names import has_backups
from storage.errors import OF_SQLITE, CannotWrite, NewerBook, NotABook, NotCurrent, in_words
from storage.folders import make_own_folder

APPLICATION_ID: Final = 0x48_4C_41_50
"""Marks a database as a book of ours, in the file's header (the letters HLAP)."""

SCHEMA: Final = 43
"""The number of the newest migration: what ``PRAGMA user_version`` says of a current book."""

_JOURNAL: Final = bytes.fromhex("d9d505f920a163d7")
"""How a journal of SQLite begins that is to be rolled back."""

BUSY_SECONDS: Final = 3.0
"""How long another program's write is waited for."""
_KEPT_READY = 512
"""Statements kept as SQLite understood them: one with its triggers takes longer than to do it."""


class State(Enum):
    """How a file stands to this version of the program."""

    NEW = auto()
    """Not there, or an empty file: to be made a book."""
    OLDER = auto()
    """To be brought up to date."""
    CURRENT = auto()


def look_at(path: Path) -> State:
    """Tell how a file stands, without touching it.

    Only what a program that was killed left half written is rolled back first, as SQLite would:
    whoever reads alone cannot, and would find the book shut for good.

    Raises :class:`NotABook` for a file that is anything else, :class:`NewerBook` for a book of a
    later version, :class:`CannotWrite` if it cannot be read.
    """
    if not _is_begun(path):
        return State.NEW
    try:
        with closing(connect(path, read_only=True)) as connection:
            return _state(path, connection)
    except OF_SQLITE as error:
        raise in_words(error) from error


def open_current(path: Path) -> sqlite3.Connection:
    """Look at a file as :func:`look_at` does, and open it to be read alone.

    Raises :class:`NotCurrent` for a file that is to be made a book, or brought up to date.
    """
    if not _is_begun(path):
        raise NotCurrent(path)
    connection = connect(path, read_only=True)
    try:
        if _state(path, connection) is not State.CURRENT:
            raise NotCurrent(path)
    except BaseException:
        connection.close()
        raise
    return connection


def _is_begun(path: Path) -> bool:
    """Whether there is a book of ours, by its header; False if it is not there or empty."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return False
    except OSError as error:
        raise CannotWrite from error
    if not stat.S_ISREG(found.st_mode):  # opening a pipe would wait for its other end
        raise NotABook(path, has_backups=has_backups(path))
    if found.st_size and _is_half_written(path):
        _roll_back(path)
        found = path.stat()
    if not found.st_size:
        return False
    mark, stated = _header(path)
    if mark != APPLICATION_ID:
        raise NotABook(path, has_backups=has_backups(path))
    if stated > SCHEMA:  # it only ever grows
        raise NewerBook(path)
    return True


def connect(path: Path, *, read_only: bool = False) -> sqlite3.Connection:
    """Open the file; transactions are begun by whoever uses the connection.

    It may be used from any thread, by one at a time.
    """
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={'ro' if read_only else 'rw'}",
        uri=True,
        timeout=BUSY_SECONDS,
        isolation_level=None,
        check_same_thread=False,
        cached_statements=_KEPT_READY,
    )
    if not read_only:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")  # this alone reads the whole schema
    return connection


def make_private(path: Path) -> None:
    """See to it that the file and its folder exist and that the owner alone reads them.

    A folder that was there already is left as it is. The files that SQLite keeps beside the book
    take over its permissions, also those of a book that was read-only when it was last looked at.
    Raises :class:`CannotWrite`, also if its owner made it read-only.
    """
    try:
        make_own_folder(path.parent)
        if not path.exists():
            path.touch(mode=0o600)
        may_write = bool(path.stat().st_mode & stat.S_IWUSR)
        if may_write:
            path.chmod(0o600)
            for beside in (Path(f"{path}-wal"), Path(f"{path}-shm")):
                if beside.exists():
                    beside.chmod(0o600)
    except OSError as error:
        raise CannotWrite from error
    if not may_write:
        raise CannotWrite


def _is_half_written(path: Path) -> bool:
    """Whether a journal lies beside a book of ours, or beside what was to become one.

    The journal of a file that was empty says so: https://www.sqlite.org/fileformat.html, section 3.
    """
    try:
        with Path(f"{path}-journal").open("rb") as journal:
            head = journal.read(20)
    except FileNotFoundError:
        return False
    except OSError as error:
        raise CannotWrite from error
    if head.startswith(_JOURNAL) and not any(head[16:]):
        return True
    try:
        return _header(path)[0] == APPLICATION_ID
    except NotABook:
        return False


def _roll_back(path: Path) -> None:
    """Have SQLite undo what was half written, if nobody is still writing it."""
    try:
        with closing(connect(path)) as connection:
            connection.execute("SELECT 1 FROM sqlite_master")
    except OF_SQLITE as error:
        raise in_words(error) from error


def _header(path: Path) -> tuple[int, int]:
    """Read the mark and the schema's number from the file alone; no file appears beside it.

    Through SQLite, never by opening the file ourselves: closing it again would drop every lock
    that this process holds on it, and another program could then take its -wal file away
    (https://www.sqlite.org/howtocorrupt.html, section 2.2).

    While somebody reads, saves are folded in up to where that reader stands: the file alone may
    then be a page shorter than it says, and is whole with the -wal file alone. It is read with it.
    """
    at = path.absolute().as_uri()
    try:
        try:
            return _stated(f"{at}?immutable=1")
        except sqlite3.DatabaseError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_CORRUPT:
                raise
            return _stated(f"{at}?mode=ro")
    except OF_SQLITE as error:
        no_book = getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_NOTADB
        told = NotABook(path, has_backups=has_backups(path)) if no_book else in_words(error)
        raise told from error


def _stated(at: str) -> tuple[int, int]:
    """The mark and the schema's number of a file, as SQLite is to open it."""
    with closing(sqlite3.connect(at, uri=True, timeout=BUSY_SECONDS)) as connection:
        (mark,) = connection.execute("PRAGMA application_id").fetchone()
        (stated,) = connection.execute("PRAGMA user_version").fetchone()
    return mark, stated


def _state(path: Path, connection: sqlite3.Connection) -> State:
    """Tell how a book stands, read through SQLite: the newest may still stand in the -wal file."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    if version > SCHEMA:
        raise NewerBook(path)
    return State.CURRENT if version == SCHEMA else State.OLDER
