"""All the backups of a book, wherever they lie."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from domain.errors import HeadlapError
from storage.backups.holding import Holding, holding_of_backup
from storage.backups.names import backups_folder, backups_in
from storage.backups.second import backups_in_second
from storage.bookfile import look_at


@dataclass(frozen=True, slots=True)
class Backup:
    """What was backed up at one time: a file, or two that are the same."""

    at: datetime
    beside: Path | None
    """The file in the folder beside the book."""
    second: Path | None
    """The file in the second folder."""

    @property
    def files(self) -> tuple[Path, ...]:
        """Where it lies, the nearest first."""
        return tuple(path for path in (self.beside, self.second) if path is not None)


def all_backups(book: Path, second: str) -> tuple[Backup, ...]:
    """Return the backups of a book beside it and in the second folder, the newest first.

    ``second`` is empty for none; one that cannot be reached holds none.
    """
    beside, there = backups_in(backups_folder(book), book), backups_in_second(second, book)
    found = [
        backup for at in {*beside, *there} for backup in _at(at, beside.get(at), there.get(at))
    ]
    return tuple(sorted(found, key=lambda backup: backup.at, reverse=True))


def holding_of(backup: Backup) -> Holding:
    """Return what a backup holds, by the first of its files that can be read.

    Raises what the last of them is refused with: :class:`storage.errors.Damaged`, or what
    :func:`look_at` raises.
    """
    *others, last = backup.files
    for path in others:
        try:
            return _holding(path)
        except HeadlapError:
            continue
    return _holding(last)


def _holding(path: Path) -> Holding:
    look_at(path)
    return holding_of_backup(path)


def _at(at: datetime, beside: Path | None, there: Path | None) -> list[Backup]:
    """Backups of one time: one if both files are the same, as far as their length tells."""
    if beside is None or there is None or _length(beside) == _length(there):
        return [Backup(at, beside, there)]
    return [Backup(at, beside, None), Backup(at, None, there)]


def _length(path: Path) -> int | None:
    try:
        return path.stat().st_size
    except OSError:
        return None
