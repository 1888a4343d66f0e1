"""The backup of the day, and what goes when a new one has come."""

from collections.abc import Iterable
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

from domain.backups import kept
from storage.backups.copying import back_up_into, make_folder
from storage.backups.names import HALF, backups_folder, backups_in
from storage.bookfile import State, look_at

_SURELY_LEFT = timedelta(days=1)
"""A half copy of that age was left by a program that was killed: nobody writes it any more."""


def back_up_of_the_day(book: Path, now: datetime) -> None:
    """Back up a book, unless that was done today or there is none to back up.

    Raises as :func:`back_up` does.
    """
    done = any(at.date() == now.date() for at in backups_in(backups_folder(book), book))
    if not done and look_at(book) is not State.NEW:
        back_up(book, now)


def back_up(book: Path, now: datetime) -> Path:
    """Back up a book into the folder beside it, thin out that folder, and return the backup.

    Raises :class:`storage.errors.NotBackedUp`, :class:`storage.errors.DamagedNotBackedUp`: then
    every older backup is kept.
    """
    folder = backups_folder(book)
    make_folder(folder)
    made = back_up_into(folder, book, now)
    thin_out(folder, book, now)
    return made


def thin_out(folder: Path, book: Path, now: datetime) -> None:
    """Delete the backups of a book that are not kept any longer, and what was left half made."""
    made = backups_in(folder, book)
    stay = kept(made)
    _delete(path for at, path in made.items() if at not in stay)
    with suppress(OSError):
        halves = [each for each in folder.iterdir() if each.name.startswith(HALF)]
        oldest = (now - _SURELY_LEFT).timestamp()
        _delete(each for each in halves if each.stat().st_mtime < oldest)


def _delete(paths: Iterable[Path]) -> None:
    for path in paths:
        with suppress(OSError):  # one that stays takes room and does no harm
            path.unlink()
