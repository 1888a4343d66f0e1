"""A backup put in the book's place; what stood there is kept first, sound or damaged."""

from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import Final

from domain.errors import Refused
from storage.backups.copying import back_up_into, copied_whole, copy_plain, half_made, make_folder
from storage.backups.names import as_it_lay, backups_folder
from storage.bookfile import State, connect, look_at
from storage.errors import (
    OF_SQLITE,
    BookInUse,
    Damaged,
    DamagedBackup,
    Locked,
    NotABook,
    NotBackedUp,
    NotRestored,
    in_words,
)
from storage.folders import make_own_folder
from storage.soundness import is_sound

_BESIDE = ("-wal", "-shm", "-journal")
"""The files that SQLite keeps beside a book in use; left by a program that was killed."""

_SHARED: Final = (510, 0x40000002)
"""The bytes that every program locks which has a book open, their number and the first of them:
https://www.sqlite.org/src/file/src/os.h, SHARED_FIRST."""


def restore(book: Path, backup: Path, now: datetime) -> Path | None:
    """Put a backup in the place of the book; returns where the book that was there is kept.

    The backup is looked through first, then the present book is backed up, a damaged one as it
    lies, and only then replaced, at once. Raises :class:`DamagedBackup` and what
    :func:`look_at` raises for a backup that cannot be used, :class:`BookInUse` while
    another program has the book open, :class:`NotRestored` if the disk refuses. Nothing
    has changed then.
    """
    _must_be_sound(backup)
    if book.exists() and book.samefile(backup):
        raise Refused("backup", backup, "That is the book itself: name a backup.")
    try:
        make_own_folder(book.parent)
        with _put_aside(book, now) as kept, half_made(book) as half:
            if not copied_whole(backup, half):
                raise DamagedBackup(backup)
            for beside in _BESIDE:
                Path(f"{book}{beside}").unlink(missing_ok=True)
    except OF_SQLITE as error:
        raise in_words(error) from error
    except NotBackedUp as error:
        raise NotRestored(error.reason) from error
    except OSError as error:
        raise NotRestored(error.strerror) from error
    return kept


def restore_either(book: Path, files: Sequence[Path], now: datetime) -> Path | None:
    """Restore a backup that lies in several places: the first of its files that is sound.

    Returns and raises what :func:`restore` does; what is no book is a damaged backup here.
    """
    *others, last = files
    for path in others:
        with suppress(DamagedBackup, NotABook, Refused):
            return restore(book, path, now)
    try:
        return restore(book, last, now)
    except NotABook as error:
        raise DamagedBackup(last) from error


def _must_be_sound(backup: Path) -> None:
    try:
        if look_at(backup) is State.NEW:
            raise Refused("backup", backup, "There is no backup there: name another.")
    except Damaged as error:
        raise DamagedBackup(backup) from error
    if not is_sound(backup, "integrity_check"):
        raise DamagedBackup(backup)


@contextmanager
def _put_aside(book: Path, now: datetime) -> Iterator[Path | None]:
    """Keep the present book and have it alone; gives where it is kept, None if there is none."""
    if not book.exists() or not book.stat().st_size:
        yield None
        return
    folder = backups_folder(book)
    make_folder(folder)
    if not is_sound(book, "integrity_check"):
        yield _kept_as_it_lies(book, as_it_lay(folder, book, now))
        return
    with closing(connect(book)) as connection:
        try:
            # Every save goes into the one file; SQLite refuses that while anybody else has it open.
            (journal,) = connection.execute("PRAGMA journal_mode = DELETE").fetchone()
            before = connection.execute("PRAGMA data_version").fetchone()
            kept = back_up_into(folder, book, now)
            connection.execute("BEGIN EXCLUSIVE")
            after = connection.execute("PRAGMA data_version").fetchone()
        except OF_SQLITE as error:
            told = in_words(error)
            raise (BookInUse() if isinstance(told, Locked) else told) from error
        if journal != "delete" or before != after:
            raise BookInUse
        yield kept


def _kept_as_it_lies(book: Path, target: Path) -> Path:
    """Copy a damaged book byte for byte, with what lies beside it."""
    if _is_open_elsewhere(book):
        raise BookInUse
    for beside in _BESIDE:
        if Path(f"{book}{beside}").exists():
            copy_plain(Path(f"{book}{beside}"), Path(f"{target}{beside}"))
    copy_plain(book, target)
    return target


def _is_open_elsewhere(book: Path) -> bool:
    """Whether another program has a book open that SQLite itself cannot read any more.

    On Windows a file that is open cannot be replaced: nothing needs asking there.
    """
    try:
        import fcntl
    except ImportError:
        return False
    with book.open("rb+") as file:
        try:
            fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB, *_SHARED)
        except OSError:
            return True
    return False
