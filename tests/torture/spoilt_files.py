"""A file that is cut, changed, swapped or none of ours: told in a sentence, and left as it is."""

import random
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from domain.errors import HeadlapError
from storage.bookfile import SCHEMA
from storage.errors import CannotWrite, Damaged, Gone, NewerBook, NotABook
from storage.soundness import is_sound
from storage.week_and_jobs import find_jobs
from tests.storage.books import enquired, open_book, opened, query
from tests.storage.test_damage import SHORTER, live_through
from tests.storage.test_files import as_nobody
from tests.storage.test_same_file import HAPPENED, an_older_copy_over_it, cut_short
from tests.torture.outcome import Outcome, try_each

BOOK = "book.headlap"


def flipped(tries: int, seed: int, folder: Path, whole: Path) -> Outcome:
    """Bits turned anywhere in the file."""
    content = whole.read_bytes()

    def once(chance: random.Random, home: Path) -> str:
        path, bad = home / BOOK, bytearray(content)
        for _ in range(chance.choice((1, 1, 4, 64))):
            bad[chance.randrange(len(bad))] ^= 1 << chance.randrange(8)
        path.write_bytes(bad)
        said, saved = live_through(path)
        if saved and not is_sound(path, "quick_check"):
            return "saved to while it was damaged"
        if any(isinstance(each, Damaged) for each in said):
            if saved:
                return "saved to although damage was met"
            if path.read_bytes() != bad:
                return "written to although damage was met"
        return ""

    return try_each("flipped bytes", tries, seed, folder, once)


def cut(tries: int, seed: int, folder: Path, whole: Path) -> Outcome:
    """Cut short: at six sizes, then at any."""
    content = whole.read_bytes()
    sizes = [int(len(content) * part) for part in SHORTER]

    def once(chance: random.Random, home: Path) -> str:
        size = sizes.pop() if sizes else chance.randrange(1, len(content))
        path = home / BOOK
        path.write_bytes(content[:size])
        backup = home / "backups" / "book 2026-06-24 19.00.00.headlap"
        backup.parent.mkdir()
        shutil.copy(whole, backup)
        said, saved = live_through(path)
        if saved or path.read_bytes() != content[:size]:
            return f"written to when cut to {size} bytes"
        return "" if said else f"nothing said when cut to {size} bytes"

    return try_each("truncated", tries, seed, folder, once)


def swapped(tries: int, seed: int, folder: Path) -> Outcome:
    """Deleted, moved, replaced or written over while it is open."""

    def once(chance: random.Random, home: Path) -> str:
        path, happened = home / BOOK, chance.choice(HAPPENED)
        with opened(path) as book:
            shutil.copy(path, home / "older")
            for _ in range(chance.randrange(1, 4)):
                enquired(book)
            if chance.random() < 0.5 or happened is an_older_copy_over_it:
                book.fold_in()  # without it the older copy is what the file itself still is
            happened(path)
            before = path.read_bytes() if path.exists() else None
            for _ in range(2):
                try:
                    enquired(book)
                except Gone:
                    continue
                return f"saved after it was {happened.__name__}"
            after = path.read_bytes() if path.exists() else None
            if after != before and happened is not cut_short:
                return f"written to after it was {happened.__name__}"
        elsewhere = home / "elsewhere"
        if elsewhere.exists() and not find_jobs(elsewhere, ""):
            return "what was moved lost its jobs"
        return ""

    return try_each("moved, deleted, replaced", tries, seed, folder, once)


def foreign(tries: int, seed: int, folder: Path) -> Outcome:
    """Another program's file, or a newer book."""

    def once(chance: random.Random, home: Path) -> str:
        path = home / BOOK
        wanted: type[HeadlapError] = chance.choice((NotABook, NewerBook))
        if wanted is NewerBook:
            with opened(path) as book:
                enquired(book)
            query(path, f"PRAGMA user_version = {SCHEMA + chance.randint(1, 1000)}")
        else:
            _write_foreign(chance, path)
        before = path.read_bytes()
        for what in (lambda: open_book(path).close(), lambda: len(find_jobs(path, ""))):
            try:
                what()
            except wanted:
                continue
            return f"opened, though it is {wanted.__name__}"
        beside = sorted(each.name for each in home.iterdir())
        return "" if path.read_bytes() == before and beside == [BOOK] else f"touched: {beside}"

    return try_each("foreign or newer", tries, seed, folder, once)


def _write_foreign(chance: random.Random, path: Path) -> None:
    kind = chance.randrange(4)
    if kind == 0:
        path.write_bytes(chance.randbytes(chance.randrange(1, 20_000)))
    elif kind == 1:
        path.write_bytes(b"SQLite format 3\0" + bytes(chance.randrange(0, 200)))
    elif kind == 2:
        path.write_text("Dear Mrs Adeyemi\n" * chance.randrange(1, 500), encoding="utf-8")
    else:
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("CREATE TABLE job (id INTEGER PRIMARY KEY, words TEXT)")
            connection.execute(f"PRAGMA user_version = {chance.randrange(SCHEMA + 2)}")


def read_only(tries: int, seed: int, folder: Path) -> Outcome:
    """A file or a folder that may not be written, from the start or from now on."""

    def once(chance: random.Random, home: Path) -> str:
        with as_nobody() as own:
            path = own / BOOK
            with opened(path) as book:
                enquired(book)
            before = path.read_bytes()
            locked = chance.choice((path, own))
            locked.chmod(0o400 if locked is path else 0o500)
            try:
                with opened(path) as book:
                    enquired(book)
            except CannotWrite:
                told = True
            else:
                told = False
            own.chmod(0o700)
            if path.read_bytes() != before:
                return f"{locked.name} was read-only and was written"
            path.chmod(0o600)
            with opened(path) as book:
                enquired(book)
        return "" if told else f"{locked.name} was read-only, and nothing was said"

    return try_each("read-only file or folder", tries, seed, folder, once)
