"""Which files are backups of a book, by their names: ``book 2026-06-25 19.00.00.db``."""

from datetime import datetime, timedelta
from pathlib import Path
from typing import Final

_AT = "%Y-%m-%d %H.%M.%S"

HALF: Final = ".headlap-"
"""How the name of a copy begins that is not finished yet."""


def backups_folder(book: Path) -> Path:
    """Return the folder beside the book in which its backups lie."""
    return book.parent / "backups"


def has_backups(book: Path) -> bool:
    """Whether there are backups of a book, be the book itself there or not."""
    return bool(backups_in(backups_folder(book), book))


def backups_in(folder: Path, book: Path) -> dict[datetime, Path]:
    """Return the backups of a book in a folder, the newest first, by when they were made.

    There are none in a folder that is not there or cannot be read.
    """
    try:
        found = {made_at(path.name, book): path for path in folder.iterdir()}
    except OSError:
        return {}
    return {at: found[at] for at in sorted((at for at in found if at is not None), reverse=True)}


def made_at(name: str, book: Path) -> datetime | None:
    """Return when a file of that name was made as a backup of the book; None if it is none."""
    if not (name.startswith(f"{book.stem} ") and name.endswith(book.suffix)):
        return None
    when = name[len(book.stem) + 1 : len(name) - len(book.suffix)]
    try:
        at = datetime.strptime(when, _AT)  # noqa: DTZ007 -- the local time of the book's owner
    except ValueError:
        return None
    return at if name == backup_name(book, at) else None


def backup_name(book: Path, at: datetime) -> str:
    """Return the name of a backup that is made at a time."""
    return f"{book.stem} {at:{_AT}}{book.suffix}"


def free_name(folder: Path, book: Path, now: datetime) -> Path:
    """Return where a new backup goes: under the first second that has none yet."""
    at = now.replace(microsecond=0)
    while (path := folder / backup_name(book, at)).exists():
        at += timedelta(seconds=1)
    return path


def as_it_lay(folder: Path, book: Path, now: datetime) -> Path:
    """Return where a damaged book is put aside; by its name it is no backup."""
    at = now.replace(microsecond=0)
    while (path := folder / f"{book.stem} damaged {at:{_AT}}{book.suffix}").exists():
        at += timedelta(seconds=1)
    return path
