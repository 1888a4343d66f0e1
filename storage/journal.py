"""The journal: what was done lately, and the undoing of the last of it."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Table, and_
from sqlmodel import Session, col, desc, select

from domain.errors import NotNow
from storage.database import Database
from storage.mapping.codec import as_written
from storage.rows import ActionRow, JournalRow
from storage.transaction import table_of

_FINAL = {
    "document": "an issued invoice or receipt is final",
    "payment": "a recorded payment is final",
}
"""Tables whose rows others hold a paper of."""


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One action of the person."""

    id: int
    at: datetime
    words: str
    undone: bool


class Journal(Database):
    """Every action is here with each row that it wrote, before and after."""

    def recent(self, most: int = 20) -> tuple[JournalEntry, ...]:
        """Return the last actions, the latest first."""
        with self._reading() as session:
            wanted = select(ActionRow).order_by(desc(ActionRow.id)).limit(most)
            return tuple(_entry(row) for row in session.exec(wanted))

    def undo(self) -> str:
        """Take back the last action that still stands, and return what it was.

        Raises :class:`NotNow` if there is none, if others hold a paper of it, or if what it wrote
        was changed since.
        """
        with self._writing() as session:
            wanted = select(ActionRow).where(col(ActionRow.undone_at).is_(None))
            action = session.exec(wanted.order_by(desc(ActionRow.id)).limit(1)).first()
            if action is None:
                raise NotNow("Nothing to undo.")
            touched = select(JournalRow).where(JournalRow.action_id == action.id)
            entries = session.exec(touched.order_by(desc(JournalRow.id))).all()
            with as_written():
                _refuse_final(reversed(entries))
                for entry in entries:
                    _restore(session, entry)
            words = action.words
            action.undone_at = self._now().isoformat(timespec="seconds")
            session.add(action)
            return words


def _entry(row: ActionRow) -> JournalEntry:
    with as_written():
        return JournalEntry(
            id=row.id or 0,
            at=datetime.fromisoformat(row.at),
            words=row.words,
            undone=row.undone_at is not None,
        )


def _refuse_final(entries: Iterable[JournalRow]) -> None:
    for entry in entries:
        if entry.entity in _FINAL:
            raise NotNow(f"Cannot undo: {_FINAL[entry.entity]}.")
        sent = entry.entity == "quote" and entry.after and json.loads(entry.after)["sent_on"]
        if sent:
            raise NotNow("Cannot undo: a quote marked as sent is final. Make a new version of it.")


def _restore(session: Session, entry: JournalRow) -> None:
    """Put one row back as it was, if it still is as the action left it.

    A column that came after the picture was taken keeps what it holds, or begins at its default.
    """
    table = table_of(entry.entity)
    before, after = (json.loads(image) if image else None for image in (entry.before, entry.after))
    key = _key(table, after or before or {})
    found = session.execute(table.select().where(key)).mappings().first()
    if _as_in(after, found) != after:
        raise NotNow("It has changed since, so it cannot be undone on its own.")
    if before is None:
        session.execute(table.delete().where(key))
    elif after is None:
        session.execute(table.insert().values(**before))
    else:
        session.execute(table.update().where(key).values(**before))


def _as_in(picture: Mapping[str, Any] | None, row: Mapping[Any, Any] | None) -> Any:
    """The row in the columns that an old picture of it has: the table may have grown since."""
    if row is None or picture is None:
        return None if row is None else dict(row)
    return {name: row.get(name) for name in picture}


def _key(table: Table, image: dict[str, Any]) -> Any:
    return and_(*(column == image[column.name] for column in table.primary_key))
