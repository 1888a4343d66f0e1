"""Frozen values as JSON text and back, exactly: what was issued or reckoned stays as it was.

Decimals and fractions are kept as text, dates as ISO text, tuples as arrays, a nested value as an
object with one key a field. Nothing is rounded and nothing is left out.
"""

import json
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from functools import cache
from types import UnionType
from typing import Any, TypeVar, get_args, get_origin, get_type_hints

V = TypeVar("V")


def to_json(value: object) -> str:
    """Write a frozen dataclass as JSON text."""
    return json.dumps(_plain(value), ensure_ascii=False, separators=(",", ":"))


def from_json(kind: type[V], text: str) -> V:
    """Read a value that :func:`to_json` wrote, of the class it was written from.

    A field with a default may be missing from a text that is older than the field. Raises
    ``KeyError`` or ``ValueError`` if the text was not written by it.
    """
    read: V = _value(kind, json.loads(text))
    return read


def _plain(value: object) -> object:
    """Turn a value into what JSON knows."""
    if is_dataclass(value):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    return str(value) if isinstance(value, Decimal | Fraction) else value


def _value(kind: Any, plain: Any) -> Any:
    """Turn what JSON knows into a value of the annotated kind."""
    if get_origin(kind) is UnionType:
        inner, _none = get_args(kind)  # "X | None" is the only union the records use
        return None if plain is None else _value(inner, plain)
    if get_origin(kind) is tuple:
        return tuple(_value(get_args(kind)[0], each) for each in plain)
    if isinstance(kind, type) and is_dataclass(kind):
        known = _kinds(kind).items()
        given = [(n, k) for n, k in known if n in plain or n not in _later(kind)]
        return kind(**{name: _value(k, plain[name]) for name, k in given})
    return date.fromisoformat(plain) if kind is date else kind(plain)


@cache
def _kinds(kind: Any) -> Mapping[str, Any]:
    """Field names of a dataclass and the kind each is annotated with."""
    return get_type_hints(kind)


@cache
def _later(kind: Any) -> frozenset[str]:
    """Names of the fields that a text may lack: they have a default, so came later than it."""
    return frozenset(f.name for f in fields(kind) if f.default is not MISSING)
