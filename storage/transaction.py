"""One action of the person while it is being written: every row it touches goes through here.

Each write is made at once and put in the journal, with the row as it was before and after. What
changes or goes is journalled first: the database holds an acceptance against what the journal says.
"""

import json
from collections.abc import Iterable, Sequence
from typing import Any, TypeVar

from sqlmodel import SQLModel

from storage.errors import Changed, Damaged
from storage.mapping.codec import Cell, Record, cells_of
from storage.rows import JournalRow, TableRow
from storage.tables import Tables, key_of

R = TypeVar("R", bound=TableRow)


class Transaction:
    """Reads and writes within the one transaction of an action.

    ``action_id`` becomes the version of every row written that has one: a number that no other
    action ever has, so that a version read once is met again only with the same content.
    """

    def __init__(self, tables: Tables, action_id: int) -> None:
        self._tables = tables
        self.action_id = action_id
        self.has_written = False
        """Whether a row was written that differs from what stood there."""

    @property
    def tables(self) -> Tables:
        """The tables as the transaction sees them, for reading alone."""
        return self._tables

    def get(self, kind: type[R], key: Cell) -> R | None:
        """Return the row of a key, or None."""
        record = self._tables.read_one(kind, key)
        return None if record is None else kind.as_read(record)

    def get_one(self, kind: type[R], key: Cell) -> R:
        """Return the row of a key. Raises :class:`Damaged` if it is not there."""
        row = self.get(kind, key)
        if row is None:
            raise Damaged
        return row

    def rows(self, kind: type[R], **cells: Cell) -> Sequence[R]:
        """Return the rows that hold the given cells, in the order of their keys."""
        return [kind.as_read(record) for record in self._tables.read(kind, **cells)]

    def key_of(self, row: TableRow) -> int:
        """Write a new row and return the number the table gave it."""
        return int(self.add(row).cells()["id"] or 0)

    def add(self, row: R) -> R:
        """Write a new row; its key is then known."""
        self._stamp(row)
        key, record = key_of(type(row)), row.cells()
        given = self._tables.add(type(row), record)
        if record[key] is None:
            record[key] = given
            row.put(**{key: given})
        self._note(row, None, record)
        return row

    def add_for_good(self, row: TableRow) -> None:
        """Write a new row that nothing takes away again: no undo is to reach it."""
        self.has_written = True
        self._tables.add(type(row), row.cells())

    def change(self, row: TableRow, **cells: Cell) -> None:
        """Change cells of a row."""
        before = row.cells()
        if all(before[name] == cell for name, cell in cells.items()):
            return
        row.put(**cells)
        self._stamp(row)
        after = row.cells()
        changed = {name: cell for name, cell in after.items() if cell != before[name]}
        self._note(row, before, after)
        self._tables.change(type(row), before[key_of(type(row))], changed)

    def remove(self, row: TableRow) -> None:
        """Take a row away."""
        record = row.cells()
        self._note(row, record, None)
        self._tables.remove(type(row), record[key_of(type(row))])

    def put(self, row: TableRow, key: int) -> None:
        """Write a row under a key, in place of the row that has it, if there is one."""
        found = self.get(type(row), key)
        if found is None:
            self.add(row)
        else:
            cells = row.cells()
            cells.pop("version", None)
            self.change(found, **cells)

    def replace(self, kind: type[R], new: Iterable[R], **cells: Cell) -> None:
        """Write rows in place of all those that hold the given cells, unless they say the same."""
        there, wanted = self.rows(kind, **cells), list(new)
        if [_told(row) for row in there] == [_told(row) for row in wanted]:
            return
        for row in there:
            self.remove(row)
        for row in wanted:
            self.add(row)

    def keep(self, kind: type[R], value: Any, *, without: str = "", **parent: int) -> int:
        """Write a value that names its own row: a new one without an id, else the one recorded.

        ``parent`` is what the row belongs to; a field ``without`` has rows of its own. Returns its
        key. Raises :class:`Changed` if the row is gone, belongs to another, or was written since
        the value was read.
        """
        cells = cells_of(value, "id", "version", without)
        if value.id is None:
            return self.key_of(kind(**parent, **cells))
        row = self.get(kind, value.id)
        found = {} if row is None else row.cells()
        expected = {**parent, **({"version": value.version} if "version" in found else {})}
        if row is None or any(found[name] != cell for name, cell in expected.items()):
            raise Changed
        self.change(row, **cells)
        return int(found["id"] or 0)

    def touch(self, row: TableRow) -> None:
        """Give a row the version of this action: something that belongs to it was written."""
        self.change(row, version=self.action_id)

    def _stamp(self, row: TableRow) -> None:
        if "version" in vars(row):
            row.put(version=self.action_id)

    def _note(self, row: TableRow, before: Record | None, after: Record | None) -> None:
        was, now = (None if image is None else json.dumps(image) for image in (before, after))
        self.has_written = True
        entry = {"id": None, "action_id": self.action_id, "entity": str(type(row).__tablename__)}
        self._tables.add(JournalRow, {**entry, "before": was, "after": now})


def _told(row: TableRow) -> Record:
    """What a row says, whatever its number."""
    return {name: cell for name, cell in row.cells().items() if name != key_of(type(row))}


def table_of(entity: str) -> Any:
    """Return the table of a name that the journal gives."""
    return SQLModel.metadata.tables[entity]
