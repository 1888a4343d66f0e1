"""The second folder, where backups outlive the machine: a stick, a folder that is synced.

It is written when it can be reached. Since when it could not is kept in a small file beside the
first backups, so that it is known while the stick is out.
"""

from contextlib import suppress
from datetime import date, datetime
from pathlib import Path

from storage.backups.names import backups_folder, backups_in


def can_be_reached(folder: str, book: Path) -> bool:
    """Whether a folder is there, and is another than that of the first backups."""
    try:
        place = _place(folder)
        return place.is_dir() and place.resolve() != backups_folder(book).resolve()
    except (OSError, RuntimeError):
        return False


def backups_in_second(folder: str, book: Path) -> dict[datetime, Path]:
    """Return the backups of a book in the second folder, as :func:`backups_in` does."""
    return backups_in(_place(folder), book) if folder and can_be_reached(folder, book) else {}


def copy_to_second(book: Path, folder: str, now: datetime) -> bool:
    """Copy the newest backup to the second folder; whether it lies there now.

    The folder is never made: where a stick is to be there may be an empty folder without it.
    """
    newest = next(iter(backups_in(backups_folder(book), book).values()), None)
    done = newest is not None and can_be_reached(folder, book) and _copied(newest, _place(folder))
    from storage.backups.daily import thin_out  # not needed at the first paint

    with suppress(OSError):
        if done:
            thin_out(_place(folder), book, now)
            _note(book, folder, now.date())
        elif second_backup_on(book, folder) is None:
            _note(book, folder, now.date())
    return done


def second_backup_on(book: Path, folder: str) -> date | None:
    """Return the last day a backup reached this folder, or the first that it was tried.

    None if it never was, or cannot be known.
    """
    try:
        day, _, where = _note_of(book).read_text(encoding="utf-8").rstrip("\n").partition(" ")
        return date.fromisoformat(day) if where == folder else None
    except (OSError, ValueError):
        return None


def _copied(backup: Path, folder: Path) -> bool:
    from filecmp import cmp  # not needed at the first paint

    from storage.backups.copying import copy_plain

    target = folder / backup.name
    try:
        if not target.exists():
            copy_plain(backup, target)
        return cmp(backup, target, shallow=False)
    except OSError:
        return False


def _place(folder: str) -> Path:
    return Path(folder).expanduser()


def _note_of(book: Path) -> Path:
    return backups_folder(book) / f"{book.stem} second folder.txt"


def _note(book: Path, folder: str, day: date) -> None:
    note = _note_of(book)
    note.touch(mode=0o600)
    note.write_text(f"{day.isoformat()} {folder}\n", encoding="utf-8")
