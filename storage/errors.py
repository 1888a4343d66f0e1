"""What can go wrong with the book, each told in one sentence or two.

:func:`in_words` is the one place where a fault of the database becomes such a sentence.
"""

import sqlite3
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final, TypeAlias

from domain.errors import HeadlapError, NotNow, Refused


class Changed(HeadlapError):
    """What is to be saved was changed by another program since it was read."""

    def __init__(self) -> None:
        super().__init__(
            "This was changed in another window since you opened it. Nothing was saved: "
            "open it again and redo your change."
        )


class FinalMoney(NotNow):
    """What is to be undone is money on record, or a paper of it that others hold."""

    def __init__(self, what: str) -> None:
        super().__init__(f"Cannot undo: {what} is final. It is put right on the money page.")


class Locked(HeadlapError):
    """Another program holds the book for writing."""

    def __init__(self) -> None:
        super().__init__("Another program is using the book. Nothing was saved: try again.")


class DiskFull(HeadlapError):
    """There is no room for what is to be saved."""

    def __init__(self) -> None:
        super().__init__("The disk is full. Nothing was saved: make room, then try again.")


class CannotWrite(HeadlapError):
    """The file or its folder cannot be opened or written."""

    def __init__(self) -> None:
        super().__init__(
            "The book cannot be opened for writing. Nothing was saved: check that its "
            "folder exists and that you may write in it."
        )


class DiskFails(HeadlapError):
    """The disk did not write or read what it was told to."""

    def __init__(self) -> None:
        super().__init__(
            "The disk did not do as it was told. Nothing was saved: check that it is plugged in "
            "and has room, then try again."
        )


class Damaged(HeadlapError):
    """The file no longer reads as it was written."""

    def __init__(self) -> None:
        super().__init__(
            "The book is damaged. Nothing was saved: restore a backup, from the list of backups or "
            "with headlap restore."
        )


class DamagedNotBackedUp(Damaged):
    """The book no longer reads as it was written, and is not to stand among good backups."""

    def __init__(self) -> None:
        HeadlapError.__init__(
            self,
            "The book is damaged, so no backup of it was made: restore one of those there are, "
            "from the list of backups or with headlap restore.",
        )


class DamagedBackup(HeadlapError):
    """A backup that does not read as it was written."""

    def __init__(self, backup: Path) -> None:
        super().__init__(f"{backup.name} is damaged. The book was left as it is: choose another.")


class BookInUse(HeadlapError):
    """Another program has the book open, so it cannot be replaced."""

    def __init__(self) -> None:
        super().__init__(
            "Another program has the book open. Nothing was restored: close it, then try again."
        )


class NotRestored(HeadlapError):
    """The disk refuses what restoring a backup writes or reads."""

    def __init__(self, reason: str | None) -> None:
        super().__init__(
            f"Nothing was restored: {reason or 'the disk refuses'}. The book is as it was."
        )


class NotBackedUp(HeadlapError):
    """A folder of backups cannot be written."""

    def __init__(self, folder: Path, reason: str | None) -> None:
        self.reason = reason
        super().__init__(
            f"No backup was made, as {folder} cannot be written: {reason or 'the disk refuses'}."
        )


class Gone(HeadlapError):
    """The file that was opened is no longer where it was."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path.name} was moved, deleted or replaced while it was open. Nothing was saved: "
            f"put it back into {path.parent} and save again, or leave and restore a backup with "
            "headlap restore."
        )


class NotKept(HeadlapError):
    """A value that the book does not hold."""

    def __init__(self, detail: str) -> None:
        super().__init__(f"That could not be saved: {detail}.")


class NoBook(HeadlapError):
    """There is no book, though there was one: its backups are there."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"There is no book at {path}, but there are backups of one beside it: "
            "put the book back, or restore a backup with headlap restore."
        )


class NotABook(HeadlapError):
    """A file that is no book of this program."""

    def __init__(self, path: Path, *, has_backups: bool) -> None:
        """``has_backups``: there are backups beside it of a book of its name."""
        restore = ", or restore one of its backups with headlap restore" if has_backups else ""
        super().__init__(
            f"{path.name} is not a Headlap book. It was left as it is: name another file{restore}."
        )


class NewerBook(HeadlapError):
    """A book written by a later version of the program."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path.name} was written by a newer Headlap. It was left as it is: "
            "open it with the newer program."
        )


class NotCurrent(HeadlapError):
    """There is no book yet, or one that has to be brought up to date by opening it."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path.name} has to be opened before it can be read: start headlap once.")


_Kind: TypeAlias = type[Locked | DiskFull | CannotWrite | DiskFails | Damaged]

_KINDS: Mapping[int, _Kind] = MappingProxyType(
    {
        sqlite3.SQLITE_BUSY: Locked,
        sqlite3.SQLITE_PROTOCOL: Locked,
        sqlite3.SQLITE_LOCKED: Locked,
        sqlite3.SQLITE_FULL: DiskFull,
        sqlite3.SQLITE_IOERR_SHMSIZE: DiskFull,  # no room for the few kilobytes beside the book
        sqlite3.SQLITE_READONLY: CannotWrite,
        sqlite3.SQLITE_CANTOPEN: CannotWrite,
        sqlite3.SQLITE_PERM: CannotWrite,
        sqlite3.SQLITE_AUTH: CannotWrite,
        sqlite3.SQLITE_IOERR_ACCESS: CannotWrite,
        sqlite3.SQLITE_IOERR_DELETE: CannotWrite,
        sqlite3.SQLITE_IOERR: DiskFails,
        sqlite3.SQLITE_IOERR_CORRUPTFS: Damaged,
        sqlite3.SQLITE_IOERR_SHORT_READ: Damaged,
        sqlite3.SQLITE_CORRUPT: Damaged,
        sqlite3.SQLITE_NOTADB: Damaged,
        sqlite3.SQLITE_FORMAT: Damaged,
    }
)
"""By SQLite's code of the fault; the exact one goes before its family, the lowest byte of it."""


_OF_DAMAGE = ("no such ", "malformed ", "Could not decode to UTF-8")
"""How faults begin that have no code of their own: a sound book has every table and text."""

OF_SQLITE: Final = (sqlite3.Error, UnicodeDecodeError)
"""What the driver raises; the second when what it has to say of damage is itself no text."""


def in_words(error: BaseException) -> HeadlapError:
    """Turn a fault of the database into the sentence to say about it.

    A trigger's own sentence is passed on as :class:`NotNow`.
    """
    if isinstance(error, UnicodeDecodeError) or str(error).startswith(_OF_DAMAGE):
        return Damaged()
    code = getattr(error, "sqlite_errorcode", None)
    if code == sqlite3.SQLITE_CONSTRAINT_TRIGGER:
        return NotNow(str(error))
    kind = None if code is None else _KINDS.get(code) or _KINDS.get(code & 0xFF)
    return kind() if kind is not None else NotKept(str(error).rstrip("."))


def no_such_job(job_id: int | None = None) -> Refused:
    """What to raise for a job that was deleted since its number was read."""
    return Refused("job", job_id, "It is no longer in the book: choose another from the jobs.")
