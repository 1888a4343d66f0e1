"""What would be lost by restoring a backup: all that was saved since the two were the same.

Book and backup share their first actions, which nothing changes or takes away; from the first in
which they differ on, what the book did is not in the backup.
"""

import json
import sqlite3
from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path

from domain.job.account import LABELS, DocumentKind
from storage.backups.copying import read_alone
from storage.bookfile import State, connect, look_at
from storage.errors import OF_SQLITE, NotCurrent, in_words


@dataclass(frozen=True, slots=True)
class Lost:
    """What a book holds and a backup of it does not. A job is named by reference and place."""

    invoices: tuple[int, ...] = ()
    """Their numbers."""
    receipts: tuple[int, ...] = ()
    """Their numbers."""
    notes: tuple[str, ...] = ()
    """The numbers, as people write them, of what puts money right: CRN-1."""
    quotes: tuple[str, ...] = ()
    """The jobs whose quotes were marked as sent."""
    new_jobs: tuple[str, ...] = ()
    changed_jobs: tuple[str, ...] = ()
    deleted_jobs: tuple[str, ...] = ()
    """They would be there again."""
    lists: tuple[str, ...] = ()
    """What else was changed: "prices"."""
    undone: tuple[str, ...] = ()
    """Not lost but there again: the jobs and lists of which something was undone since."""
    only_in_backup: int = 0
    """How many things were saved that are in the backup alone: an older one was restored since."""

    @property
    def is_nothing(self) -> bool:
        """Whether the backup holds all that the book does."""
        return self == Lost(undone=self.undone, only_in_backup=self.only_in_backup)


def lost_by_restoring(book: Path, backup: Path) -> Lost:
    """Return what the book holds, be it open or not, and the backup does not.

    Raises :class:`NotCurrent` for a book that has to be opened first, else what a fault of either
    is told as.
    """
    if look_at(book) is not State.CURRENT:
        raise NotCurrent(book)
    try:
        with closing(connect(book, read_only=True)) as ours, closing(read_alone(backup)) as theirs:
            ours.execute("BEGIN")  # all of it as it stood at one moment
            shared = _last_shared(ours, theirs)
            undone_here, undone_there = _undone(ours, shared), _undone(theirs, shared)
            given = {"shared": shared, "redone": json.dumps(sorted(undone_there - undone_here))}
            back = {"undone": json.dumps(sorted(undone_here - undone_there))}
            deleted = (theirs.execute(_IN_BACKUP, key) for key in ours.execute(_GONE, given))
            return replace(
                _lost(ours, given),
                deleted_jobs=tuple(name for found in deleted for (name,) in found),
                undone=tuple(name for (name,) in theirs.execute(_UNDONE, back)),
                only_in_backup=_saved_after(theirs, shared),
            )
    except OF_SQLITE as error:
        raise in_words(error) from error


def _last_shared(ours: sqlite3.Connection, theirs: sqlite3.Connection) -> int:
    """The number of the last action that stands in both, with all that it wrote; 0 for none."""
    low, high = 0, min(_last(ours), _last(theirs))
    while low < high:
        middle = (low + high + 1) // 2
        if _written(ours, middle) == _written(theirs, middle):
            low = middle
        else:
            high = middle - 1
    return low


def _written(connection: sqlite3.Connection, action: int) -> list[tuple[object, ...]]:
    action_of = connection.execute("SELECT at, words FROM action WHERE id = ?", (action,))
    wrote = "SELECT entity, before, after FROM journal WHERE action_id = ? ORDER BY id"
    return [*action_of, *connection.execute(wrote, (action,))]


def _last(connection: sqlite3.Connection) -> int:
    (last,) = connection.execute("SELECT coalesce(max(id), 0) FROM action").fetchone()
    return int(last)


def _undone(connection: sqlite3.Connection, shared: int) -> set[int]:
    wanted = "SELECT id FROM action WHERE undone_at IS NOT NULL AND id <= ?"
    return {key for (key,) in connection.execute(wanted, (shared,))}


def _saved_after(connection: sqlite3.Connection, shared: int) -> int:
    wanted = "SELECT count(*) FROM action WHERE undone_at IS NULL AND id > ?"
    (count,) = connection.execute(wanted, (shared,)).fetchone()
    return int(count)


def _lost(ours: sqlite3.Connection, given: Mapping[str, object]) -> Lost:
    """What the book alone tells, by ``given``: the last action shared, and those redone since.

    Redone are actions in both that are undone in the backup alone.
    """
    jobs = ours.execute(_JOBS, given).fetchall()
    papers = ours.execute(_PAPERS, given).fetchall()
    return Lost(
        invoices=tuple(number for series, number in papers if series == "invoice"),
        receipts=tuple(number for series, number in papers if series == "receipt"),
        notes=tuple(
            LABELS[DocumentKind(series)](number)
            for series, number in papers
            if series not in ("invoice", "receipt")
        ),
        quotes=tuple(name for (name,) in ours.execute(_QUOTES, given)),
        new_jobs=tuple(name for name, is_new in jobs if is_new),
        changed_jobs=tuple(name for name, is_new in jobs if not is_new),
        lists=tuple(name for (name,) in ours.execute(_LISTS, given)),
    )


_SINCE = """
    SELECT * FROM action WHERE id > :shared AND undone_at IS NULL
    UNION ALL SELECT * FROM action WHERE id IN (SELECT value FROM json_each(:redone))
"""
_NAMED = "trim(job.ref || ' ' || site.place)"
_JOBS = f"""
    WITH since AS ({_SINCE})
    SELECT {_NAMED}, NOT EXISTS
        (SELECT 1 FROM action WHERE action.job_id = job.id AND action.id <= :shared)
    FROM job JOIN site ON site.id = job.site_id
    WHERE job.id IN (SELECT job_id FROM since) ORDER BY job.id
"""  # noqa: S608 -- our own words
_GONE = f"""
    WITH since AS ({_SINCE})
    SELECT DISTINCT job_id FROM since WHERE job_id NOT IN (SELECT id FROM job) ORDER BY job_id
"""  # noqa: S608 -- as above
_IN_BACKUP = f"""
    SELECT {_NAMED} FROM job JOIN site ON site.id = job.site_id WHERE job.id = ?
"""  # noqa: S608 -- as above
_UNDONE = f"""
    SELECT coalesce({_NAMED}, list_name) AS name FROM action
    LEFT JOIN job ON job.id = action.job_id LEFT JOIN site ON site.id = job.site_id
    WHERE action.id IN (SELECT value FROM json_each(:undone))
    GROUP BY name ORDER BY min(action.id)
"""  # noqa: S608 -- as above
_PAPERS = f"""
    WITH since AS ({_SINCE})
    SELECT json_extract(after, '$.series'), json_extract(after, '$.number')
    FROM journal JOIN since ON since.id = action_id
    WHERE entity = 'document' AND before IS NULL ORDER BY 1, 2
"""  # noqa: S608 -- as above
_QUOTES = f"""
    WITH since AS ({_SINCE})
    SELECT DISTINCT {_NAMED} FROM journal JOIN since ON since.id = action_id
    JOIN job ON job.id = since.job_id JOIN site ON site.id = job.site_id
    WHERE entity = 'quote' AND json_extract(after, '$.sent_on') IS NOT NULL
    AND (before IS NULL OR json_extract(before, '$.sent_on') IS NULL) ORDER BY 1
"""  # noqa: S608 -- as above
_LISTS = f"""
    WITH since AS ({_SINCE})
    SELECT list_name FROM since WHERE list_name IS NOT NULL GROUP BY list_name ORDER BY min(id)
"""  # noqa: S608 -- as above
