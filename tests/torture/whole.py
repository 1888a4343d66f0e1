"""Whether a book is whole, looked at without the actions that wrote it."""

import json
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any, TypeAlias

from storage.checking import check_book
from tests.storage.books import Cells

_Image: TypeAlias = Mapping[str, Any] | None
"""A row by its columns; None where there is none."""
_MOST = 5
"""Differences that are told."""


def wrong_with(path: Path) -> list[str]:
    """What is damaged, belongs to nothing, is missing of the numbers, or is not as it was saved."""
    with closing(sqlite3.connect(path)) as connection:
        journal = list(_against_the_journal(connection))
    return [*check_book(path).faults, *journal[:_MOST]]


def difference(found: Mapping[str, list[Cells]], wanted: Mapping[str, list[Cells]]) -> list[str]:
    """Rows that are missing or too many in what :func:`tests.storage.books.dump` gave."""
    told = []
    for name in sorted({*found, *wanted}):
        here, there = set(found.get(name, ())), set(wanted.get(name, ()))
        told += [f"not in {name}: {row}" for row in sorted(there - here, key=str)]
        told += [f"nobody saved in {name}: {row}" for row in sorted(here - there, key=str)]
    return [each[:200] for each in told[:_MOST]]


def _against_the_journal(connection: sqlite3.Connection) -> Iterator[str]:
    """Compare every row with what the last action that stands wrote of it."""
    rows: dict[str, dict[Any, dict[str, Any]]] = {}
    for (entity, key), image in _as_saved(connection).items():
        if entity not in rows:
            rows[entity] = _rows_of(connection, entity)
        row = rows[entity].pop(key, None)
        if image is None or row is None:
            if row is not image:
                yield f"{entity} {key} is {row}, the journal has {image}"
        elif any(row[name] != cell for name, cell in image.items()):
            yield f"{entity} {key} is {row}, the journal has {image}"
    for entity, left in rows.items():
        for key in left:
            yield f"{entity} {key} is in no action"


def _as_saved(connection: sqlite3.Connection) -> dict[tuple[str, Any], _Image]:
    """Every row as the last action that stands left it, or as it was before the first."""
    wanted = """SELECT entity, before, after, undone_at IS NULL FROM journal
                JOIN action ON action.id = action_id ORDER BY journal.id"""
    images: dict[tuple[str, Any], _Image] = {}
    keys: dict[str, str] = {}
    for entity, before, after, stands in connection.execute(wanted):
        was, now = (None if each is None else json.loads(each) for each in (before, after))
        key = keys.get(entity) or keys.setdefault(entity, _key_of(connection, entity))
        name = (entity, (now or was or {})[key])
        images.setdefault(name, was)
        if stands:
            images[name] = now
    return images


def _rows_of(connection: sqlite3.Connection, entity: str) -> dict[Any, dict[str, Any]]:
    cursor = connection.execute(f'SELECT * FROM "{entity}"')  # noqa: S608 -- the book's own names
    names = [column[0] for column in cursor.description]
    made = (dict(zip(names, row, strict=True)) for row in cursor)
    key = _key_of(connection, entity)
    return {row[key]: row for row in made}


def _key_of(connection: sqlite3.Connection, entity: str) -> str:
    wanted = "SELECT name FROM pragma_table_info(?) WHERE pk = 1"
    (name,) = connection.execute(wanted, (entity,)).fetchone()
    return str(name)
