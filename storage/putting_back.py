"""Rows turned back to what they were before an action, or on again to what they were after it."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from sqlalchemy import Table, and_, select
from sqlmodel import Session, SQLModel

from domain.errors import NotNow
from domain.estimate.stock import StockLine, StockMove, newly_short, replay
from storage.mapping.codec import value_of
from storage.queries import read_moves
from storage.rows import JournalRow
from storage.tables import Tables

Image: TypeAlias = Mapping[str, Any] | None
"""A row as it was; None where there was none."""

_SHARED = {"customer": "the customer", "site": "the place"}
"""Rows that several jobs may have in common."""
_CHILDREN = {"customer": ("site", "customer_id"), "site": ("job", "site_id")}
"""What belongs to a row that several jobs may have in common, and by which column."""
_BY_HAND = "Change it by hand instead."


@dataclass(frozen=True, slots=True)
class Turn:
    """One row: how it must be found, and what it becomes."""

    table: Table
    found: Image
    becomes: Image

    @property
    def key(self) -> tuple[Any, ...]:
        """The row's key."""
        image = self.found or self.becomes or {}
        return tuple(image[column.name] for column in self.table.primary_key)


def turns_back(entries: Sequence[JournalRow]) -> tuple[Turn, ...]:
    """What undoing an action does: each row it wrote once, the last first."""
    turned = (replace(t, found=t.becomes, becomes=t.found) for t in reversed(turns_on(entries)))
    return tuple(turned)


def turns_on(entries: Iterable[JournalRow]) -> tuple[Turn, ...]:
    """What doing an action again does: each row that it wrote once, the first first.

    A row that it changed and then deleted stands where it was deleted: after all that belonged to
    it, so that what is undone, the last first, finds it there again.
    """
    rows: dict[tuple[Any, ...], Turn] = {}
    for entry in entries:
        before, after = (json.loads(each) if each else None for each in (entry.before, entry.after))
        turn = Turn(SQLModel.metadata.tables[entry.entity], before, after)
        key = (entry.entity, *turn.key)
        known = rows.setdefault(key, turn)
        if after is None:
            del rows[key]
        rows[key] = replace(known, becomes=after)
    return tuple(turn for turn in rows.values() if turn.found != turn.becomes)


def refuse_turns(session: Session, turns: Sequence[Turn], verb: str) -> None:
    """Raise :class:`NotNow` if something stands in the way; ``verb`` is "undo" or "redo"."""
    for turn in turns:
        if _in_columns(turn.found, _row(session, turn)) != turn.found:
            whose = _SHARED.get(turn.table.name)
            what = f"{whose} was changed since on another job" if whose else "it was changed since"
            raise NotNow(f"Cannot {verb}: {what}. {_BY_HAND}")
    _refuse_orphans(session, turns, verb)
    _refuse_leaving_alone(session, turns, verb)
    _refuse_without_parent(session, turns, verb)
    _refuse_a_known_number(session, turns, verb)


def short_after(session: Session, turns: Iterable[Turn]) -> tuple[StockLine, ...]:
    """By how much stock will be short: what had been put in has been taken since."""
    moved = {turn.key[0]: turn.becomes for turn in turns if turn.table.name == "stock_move"}
    if not moved:
        return ()
    before = read_moves(Tables(session))
    after = {move.id: move for move in before if move.id not in moved}
    after |= {key: value_of(StockMove, image) for key, image in moved.items() if image is not None}
    in_order = [after[key] for key in sorted(after, key=lambda key: key or 0)]
    return newly_short(replay(before), replay(in_order))


def make_turns(session: Session, turns: Iterable[Turn]) -> None:
    """Write what the rows become.

    A column that came after a picture was taken keeps what it holds, or begins at its default.
    """
    for turn in turns:
        here = _is(turn)
        if turn.becomes is None:
            session.execute(turn.table.delete().where(here))
        elif turn.found is None:
            session.execute(turn.table.insert().values(**turn.becomes))
        else:
            session.execute(turn.table.update().where(here).values(**turn.becomes))


def _refuse_orphans(session: Session, turns: Sequence[Turn], verb: str) -> None:
    """Refuse to take a customer or a place from under another job."""
    gone = {(turn.table.name, *turn.key) for turn in turns if turn.becomes is None}
    for name, key in ((name, key[0]) for name, *key in gone if name in _CHILDREN):
        child, column = _CHILDREN[name]
        table = SQLModel.metadata.tables[child]
        keys = session.execute(select(table.c.id).where(table.c[column] == key)).scalars()
        if any((child, each) not in gone for each in keys):
            raise NotNow(
                f"Cannot {verb}: another job has {_SHARED[name]} by now. "
                "Close the job as declined or called off instead."
            )


def _refuse_leaving_alone(session: Session, turns: Sequence[Turn], verb: str) -> None:
    """Refuse to leave a customer or a place without any job: nobody would find them again."""
    gone = {(turn.table.name, *turn.key) for turn in turns if turn.becomes is None}
    for parent, child, column, turn in _of_parents(turns):
        key = (turn.found or {}).get(column)
        if turn.becomes is not None or (parent, key) in gone:
            continue
        table = SQLModel.metadata.tables[child]
        keys = session.execute(select(table.c.id).where(table.c[column] == key)).scalars()
        if all((child, each) in gone for each in keys):
            raise NotNow(
                f"Cannot {verb}: no other job of {_SHARED[parent]} is left by now. "
                "Delete the enquiry instead."
            )


def _refuse_without_parent(session: Session, turns: Sequence[Turn], verb: str) -> None:
    """Refuse to bring back what belongs to a customer or a place that was deleted since."""
    comes = {(turn.table.name, *turn.key) for turn in turns if turn.found is None}
    for parent, _, column, turn in _of_parents(turns):
        key = (turn.becomes or {}).get(column)
        if turn.found is not None or (parent, key) in comes:
            continue
        table = SQLModel.metadata.tables[parent]
        if session.execute(select(table.c.id).where(table.c.id == key)).first() is None:
            raise NotNow(
                f"Cannot {verb}: {_SHARED[parent]} was deleted since. Add it as a new enquiry."
            )


def _of_parents(turns: Sequence[Turn]) -> Iterator[tuple[str, str, str, Turn]]:
    """What several jobs may have in common, what belongs to it and by which column, each turn."""
    for parent, (child, column) in _CHILDREN.items():
        for turn in turns:
            if turn.table.name == child:
                yield parent, child, column, turn


def _refuse_a_known_number(session: Session, turns: Iterable[Turn], verb: str) -> None:
    """Refuse a job whose reference was given to another since."""
    table = SQLModel.metadata.tables["job"]
    for turn in turns:
        if turn.table is table and turn.found is None and turn.becomes is not None:
            ref = turn.becomes["ref"]
            if session.execute(select(table.c.id).where(table.c.ref == ref)).first():
                raise NotNow(f"Cannot {verb}: {ref} is another job by now. Add it as a new one.")


def _row(session: Session, turn: Turn) -> Image:
    found = session.execute(turn.table.select().where(_is(turn))).mappings().first()
    return None if found is None else dict(found)


def _is(turn: Turn) -> Any:
    columns = turn.table.primary_key
    return and_(*(column == part for column, part in zip(columns, turn.key, strict=True)))


def _in_columns(picture: Image, row: Image) -> Image:
    """The row in the columns that an old picture of it has: the table may have grown since."""
    if row is None or picture is None:
        return row
    return {name: row.get(name) for name in picture}
