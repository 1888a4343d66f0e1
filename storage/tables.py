"""The tables, read and written through SQLite's own driver, within a transaction.

The classes of :mod:`storage.rows` say what a table is; one row of a job after the other through the
mapper took most of a save. What SQLite refuses comes as its own fault, as it does of a session.
"""

import json
import sqlite3
from collections.abc import Callable, Hashable, Iterable
from functools import cache
from typing import Any, TypeVar

from sqlmodel import Session

from storage.mapping.codec import Cell, Record
from storage.remembered_rows import RememberedRows
from storage.rows import TableRow

T = TypeVar("T")


class Tables:
    """The tables as the transaction sees them."""

    def __init__(
        self, through: Session | sqlite3.Connection, remembered: RememberedRows | None = None
    ) -> None:
        """``through`` a session that has nothing to write of its own, or the driver itself.

        What is ``remembered`` is not asked again, nor what was read before in this transaction.
        """
        driver: Any = through
        if isinstance(through, Session):
            driver = through.connection().connection.dbapi_connection
        self._driver: sqlite3.Connection = driver
        self._remembered = RememberedRows(driver) if remembered is None else remembered

    def read(self, kind: type[TableRow], **cells: Cell) -> list[Record]:
        """Return the rows that hold the given cells, in the order of their keys."""
        return self._records(kind, _all_of(tuple(cells)), cells)

    def read_one(self, kind: type[TableRow], key: Cell) -> Record | None:
        """Return the row of a key, or None."""
        return next(iter(self._records(kind, f'"{key_of(kind)}" = :key', {"key": key})), None)

    def read_children(
        self, kind: type[TableRow], parent: str, keys: Iterable[Cell]
    ) -> list[Record]:
        """Return the rows whose column ``parent`` holds one of the keys, in that same order."""
        among = json.dumps(list(keys))
        where = f'"{parent}" IN (SELECT value FROM json_each(:among))'  # noqa: S608 -- ours
        return [] if among == "[]" else self._records(kind, where, {"among": among})

    def of_job(
        self, kinds: Iterable[type[TableRow]], job_id: Cell
    ) -> dict[type[TableRow], list[Record]]:
        """Return the rows of a job in each of the tables; most hold none of most jobs.

        Which do is told in one question of all that are not remembered.
        """
        questions = {kind: _question(kind, _all_of(("job_id",)))[1] for kind in kinds}
        unknown = tuple(
            kind
            for kind, question in questions.items()
            if not self._remembered.knows(kind, question, (job_id,))
        )
        if unknown:
            (found,) = self._driver.execute(_any_of(unknown), (job_id,))
            for kind, is_there in zip(unknown, found, strict=True):
                if not is_there:
                    self._remembered.read(kind, questions[kind], (job_id,), list)
        return {kind: self.read(kind, job_id=job_id) for kind in questions}

    def read_between(
        self, kind: type[TableRow], column: str, first: Cell, last: Cell
    ) -> list[Record]:
        """Return the rows whose column lies between two cells, both included."""
        where = f'"{column}" BETWEEN :first AND :last'
        return self._records(kind, where, {"first": first, "last": last})

    def found(self, sql: str, *given: Cell) -> list[Any]:
        """Return all that a question of our own finds."""
        return self._driver.execute(sql, given).fetchall()

    def first(self, sql: str, *given: Cell) -> Any:
        """Return the first cell that a question of our own finds, or None."""
        found = self._driver.execute(sql, given).fetchone()
        return None if found is None else found[0]

    def once(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return what is made of the rows; anew if any was written."""
        return self._remembered.once(key, make)

    def add(self, kind: type[TableRow], record: Record) -> int:
        """Write a new row, and return the number by which SQLite knows it."""
        self._remembered.forget(kind)
        return self._driver.execute(_insertion(kind), record).lastrowid or 0

    def change(self, kind: type[TableRow], key: Cell, record: Record) -> None:
        """Write some cells of the row of a key: what hangs on the others is left alone."""
        self._remembered.forget(kind)
        cells = ", ".join(f'"{name}" = ?' for name in record)
        self._driver.execute(
            f'UPDATE "{kind.__tablename__}" SET {cells} WHERE "{key_of(kind)}" = ?',  # noqa: S608 -- ours
            (*record.values(), key),
        )

    def remove(self, kind: type[TableRow], key: Cell) -> None:
        """Take the row of a key away."""
        self._remembered.forget(kind)
        self._driver.execute(
            f'DELETE FROM "{kind.__tablename__}" WHERE "{key_of(kind)}" = ?',  # noqa: S608 -- ours
            (key,),
        )

    def _records(self, kind: type[TableRow], where: str, given: Record) -> list[Record]:
        names, question = _question(kind, where)

        def ask() -> list[Record]:
            found = self._driver.execute(question, given)
            return [dict(zip(names, cells, strict=True)) for cells in found]

        return self._remembered.read(kind, question, tuple(given.values()), ask)


@cache
def key_of(kind: type[TableRow]) -> str:
    """The column by which a row is found; every table has one."""
    (column,) = _table(kind).primary_key
    return str(column.name)


@cache
def _all_of(names: tuple[str, ...]) -> str:
    """The condition that columns hold the cells given by their names."""
    return " AND ".join(f'"{name}" = :{name}' for name in names) or "TRUE"


@cache
def _question(kind: type[TableRow], where: str) -> tuple[tuple[str, ...], str]:
    """The columns, and what reads the rows of a condition."""
    names = _columns(kind)
    listed = ", ".join(f'"{name}"' for name in names)
    of = f'SELECT {listed} FROM "{kind.__tablename__}"'  # noqa: S608 -- ours
    return names, f"{of} WHERE {where} ORDER BY {key_of(kind)}"


@cache
def _insertion(kind: type[TableRow]) -> str:
    names = _columns(kind)
    listed, given = (
        ", ".join(each) for each in ((f'"{n}"' for n in names), (f":{n}" for n in names))
    )
    return f'INSERT INTO "{kind.__tablename__}" ({listed}) VALUES ({given})'  # noqa: S608 -- ours


@cache
def _any_of(kinds: tuple[type[TableRow], ...]) -> str:
    each = (f'EXISTS (SELECT 1 FROM "{kind.__tablename__}" WHERE job_id = ?1)' for kind in kinds)  # noqa: S608 -- ours
    return f"SELECT {', '.join(each)}"


def _columns(kind: type[TableRow]) -> tuple[str, ...]:
    return tuple(column.name for column in _table(kind).columns)


def _table(kind: type[TableRow]) -> Any:
    return kind.__table__  # type: ignore[attr-defined] # SQLModel keeps the table there
