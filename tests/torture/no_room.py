"""A disk that is full at one write or the next: told in a sentence, and nothing is half saved."""

import random
import shutil
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from domain.errors import HeadlapError
from storage.backups.daily import back_up
from storage.backups.names import backups_folder, backups_in
from storage.backups.restoring import restore
from storage.errors import CannotWrite, DiskFails, DiskFull
from storage.kept_typing import KeptTyping, keep_typing, take_over_typing
from tests.storage.books import NOW, dump, enquired, laid, open_book, opened, query, settle
from tests.storage.test_faults import no_room
from tests.storage.test_older_books import book_of_version
from tests.torture.actions import act
from tests.torture.outcome import Outcome, try_each
from tests.torture.spoilt_files import BOOK

_LEAST = 2048
"""Bytes by which there is more room each time: SQLite writes a page of 4096 at once."""


def full_disk(tries: int, seed: int, folder: Path) -> Outcome:
    """A try is an action, new book, upgrade, backup, restoring or draft, at every write of it."""
    template, old = folder / "on a full disk.headlap", folder / "old, on a full disk.headlap"
    with opened(template) as book:
        settle(book)
        laid(book)
    book_of_version(old, 1)

    def once(chance: random.Random, home: Path) -> str:
        what = chance.choice(
            (_acting, _acting, _acting, _making, _upgrading, _backing_up, _restoring, _keeping)
        )
        shutil.copy(old if what is _upgrading else template, home / BOOK)
        return what(chance, home / BOOK)

    return try_each("full disk at every write", tries, seed, folder, once)


def _acting(chance: random.Random, path: Path) -> str:
    """An action and the next, each with a little more room each time until it is saved."""
    with opened(path) as book:
        for number in chance.sample(range(1_000_000), 2):
            before, room = dump(path), _size(Path(f"{path}-wal"))
            while _refused(room, lambda number=number: act(book, path, 1, number)):  # type: ignore[misc]
                if dump(path) != before:
                    return f"half saved with room for {room} bytes: action {number}"
                room += _LEAST
    return _opens(path)


def _making(chance: random.Random, path: Path) -> str:
    path.unlink()
    room = chance.randrange(300) * _LEAST
    if not _refused(room, lambda: open_book(path).close()):
        return f"made in {room} bytes" if room < 10_000 else ""
    return _opens(path)


def _upgrading(chance: random.Random, path: Path) -> str:
    room = chance.randrange(300) * _LEAST
    refused = _refused(room, lambda: open_book(path).close())
    told = _opens(path)
    if not told and query(path, "SELECT count(*) FROM job")[0][0] != 2:
        return f"a job was lost with room for {room} bytes"
    return told or ("" if refused or room > 100_000 else f"upgraded in {room} bytes")


def _backing_up(chance: random.Random, path: Path) -> str:
    size = path.stat().st_size
    room = chance.randrange(size)
    before = dump(path)
    if not _refused(room, lambda: back_up(path, NOW)):
        return f"backed up into {room} bytes"
    if backups_in(backups_folder(path), path):
        return "half a backup has the name of a whole one"
    return _opens(path) if dump(path) == before else "a backup changed the book"


def _restoring(chance: random.Random, path: Path) -> str:
    back_up(path, NOW)
    (backup,) = backups_in(backups_folder(path), path).values()
    with opened(path) as book:
        enquired(book)
    before, room = dump(path), chance.randrange(path.stat().st_size)
    try:
        with no_room(room):
            restore(path, backup, NOW + timedelta(days=1))
    except HeadlapError:
        return _opens(path) if dump(path) == before else "the book was lost to a restoring"
    return f"restored in {room} bytes"


def _keeping(chance: random.Random, path: Path) -> str:
    first = KeptTyping("survey", "0001", 1, "survey", {"length": "2.4 m"}, "Length 2.4 m")
    longer = KeptTyping("survey", "0001", 1, "survey", {"length": "9" * 9000}, "Length")
    keep_typing(path, [first])
    try:
        with no_room(chance.randrange(9000)):
            keep_typing(path, [longer])
    except OSError:
        pass
    return "" if take_over_typing(path) == (first,) else "a draft was lost"


def _refused(room: int, what: Callable[[], object]) -> bool:
    """Whether the disk refuses it where no file grows over so many bytes."""
    try:
        with no_room(room):
            what()
    except (DiskFails, DiskFull, CannotWrite):
        return True
    except HeadlapError:  # refused by a rule
        return False
    return False


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0


def _opens(path: Path) -> str:
    """Whether there is a sound book, with room again."""
    with opened(path) as book:
        enquired(book)
    found = query(path, "PRAGMA integrity_check")
    return "" if found == [("ok",)] else str(found)
