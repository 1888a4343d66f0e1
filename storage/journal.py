"""The journal: what was done, the undoing of the last of it, and the doing again."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import Session, col, desc, select

from domain.books.closed_year import told_already
from domain.changes import Change
from domain.days.calendar import show_in_full
from domain.errors import NotNow
from domain.history import LastSaved, clause_of
from domain.scope import Scope
from storage.database import Database, is_of
from storage.errors import FinalMoney
from storage.mapping.codec import as_written
from storage.pages_touched import pages_touched
from storage.putting_back import Turn, make_turns, refuse_turns, short_after, turns_back, turns_on
from storage.rows import ActionRow, JobRow, JournalRow, SiteRow
from storage.what_changed import what_changed

_FINAL = {
    "document": "an issued invoice or receipt",
    "write_off": "a write-off",
    "payment": "a recorded payment",
}
"""Tables whose rows others hold a paper of."""
_OF_THE_BOOKS = {"purchase", "money_back", "miles"}
"""Tables that the quarters are made from."""
_OTHERWISE = "Something else was saved or undone meanwhile: look again, then {} it."


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One action of the person."""

    id: int
    at: datetime
    words: str
    undone: bool
    changes: tuple[Change, ...] = ()
    """What it changed, field by field; of the history alone."""


class Journal(Database):
    """Every action is here with each row that it wrote, before and after.

    Undo and redo go through the actions of one job, or of one list, each in its own order. Neither
    reaches what another window did since this book was opened.
    """

    def recent(self, most: int = 20) -> tuple[JournalEntry, ...]:
        """Return the last actions of all jobs and lists, the latest first."""
        with self._reading() as session:
            wanted = select(ActionRow).order_by(desc(ActionRow.id)).limit(most)
            return tuple(_entry(row, row.words) for row in session.exec(wanted))

    def history(self, of: Scope) -> tuple[JournalEntry, ...]:
        """Return all that was done of a job or a list, the latest first, each in a clause."""
        with self._reading() as session:
            ref, place = _named(session, of)
            actions = session.exec(
                select(ActionRow).where(is_of(of)).order_by(desc(ActionRow.id))
            ).all()
            return tuple(
                _entry(row, clause_of(row.words, ref, place), _changes(_entries(session, row)))
                for row in actions
            )

    def undoable(self, of: Scope) -> LastSaved:
        """Return what :meth:`undo` would undo of a job or a list.

        Raises :class:`NotNow` if there is nothing, if others hold a paper of it, if another window
        did it, or if what it wrote was changed since. That stock would be short is no reason: it
        is told.
        """
        with self._reading() as session, as_written():
            return self._looked_at(session, _standing(session, of), of, "undo")

    def undoable_here(self, scopes: Iterable[Scope]) -> LastSaved:
        """Return as :meth:`undoable` what this window saved last of several jobs and lists.

        Raises as that does, and :class:`NotNow` if it saved nothing of them.
        """
        with self._reading() as session, as_written():
            standing = [(_standing(session, of), of) for of in scopes]
            ours = [(each, of) for each, of in standing if each and each.made_in == self._window]
            if not ours:
                raise NotNow("Nothing to undo: nothing was saved from here since Headlap opened.")
            last, of = max(ours, key=lambda each: each[0].id or 0)
            return self._looked_at(session, last, of, "undo")

    def undo(self, last: LastSaved) -> str:
        """Undo what :meth:`undoable` gave, and return what it was.

        Raises as that does, and if something else is the last by now.
        """
        with self._writing() as session, as_written():
            at = self._now().isoformat(timespec="seconds")
            self._turn(session, _standing(session, last.of), last, "undo", at)
        return last.clause

    def redoable(self, of: Scope) -> LastSaved:
        """Return what :meth:`redo` would do again: the last undone, until something is saved.

        Raises :class:`NotNow` if there is nothing, and for the same reasons as :meth:`undoable`.
        """
        with self._reading() as session, as_written():
            return self._looked_at(session, _undone(session, of), of, "redo")

    def redo(self, undone: LastSaved) -> str:
        """Do again what :meth:`redoable` gave, and return what it was. Raises as that does."""
        with self._writing() as session, as_written():
            self._turn(session, _undone(session, undone.of), undone, "redo", None)
        return undone.clause

    def _looked_at(
        self, session: Session, action: ActionRow | None, of: Scope, verb: str
    ) -> LastSaved:
        if action is None:
            raise NotNow(f"Nothing to {verb} here.")
        entries = _entries(session, action)
        turns = self._allowed(session, action, entries, verb)
        ref, place = _named(session, of)
        return LastSaved(
            id=action.id or 0,
            of=of,
            at=datetime.fromisoformat(action.at),
            clause=clause_of(action.words, ref, place),
            place=place,
            changes=_changes(entries),
            touched=pages_touched(turn.table.name for turn in turns),
            takes_job=any(turn.table.name == "job" and turn.becomes is None for turn in turns),
            brings_job=any(turn.table.name == "job" and turn.found is None for turn in turns),
            short=short_after(session, turns),
        )

    def _turn(
        self,
        session: Session,
        action: ActionRow | None,
        shown: LastSaved,
        verb: str,
        undone_at: str | None,
    ) -> None:
        """Mark the action, then write its rows: the database holds some against what stands."""
        if action is None or action.id != shown.id:
            raise NotNow(_OTHERWISE.format(verb))
        turns = self._allowed(session, action, _entries(session, action), verb)
        action.undone_at = undone_at
        session.add(action)
        session.flush()
        make_turns(session, turns)

    def _allowed(
        self, session: Session, action: ActionRow, entries: Sequence[JournalRow], verb: str
    ) -> tuple[Turn, ...]:
        """The turns of an action, if all of them can be made."""
        if self._is_of_another_window(action):
            raise NotNow(
                f"Cannot {verb}: another window saved this last. "
                f"{verb.capitalize()} it there, or close Headlap here and open it again."
            )
        if verb == "redo":
            turns = turns_on(entries)
        else:
            _refuse_final(entries)
            turns = turns_back(entries)
        _refuse_told(turns, verb, self._now().date())
        refuse_turns(session, turns, verb)
        return turns


def _changes(entries: Iterable[JournalRow]) -> tuple[Change, ...]:
    with as_written():
        return what_changed(turns_on(entries))


def _entry(row: ActionRow, words: str, changes: tuple[Change, ...] = ()) -> JournalEntry:
    with as_written():
        return JournalEntry(
            id=row.id or 0,
            at=datetime.fromisoformat(row.at),
            words=words,
            undone=row.undone_at is not None,
            changes=changes,
        )


def _standing(session: Session, of: Scope) -> ActionRow | None:
    """The last action of a job or a list that is not undone."""
    wanted = select(ActionRow).where(is_of(of), col(ActionRow.undone_at).is_(None))
    return session.exec(wanted.order_by(desc(ActionRow.id)).limit(1)).first()


def _undone(session: Session, of: Scope) -> ActionRow | None:
    """The last action that was made where the job or the list stands now, and was undone."""
    standing = _standing(session, of)
    wanted = select(ActionRow).where(
        is_of(of),
        ActionRow.follows == (standing.id if standing else 0),
        col(ActionRow.undone_at).is_not(None),
    )
    return session.exec(wanted.order_by(desc(ActionRow.id)).limit(1)).first()


def _entries(session: Session, action: ActionRow) -> Sequence[JournalRow]:
    wanted = select(JournalRow).where(JournalRow.action_id == action.id)
    return session.exec(wanted.order_by(col(JournalRow.id))).all()


def _named(session: Session, of: Scope) -> tuple[str, str]:
    """The reference and the place of a job; both empty for a list, or for a job that is gone."""
    wanted = (
        select(JobRow.ref, SiteRow.place)
        .join(SiteRow, col(SiteRow.id) == JobRow.site_id)
        .where(JobRow.id == of)
    )
    return (session.exec(wanted).first() if isinstance(of, int) else None) or ("", "")


def _refuse_told(turns: Iterable[Turn], verb: str, today: date) -> None:
    """Refuse to change the books of a tax year that was told: what is wrong there is put right."""
    images = (turn.found or turn.becomes for turn in turns if turn.table.name in _OF_THE_BOOKS)
    for image in images:
        on = date.fromisoformat((image or {})["on"])
        year = told_already(on, today)
        if year is not None:
            raise NotNow(
                f"Cannot {verb}: {show_in_full(on)} is in {year}, whose last quarter was due. "
                "Put it right on its line in the books instead."
            )


def _refuse_final(entries: Iterable[JournalRow]) -> None:
    for entry in entries:
        if entry.entity in _FINAL:
            raise FinalMoney(_FINAL[entry.entity])
        sent = entry.entity == "quote" and entry.after and json.loads(entry.after)["sent_on"]
        if sent:
            raise NotNow("Cannot undo: a quote marked as sent is final. Make a new version of it.")
