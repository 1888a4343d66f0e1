"""Frozen values as JSON text and back, exactly: what was issued or reckoned stays as it was.

Decimals and fractions are kept as text, dates as ISO text, tuples as arrays, a nested value as an
object with one key a field. Nothing is rounded and nothing is left out. A field that was renamed
keeps the key it had, so that older books open: its ``metadata`` is what :func:`kept_as` gives.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import Field, fields, is_dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from cattrs import Converter

V = TypeVar("V")
_KEPT_AS = "kept_as"


def kept_as(name: str) -> Mapping[str, str]:
    """Return the metadata of a field that is kept in the book under another name than its own."""
    return {_KEPT_AS: name}


def kept_name(field: Field[Any]) -> str:
    """Return the name under which a field is kept: a key of JSON text, a column of a table."""
    return str(field.metadata.get(_KEPT_AS, field.name))


def to_json(value: object) -> str:
    """Write a frozen dataclass as JSON text."""
    plain = _converter().unstructure(value)
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))


def from_json(kind: type[V], text: str) -> V:
    """Read a value that :func:`to_json` wrote, of the class it was written from.

    A field with a default may be missing from a text that is older than the field. Raises
    ``KeyError`` or ``ValueError`` if the text was not written by it.
    """
    return _converter().structure(json.loads(text), kind)


@cache
def _converter() -> "Converter":
    """What turns values into what JSON knows, and back: loaded when the first is asked for."""
    from cattrs import Converter  # a tenth of the time to the first paint, which needs none of it

    converter = Converter(detailed_validation=False)
    for kind in (Decimal, Fraction):
        converter.register_unstructure_hook(kind, str)
        converter.register_structure_hook(kind, _made_from_text)
    converter.register_unstructure_hook(date, date.isoformat)
    converter.register_structure_hook(date, lambda text, _: date.fromisoformat(text))
    converter.register_structure_hook_func(_is_a_key, _made_from_text)
    converter.register_unstructure_hook_factory(is_dataclass, _writer)
    converter.register_structure_hook_factory(is_dataclass, _reader)
    return converter


def _writer(kind: type, converter: "Converter") -> Callable[[Any], Any]:
    from cattrs.gen import make_dict_unstructure_fn

    return make_dict_unstructure_fn(kind, converter, **_kept_names(kind))


def _reader(kind: type, converter: "Converter") -> Callable[[Any, Any], Any]:
    from cattrs.gen import make_dict_structure_fn

    names = _kept_names(kind)
    return make_dict_structure_fn(kind, converter, _cattrs_detailed_validation=False, **names)


def _kept_names(kind: type) -> dict[str, Any]:
    """What tells the converter of each field that is kept under another name than its own."""
    from cattrs.gen import override

    renamed = (field for field in fields(kind) if kept_name(field) != field.name)
    return {field.name: override(rename=kept_name(field)) for field in renamed}


def _is_a_key(kind: Any) -> bool:
    """Tell whether a type is text with rules of its own, such as the key of a material."""
    return isinstance(kind, type) and issubclass(kind, str) and kind is not str


def _made_from_text(text: str, kind: Any) -> Any:
    """A value whose class reads it from its own text."""
    return kind(text)
