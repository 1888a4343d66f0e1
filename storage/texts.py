"""The one place where text enters the book: nothing in it obeys a terminal, and none is endless."""

import re
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, Final

from domain.errors import Refused

LINE: Final = 200
"""Characters of a text that stands on one line: a name, a place, a number."""

NOTE: Final = 5_000
"""Characters of what is told in sentences, or in lines."""

_NOTES: Final = frozenset(
    {
        "access",
        "address",
        "ended_why",
        "found",
        "guarantee_words",
        "ruled_out",
        "said",
        "words",
    }
)
"""The fields that hold one; all others hold a line."""

_OUR_OWN: Final = frozenset({"basis", "plans", "sent_as", "snapshot"})
"""Fields that hold what the program wrote itself, as JSON."""

_SPACES = r"\r\n?|[\t\v\f\x85\u2028\u2029]"
_CONTROL = r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]"
"""What a terminal obeys, and what turns the direction in which the rest is written."""


class TooLong(Refused):
    """A text of more characters than its field has room for.

    ``field`` is that of the value it was to be kept in: a form has it by its ``text``.
    """

    def __init__(self, field: str, text: str, most: int) -> None:
        self.text = text
        self._room = f"{len(text):,} characters, at most {most:,}."
        super().__init__(field, text, self._room)

    def sentence(self, label: str) -> str:
        """The sentence that a person reads, the field called by its label."""
        return f"{label}: {self._room}"


def without_control(text: str) -> str:
    """The text without control characters; breaks of lines stay, tabs become spaces."""
    if text.isprintable():  # so is most of it, and told at once
        return text
    return re.sub(_CONTROL, "", re.sub(_SPACES, _as_plain, text))


def is_of(typed: str, text: str) -> bool:
    """Whether a text to be kept is what was typed, be it that commas became lines."""
    return _letters(typed) == _letters(text)


def to_keep(field: str, value: Any) -> Any:
    """Return what is kept of a value: its texts, and those of the values within it, as above.

    Raises :class:`TooLong` for a text of a person's that has no room in its field.
    """
    if type(value) is str and field not in _OUR_OWN:
        text = without_control(value)
        most = NOTE if field in _NOTES else LINE
        if len(text) > most:
            raise TooLong(field, text, most)
        return text
    if type(value) is tuple:
        kept = tuple(to_keep(field, each) for each in value)
        return kept if any(now is not was for now, was in zip(kept, value, strict=True)) else value
    kind: Any = type(value)
    names = _within(kind)
    if names:
        inner = ((name, getattr(value, name)) for name in names)
        changed = {name: now for name, was in inner if (now := to_keep(name, was)) is not was}
        return replace(value, **changed) if changed else value
    return value


@cache
def _within(kind: Any) -> tuple[str, ...]:
    """The fields of a value of this kind; none if it holds no others."""
    return tuple(each.name for each in fields(kind) if each.init) if is_dataclass(kind) else ()


def _letters(text: str) -> str:
    return re.sub(r"[\s,]+", "", without_control(text))


def _as_plain(found: re.Match[str]) -> str:
    return " " if found[0] in "\t\v\f" else "\n"
