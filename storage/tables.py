"""The tables, read and written through SQLite's own driver, within the transaction of a session.

The classes of :mod:`storage.rows` say what a table is; one row of a job after the other through the
mapper took most of a save. What SQLite refuses comes as its own fault, as it does of a session.
"""

import json
import sqlite3
from collections.abc import Iterable
from functools import cache
from typing import Any

from sqlmodel import Session

from storage.mapping.codec import Cell, Record
from storage.rows import TableRow


class Tables:
    """The tables as the transaction sees them."""

    def __init__(self, session: Session) -> None:
        """``session`` has nothing to write of its own that is to be read here."""
        driver: Any = session.connection().connection.dbapi_connection
        self._driver: sqlite3.Connection = driver

    def read(self, kind: type[TableRow], **cells: Cell) -> list[Record]:
        """Return the rows that hold the given cells, in the order of their keys."""
        where = " AND ".join(f'"{name}" = :{name}' for name in cells) or "TRUE"
        return self._records(kind, where, cells)

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

    def add(self, kind: type[TableRow], record: Record) -> int:
        """Write a new row, and return the number by which SQLite knows it."""
        return self._driver.execute(_insertion(kind), record).lastrowid or 0

    def change(self, kind: type[TableRow], key: Cell, record: Record) -> None:
        """Write some cells of the row of a key: what hangs on the others is left alone."""
        cells = ", ".join(f'"{name}" = ?' for name in record)
        self._driver.execute(
            f'UPDATE "{kind.__tablename__}" SET {cells} WHERE "{key_of(kind)}" = ?',  # noqa: S608 -- ours
            (*record.values(), key),
        )

    def remove(self, kind: type[TableRow], key: Cell) -> None:
        """Take the row of a key away."""
        self._driver.execute(
            f'DELETE FROM "{kind.__tablename__}" WHERE "{key_of(kind)}" = ?',  # noqa: S608 -- ours
            (key,),
        )

    def _records(self, kind: type[TableRow], where: str, given: Record) -> list[Record]:
        names, question = _question(kind)
        found = self._driver.execute(f"{question} WHERE {where} ORDER BY {key_of(kind)}", given)
        return [dict(zip(names, cells, strict=True)) for cells in found]


@cache
def key_of(kind: type[TableRow]) -> str:
    """The column by which a row is found; every table has one."""
    (column,) = _table(kind).primary_key
    return str(column.name)


@cache
def _question(kind: type[TableRow]) -> tuple[tuple[str, ...], str]:
    """The columns, and the beginning of what reads them."""
    names = _columns(kind)
    listed = ", ".join(f'"{name}"' for name in names)
    return names, f'SELECT {listed} FROM "{kind.__tablename__}"'  # noqa: S608 -- ours


@cache
def _insertion(kind: type[TableRow]) -> str:
    names = _columns(kind)
    listed, given = (
        ", ".join(each) for each in ((f'"{n}"' for n in names), (f":{n}" for n in names))
    )
    return f'INSERT INTO "{kind.__tablename__}" ({listed}) VALUES ({given})'  # noqa: S608 -- ours


def _columns(kind: type[TableRow]) -> tuple[str, ...]:
    return tuple(column.name for column in _table(kind).columns)


def _table(kind: type[TableRow]) -> Any:
    return kind.__table__  # type: ignore[attr-defined] # SQLModel keeps the table there
