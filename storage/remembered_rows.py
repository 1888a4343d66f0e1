"""Rows as they were read last, while nobody has written since.

A save reads the job back, and the next one begins by reading it again, with all that its checks
look at: most of it stands as it stood. Only tables that were written in between are read anew.
"""

import sqlite3
from collections.abc import Callable, Hashable
from typing import Any, Final, TypeVar, cast

from storage.mapping.codec import Cell, Record
from storage.rows import ActionRow, JournalRow, TableRow

T = TypeVar("T")

_MOST: Final = 256
"""Questions of a table whose answers are remembered."""
_JOURNAL: Final = (ActionRow, JournalRow)
"""Every save writes there; nothing is made of them."""


class RememberedRows:
    """What was read through one connection, within its transactions.

    All is forgotten if anything wrote that did not say so here: another program, by SQLite's own
    count of their saves, or this one, by its count of rows changed on this connection.
    """

    def __init__(self, driver: sqlite3.Connection) -> None:
        self._driver = driver
        self._left: tuple[int, int] | None = None
        self._answers: dict[type[TableRow], dict[tuple[str, tuple[Cell, ...]], list[Record]]] = {}
        self._made: dict[Hashable, Any] = {}

    def begin(self) -> None:
        """Begin a transaction that others cannot write in: what they wrote before it is known."""
        if self._stands() != self._left:
            self.forget_all()

    def end(self) -> None:
        """All is written: once it is committed, what was read in it stands.

        Before the commit, since others can write as soon as it is over.
        """
        self._left = self._stands()

    def read(
        self,
        kind: type[TableRow],
        question: str,
        given: tuple[Cell, ...],
        ask: Callable[[], list[Record]],
    ) -> list[Record]:
        """Return what a question of one table finds; it is asked if that is not known."""
        answers = self._answers.setdefault(kind, {})
        key = question, given
        if key not in answers:
            if len(answers) >= _MOST:
                answers.clear()
            answers[key] = ask()
        return answers[key]

    def knows(self, kind: type[TableRow], question: str, given: tuple[Cell, ...]) -> bool:
        """Whether :meth:`read` would not have to ask."""
        return (question, given) in self._answers.get(kind, ())

    def once(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return what is made of any of the tables; it is made if one was written since."""
        if key not in self._made:
            if len(self._made) >= _MOST:
                self._made.clear()
            self._made[key] = make()
        return cast(T, self._made[key])

    def forget(self, kind: type[TableRow]) -> None:
        """A row of a table was written. No trigger writes one that is read here."""
        self._answers.pop(kind, None)
        if kind not in _JOURNAL:
            self._made.clear()

    def forget_all(self) -> None:
        """Forget everything, as when a transaction was rolled back."""
        self._left = None
        self._answers.clear()
        self._made.clear()

    def _stands(self) -> tuple[int, int]:
        (saves_of_others,) = self._driver.execute("PRAGMA data_version").fetchone()
        return saves_of_others, self._driver.total_changes
