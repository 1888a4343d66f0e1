"""What an action changed, field by field, as its rows tell it."""

from collections.abc import Iterable, Iterator

from domain.changes import Change
from storage.field_words import HIDDEN, OF_NO_LINE, ROWS, Row, cells_within, label_of, shown
from storage.putting_back import Image, Turn

_ORDER = ("job", "customer", "site", "survey", "option", "quote", "acceptance", "booking")
"""Tables whose changes are told first, in this order."""


def what_changed(turns: Iterable[Turn]) -> tuple[Change, ...]:
    """The changes of the rows turned, from what was found to what they become.

    A row that was written anew in place of one that is called the same is a change of that one.
    """
    told: dict[tuple[str, str], list[str]] = {}
    for turn in sorted(turns, key=_place):
        for at, image in enumerate((turn.found, turn.becomes)):
            for label, value in _told(turn.table.name, image):
                values = told.setdefault((turn.table.name, label), ["", ""])
                values[at] = "; ".join(filter(None, (values[at], value)))
    return tuple(
        Change(label, before, after)
        for (_, label), (before, after) in told.items()
        if before != after
    )


def _place(turn: Turn) -> int:
    name = turn.table.name
    return _ORDER.index(name) if name in _ORDER else len(_ORDER)


def _told(table: str, image: Image) -> Iterator[tuple[str, str]]:
    """What a row says, by the label of each field, or of the row."""
    if image is None or table in OF_NO_LINE:
        return
    try:
        yield from [ROWS[table](image)] if table in ROWS else list(_fields(table, image))
    except (ArithmeticError, KeyError, TypeError, ValueError):  # as an older program kept it
        yield table.replace("_", " "), "recorded"


def _fields(table: str, row: Row) -> Iterator[tuple[str, str]]:
    for name, cell in row.items():
        if name not in HIDDEN:
            for path, part in cells_within(f"{table}.{name}", cell):
                if path.rpartition(".")[2] not in HIDDEN:
                    yield label_of(path), shown(path, part)
