"""Whether the file of the book is still the one that was opened.

A file can be deleted, moved, replaced or written over while it is open. SQLite goes on with what it
holds open and says nothing, and what is saved then is in no book that anybody finds again.
"""

import os
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing, suppress
from enum import Enum, auto
from pathlib import Path
from typing import Final, TypeAlias

from storage.bookfile import APPLICATION_ID
from storage.errors import OF_SQLITE

_TRIES, _PAUSE_S = 3, 0.05
"""Another window may be folding its saves in while we look: it is looked at again."""

_File: TypeAlias = tuple[int, int] | None
"""Device and number of a file; None if there is none."""

_NOTHING: Final = (None, None)

_ALONE: Final = "immutable=1"
_OF_NUMBER: Final = "SELECT id, at, words FROM action WHERE id = ?"
_NEWEST: Final = "SELECT id, at, words FROM action ORDER BY id DESC LIMIT ?"


class Found(Enum):
    """What is at the path of the book."""

    SAME = auto()
    ANOTHER = auto()
    """None, or another file: the one that was opened went elsewhere."""
    OVERWRITTEN = auto()
    """The file that was opened, with other things in it."""


class SameFile:
    """Keeps what the file was when it was opened, and compares.

    The file itself is read only when it was written since by whomever: a save goes to the -wal file
    beside it first.
    """

    def __init__(self, path: Path, saves_of_others: Callable[[], int]) -> None:
        """``path`` is a book that is open and was read, so that all its files are there.

        ``saves_of_others`` gives another number once another program has saved into it.
        """
        self._path = path
        self._saves_of_others = saves_of_others
        self._first_saved: tuple[object, ...] | None = None
        self._log = Path(f"{path}-wal")
        self._files = self._identities()
        self.note()

    def note(self) -> None:
        """Take the file as it is now for ours: when it was opened, or folded in by ourselves."""
        self._others = self._saves_of_others()
        self._written = self._last_written()
        self._last = self._last_action()

    def saved(self, action: tuple[int, str, str]) -> None:
        """An action was saved: its number, when, its words. A new book is known by its first."""
        self._first_saved = self._first_saved or action

    def look(self) -> Found:
        """Tell what is there now."""
        book, log = self._identities()
        if self._files[1] is None:  # another program has only now begun to keep it
            self._files = self._files[0], log
        if (book, log) != self._files:
            return Found.ANOTHER
        if self._last_written() == self._written:
            return Found.SAME
        for again in range(_TRIES):
            time.sleep(_PAUSE_S * bool(again))
            if self._holds_what_was_there():
                self.note()
                return Found.SAME
            if self._is_half_folded():
                return Found.SAME
        return Found.OVERWRITTEN

    def let_go(self) -> None:
        """Before SQLite closes it: it would write the saves beside it into any book in its place.

        Those saves belong to a book that is no more. Where the file is no book at all they stay.
        """
        if self.look() is Found.OVERWRITTEN and self._read(_NEWEST, 1)[0] == APPLICATION_ID:
            with suppress(OSError):
                os.truncate(self._log, 0)

    def _identities(self) -> tuple[_File, _File]:
        return _identity(self._path), _identity(self._log)

    def _last_written(self) -> tuple[int, int] | None:
        try:
            found = self._path.stat()
        except OSError:
            return None
        return found.st_mtime_ns, found.st_size

    def _holds_what_was_there(self) -> bool:
        if self._last == _NOTHING:
            return self._goes_on_from_nothing()
        mark, found = self._read(_OF_NUMBER, self._last[0])
        return mark == APPLICATION_ID and found == self._last

    def _is_half_folded(self) -> bool:
        """Whether another window's fold stopped at somebody who reads.

        The first page may then tell of pages that are still beside the file: alone it is too short,
        but never shorter than it was, and with what lies beside it all is there.
        """
        now = self._last_written()
        if now is None or self._written is None or now[1] < self._written[1]:
            return False
        if self._last == _NOTHING or not self._is_out_of_step():
            return False
        return self._read(_OF_NUMBER, self._last[0], "mode=ro") == (APPLICATION_ID, self._last)

    def _is_out_of_step(self) -> bool:
        """Whether the file alone is a database, but not whole."""
        try:
            self._ask(_OF_NUMBER, self._last[0], _ALONE)
        except OF_SQLITE as error:
            return getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_CORRUPT
        return False

    def _goes_on_from_nothing(self) -> bool:
        """Whether a file in which nothing was saved yet still has nothing, or what we know of."""
        mark, found = self._read(_NEWEST, 1)
        if mark != APPLICATION_ID or found is None:
            return mark == APPLICATION_ID
        if self._first_saved is None:
            return self._saves_of_others() != self._others
        _, found = self._read(_OF_NUMBER, self._first_saved[0])
        return found in (None, self._first_saved)

    def _last_action(self) -> tuple[object, ...]:
        _, found = self._read(_NEWEST, 1)
        return found or _NOTHING

    def _read(
        self, wanted: str, given: object, how: str = _ALONE
    ) -> tuple[object, tuple[object, ...] | None]:
        """Read the mark and one action, from the file alone whatever stands beside it."""
        try:
            return self._ask(wanted, given, how)
        except OF_SQLITE:
            return _NOTHING

    def _ask(
        self, wanted: str, given: object, how: str
    ) -> tuple[object, tuple[object, ...] | None]:
        at = f"{self._path.absolute().as_uri()}?{how}"
        with closing(sqlite3.connect(at, uri=True)) as connection:
            (mark,) = connection.execute("PRAGMA application_id").fetchone()
            return mark, connection.execute(wanted, (given,)).fetchone()


def _identity(path: Path) -> _File:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
