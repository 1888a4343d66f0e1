"""One value of the domain as the cells of one row, and back, exactly.

The columns of a table carry the names of the value's fields, or those the fields had before. Days,
times and decimals are text, yes and no 1 and 0, a set a JSON array; a value within a value is JSON
text in one cell, where a length keeps both what was typed and its exact millimetres ("7315/3"). So
a cell is always what SQLite itself holds: text, a whole number or nothing.

Written by hand, where :mod:`domain.snapshot` has cattrs do it: the first screen reads the trader,
whose rates and limits are nested, so cattrs would be loaded before the week stands. Loading it and
making its functions took about 100 ms of 300 to 500; the first trader read here takes under 1 ms.
"""

import json
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields, is_dataclass
from datetime import date, time
from decimal import Decimal
from enum import Enum
from functools import cache, lru_cache
from types import UnionType
from typing import Any, Final, TypeAlias, TypeVar, cast, get_args, get_origin

from domain.snapshot import kept_name, to_json
from storage.errors import Damaged
from storage.texts import to_keep

Cell: TypeAlias = str | int | None
Record: TypeAlias = Mapping[str, Cell]
"""A row: the cell of each column."""

_NEVER_WRITTEN = (ArithmeticError, AttributeError, KeyError, TypeError, ValueError)
"""What reading a cell raises that no value was written as."""

_KNOWN: Final = 1_000
"""Values that are remembered by what they were read from: those of the jobs looked at last."""

V = TypeVar("V")
_Reader: TypeAlias = Callable[[Any], Any]


def cells_of(value: Any, *left_out: str) -> dict[str, Any]:
    """Return the cells of a value, by the columns they are kept in.

    There is one a field, but for the fields ``left_out``. Raises
    :class:`storage.texts.TooLong`.
    """
    kind: Any = type(value)
    return {
        column: _cell(to_keep(name, getattr(value, name)))
        for name, column in _names(kind)
        if name not in left_out
    }


def value_of(kind: type[V], record: Record, **given: Any) -> V:
    """Return the value that a row holds; fields ``given`` are taken from elsewhere.

    A field that the row knows nothing of takes its default. Raises :class:`Damaged` for cells
    that no value was ever written as.
    """
    try:  # as :func:`as_written`, which would take as long again as what it guards
        if not given:
            of_a_row: Any = _whole(cast(Hashable, kind), tuple(record), tuple(record.values()))
            return cast(V, of_a_row)
        return _read(kind, record, given)
    except _NEVER_WRITTEN as error:
        raise Damaged from error


@contextmanager
def as_written() -> Iterator[None]:
    """Read cells; raises :class:`Damaged` for what was never written so."""
    try:
        yield
    except _NEVER_WRITTEN as error:
        raise Damaged from error


@lru_cache(maxsize=_KNOWN)
def _whole(kind: Any, names: tuple[str, ...], cells: tuple[Cell, ...]) -> Any:
    """Return the value of a row: a job is read back after every save, and little of it is new."""
    return _read(kind, dict(zip(names, cells, strict=True)), {})


def _read(kind: type[V], record: Record, given: dict[str, Any]) -> V:
    for name, column, read, or_nothing in _columns(cast(Hashable, kind)):
        if name not in given and column in record:
            cell = record[column]
            as_it_is = read is None or (cell is None and or_nothing)
            given[name] = cell if as_it_is else read(cell)
    return kind(**given)


def _cell(value: Any) -> Cell:
    if value is None or type(value) in (str, int):
        return value  # type: ignore[no-any-return]
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Decimal):
        return format(value, "f")  # str() would write some of them with an exponent
    if isinstance(value, frozenset):
        return json.dumps(sorted(value), ensure_ascii=False)
    return to_json(value) if is_dataclass(value) else str(value)


@cache
def _names(kind: Any) -> tuple[tuple[str, str], ...]:
    """Return the fields of a value, each with its column."""
    return tuple((field.name, kept_name(field)) for field in fields(kind))


@cache
def _columns(kind: Any) -> tuple[tuple[str, str, Any, bool], ...]:
    """Return the fields of a value: name, column, what reads its cell, whether it may be empty.

    Most cells are taken as they are: no reader is called for those, since a job has hundreds.
    """
    return tuple((field.name, kept_name(field), *_how_read(field.type)) for field in fields(kind))


def _how_read(hint: Any) -> tuple[_Reader | None, bool]:
    """Return what reads a cell of a type, None to take it as it is, and whether it may be empty."""
    is_union = get_origin(hint) is UnionType
    read = _reader(get_args(hint)[0] if is_union else hint)  # "X | None" is the only union
    return None if read is _same else read, is_union


def _reader(hint: Any) -> _Reader:
    """Return what reads a cell of a type."""
    if get_origin(hint) is frozenset:
        return lambda cell: frozenset(json.loads(cell))
    if get_origin(hint) is tuple:
        each = _reader(get_args(hint)[0])
        return lambda cells: tuple(each(cell) for cell in cells)
    if is_dataclass(hint):
        return lambda cell: _group(cast(type, hint), cell)
    return _READERS.get(hint, hint)  # an enumeration is called with its value


def _group(kind: type[V], cell: str | Record) -> V:
    """Read a value within a value: JSON text in a cell, or what stands for it within such text."""
    if isinstance(cell, str):
        return cast(V, _within(cast(Hashable, kind), cell))
    return _read(kind, cell, {})


@lru_cache(maxsize=_KNOWN)
def _within(kind: Any, text: str) -> Any:
    return _read(kind, json.loads(text), {})


def _same(cell: Any) -> Any:
    return cell


_READERS: Mapping[Any, _Reader] = {
    str: _same,
    int: _same,
    bool: bool,
    date: date.fromisoformat,
    time: time.fromisoformat,
}
