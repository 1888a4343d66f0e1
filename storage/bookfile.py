"""The file of the book: how it is recognised and opened. The standard library alone."""

import os
import sqlite3
from enum import Enum, auto
from pathlib import Path
from typing import Final

from storage.errors import CannotWrite, NewerBook, NotABook, in_words

APPLICATION_ID: Final = 0x48_4C_41_50
"""Marks a database as a book of ours, in the file's header (the letters HLAP)."""

SCHEMA: Final = 3
"""The number of the newest migration: what ``PRAGMA user_version`` says of a current book."""

BUSY_SECONDS: Final = 3.0
"""How long another program's write is waited for."""

_MAGIC = b"SQLite format 3\0"
# https://www.sqlite.org/fileformat.html, section 1.3; big-endian
_USER_VERSION_AT = slice(60, 64)
_APPLICATION_ID_AT = slice(68, 72)


class State(Enum):
    """How a file stands to this version of the program."""

    NEW = auto()
    """Not there, or an empty file: to be made a book."""
    OLDER = auto()
    """To be brought up to date."""
    CURRENT = auto()


def look_at(path: Path) -> State:
    """Tell how a file stands, without touching it.

    Raises :class:`NotABook` for a file that is anything else, :class:`NewerBook` for a book of a
    later version, :class:`CannotWrite` if it cannot be read.
    """
    try:
        if path.exists() and not path.is_file():  # opening a pipe would wait for its other end
            raise NotABook(path)
        with path.open("rb") as file:
            header = file.read(100)
    except FileNotFoundError:
        return State.NEW
    except OSError as error:
        raise CannotWrite from error
    if not header:
        return State.NEW
    # Another program's database is told by its header: opening it could leave files beside it.
    mark = header[_APPLICATION_ID_AT]
    if not header.startswith(_MAGIC) or mark != APPLICATION_ID.to_bytes(4, "big"):
        raise NotABook(path)
    stated = int.from_bytes(header[_USER_VERSION_AT], "big")  # it only ever grows
    version = stated if stated > SCHEMA else _version(path)
    if version > SCHEMA:
        raise NewerBook(path)
    return State.CURRENT if version == SCHEMA else State.OLDER


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
    )
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def make_private(path: Path) -> None:
    """See to it that the file and its folder exist and that the owner alone reads them.

    A folder that was there already is left as it is. The files that SQLite keeps beside the book
    take over its permissions. Raises :class:`CannotWrite`.
    """
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
        path.chmod(0o600)
    except OSError as error:
        raise CannotWrite from error


def _version(path: Path) -> int:
    """Read the schema's number through SQLite: the newest may still stand in the -wal file."""
    try:
        connection = connect(path, read_only=True)
        try:
            found: int = connection.execute("PRAGMA user_version").fetchone()[0]
        finally:
            connection.close()
    except sqlite3.Error as error:
        raise in_words(error) from error
    return found
