"""One copy of a book: written under another name, checked, and only then given its own."""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path

from storage.backups.names import HALF, free_name
from storage.bookfile import connect
from storage.errors import (
    OF_SQLITE,
    Damaged,
    DamagedNotBackedUp,
    NotBackedUp,
    in_words,
)
from storage.folders import make_own_folder


def back_up_into(folder: Path, book: Path, now: datetime) -> Path:
    """Back up a book into a folder, which is there, under the name of the time; returns where.

    Raises :class:`NotBackedUp` if the folder cannot be written, :class:`DamagedNotBackedUp` if the
    book is not sound, else what :func:`in_words` makes of a fault. There is no new backup then.
    """
    try:
        target = free_name(folder, book, now)
        _copy_checked(book, target)
    except OSError as error:
        raise NotBackedUp(folder, error.strerror) from error
    return target


def make_folder(folder: Path) -> None:
    """See to it that a folder of backups is there, for its owner alone.

    Raises :class:`NotBackedUp`.
    """
    try:
        make_own_folder(folder)
        folder.chmod(0o700)
    except OSError as error:
        raise NotBackedUp(folder, error.strerror) from error


def copy_plain(source: Path, target: Path) -> None:
    """Copy a file that nobody writes to, byte for byte. Raises :class:`OSError`."""
    with half_made(target) as half:
        shutil.copyfile(source, half)


@contextmanager
def half_made(target: Path) -> Iterator[Path]:
    """Give a file beside the target to write; it takes the target's name once all went well.

    By then the disk holds it, for its owner alone. Raises :class:`OSError`.
    """
    handle, name = tempfile.mkstemp(prefix=HALF, dir=target.parent)  # for the owner alone
    os.close(handle)
    half = Path(name)
    try:
        yield half
        with half.open("rb+") as file:
            os.fsync(file.fileno())
        half.replace(target)
        put_names_on_disk(target.parent)
    finally:
        for left in ("", "-journal", "-wal", "-shm"):
            Path(f"{half}{left}").unlink(missing_ok=True)


def put_names_on_disk(folder: Path) -> None:
    """Have the disk hold the names in a folder, where it can be told to: not every stick can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def is_whole(path: Path) -> bool:
    """Whether a file that nobody writes to reads as it was written, every index included.

    Raises what the driver raises of a file that is no database.
    """
    with closing(read_alone(path)) as connection:
        found: object = connection.execute("PRAGMA integrity_check(1)").fetchone()
        return found == ("ok",)


def read_alone(path: Path) -> sqlite3.Connection:
    """Open a file that nobody writes to for reading; no file appears beside it."""
    return sqlite3.connect(f"{path.absolute().as_uri()}?immutable=1", uri=True)


def rows_in(connection: sqlite3.Connection) -> dict[str, int]:
    """Count the rows of every table."""
    listed = "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
    names = [name for (name,) in connection.execute(listed)]
    count = 'SELECT count(*) FROM "{}"'
    return {name: connection.execute(count.format(name)).fetchone()[0] for name in names}


def _copy_checked(book: Path, target: Path) -> None:
    """Copy a book as it stands at one moment, whoever has it open, and check the copy.

    The copy is one plain file that needs none beside it. It is opened again, looked through with
    every index, and the rows of each table are counted against the book's.
    """
    with half_made(target) as half:
        try:
            sound = copied_whole(book, half)
        except OF_SQLITE as error:
            told = in_words(error)
            raise (DamagedNotBackedUp() if isinstance(told, Damaged) else told) from error
        if not sound:
            raise DamagedNotBackedUp


def copied_whole(book: Path, half: Path) -> bool:
    """Copy a book as it stands, and tell whether the copy is sound and has each of its rows.

    Raises what the driver raises.
    """
    rows = _copy(book, half)
    return is_whole(half) and _rows_of(half) == rows


def _copy(book: Path, half: Path) -> dict[str, int]:
    """Copy through SQLite, and return the rows of each table of the book."""
    with closing(connect(book, read_only=True)) as source, closing(connect(half)) as copy:
        copy.execute("PRAGMA synchronous = OFF")  # it is put on the disk once, when it is finished
        source.execute("BEGIN")  # counted and copied as it stood at one moment
        rows = rows_in(source)
        source.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
    return rows


def _rows_of(path: Path) -> dict[str, int]:
    with closing(read_alone(path)) as connection:
        return rows_in(connection)
