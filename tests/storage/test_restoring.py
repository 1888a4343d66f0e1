"""A backup put in the book's place: checked first, the present book kept, nobody else in it."""

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import timedelta
from pathlib import Path

import pytest

from domain.errors import Refused
from storage import bookfile
from storage.backups.daily import back_up
from storage.backups.holding import Holding, holding_of_backup, holding_of_book
from storage.backups.names import backups_folder
from storage.backups.restoring import restore
from storage.errors import BookInUse, Damaged, DamagedBackup, NotABook
from tests.architecture.sources import ROOT
from tests.storage.books import NOW, bill, dump, enquired, opened, query
from tests.storage.test_backups import FIRST, names, spoil
from tests.storage.test_files import mode

LATER = NOW + timedelta(hours=1)
ANOTHER = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1])
connection.execute("SELECT count(*) FROM job").fetchone()
print("open", flush=True)
sys.stdin.read()
"""


@pytest.fixture
def backup(three_laid: Path) -> Path:
    """A backup of three jobs; the book has a fourth since."""
    made = back_up(three_laid, NOW)
    with opened(three_laid) as book:
        enquired(book)
    return made


@contextmanager
def open_elsewhere(path: Path) -> Iterator[None]:
    """Another program that has the book open and does nothing."""
    command = (sys.executable, "-c", ANOTHER, str(path))
    pipe = subprocess.PIPE
    with subprocess.Popen(command, cwd=ROOT, stdin=pipe, stdout=pipe) as program:
        assert program.stdout is not None
        program.stdout.readline()
        yield
        program.communicate()


def test_the_book_is_then_as_it_was_and_what_it_was_is_a_backup(
    three_laid: Path, backup: Path
) -> None:
    held = dump(three_laid)
    kept = restore(three_laid, backup, LATER)
    assert kept is not None
    assert (dump(three_laid), dump(kept)) == (dump(backup), held)
    assert names(three_laid) == [FIRST, "book 2026-06-25 20.00.00.headlap"]
    assert mode(three_laid) == "0o600"
    assert [each.name for each in three_laid.parent.iterdir() if each.is_file()] == [
        three_laid.name
    ]
    with opened(three_laid) as book:
        assert enquired(book).ref == "0004"
    assert restore(three_laid, kept, LATER) != kept
    assert dump(three_laid) == held


def test_a_lost_book_is_restored(three_laid: Path, backup: Path) -> None:
    three_laid.unlink()
    assert restore(three_laid, backup, LATER) is None
    assert dump(three_laid) == dump(backup)


def test_a_backup_is_restored_on_a_new_machine(backup: Path, tmp_path: Path) -> None:
    book = tmp_path / "new" / "share" / "headlap.db"
    assert restore(book, backup, NOW) is None
    assert dump(book) == dump(backup)
    assert (mode(book), mode(book.parent)) == ("0o600", "0o700")


@pytest.mark.parametrize("how", ["a page", "its beginning"])
def test_a_damaged_book_is_kept_as_it_lies(three_laid: Path, backup: Path, how: str) -> None:
    if how == "a page":
        spoil(three_laid, "price")
    else:
        three_laid.write_bytes(b"?" * 4096 + three_laid.read_bytes()[4096:])
    Path(f"{three_laid}-wal").write_bytes(b"saves that were not folded in")
    held = three_laid.read_bytes()
    kept = restore(three_laid, backup, LATER)
    assert kept == backups_folder(three_laid) / "book damaged 2026-06-25 20.00.00.headlap"
    assert kept.read_bytes() == held
    assert Path(f"{kept}-wal").read_bytes() == b"saves that were not folded in"
    assert not Path(f"{three_laid}-wal").exists()
    assert dump(three_laid) == dump(backup)


@pytest.mark.parametrize("how", ["sound", "its beginning"])
def test_nothing_is_restored_while_another_program_has_the_book_open(
    three_laid: Path, backup: Path, how: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bookfile, "BUSY_SECONDS", 0.05)
    query(three_laid, "PRAGMA journal_mode = wal")
    with open_elsewhere(three_laid):
        if how == "its beginning":
            with three_laid.open("r+b") as file:
                file.write(b"?" * 100)
        held = three_laid.read_bytes()
        with pytest.raises(BookInUse, match="Nothing was restored: close it"):
            restore(three_laid, backup, LATER)
        assert three_laid.read_bytes() == held
    restore(three_laid, backup, LATER)
    assert dump(three_laid) == dump(backup)


def test_a_backup_that_cannot_be_used_changes_nothing(three_laid: Path, backup: Path) -> None:
    held, files = three_laid.read_bytes(), names(three_laid)
    letter = three_laid.with_name("letter.txt")
    letter.write_text("Dear Mrs Adeyemi", encoding="utf-8")
    spoiled = three_laid.with_name("spoiled.headlap")
    shutil.copy(backup, spoiled)
    spoil(spoiled, "price")
    for wrong, kind in (
        (letter, NotABook),
        (spoiled, DamagedBackup),
        (three_laid.with_name("none"), Refused),
        (three_laid, Refused),
    ):
        with pytest.raises(kind):
            restore(three_laid, wrong, LATER)
    assert (three_laid.read_bytes(), names(three_laid)) == (held, files)


def test_a_plain_copy_with_saves_beside_it_is_restored_with_them(
    three_laid: Path, tmp_path: Path
) -> None:
    copy = tmp_path / "copy.headlap"
    with opened(three_laid) as book:
        enquired(book)
        for beside in ("", "-wal", "-shm"):
            shutil.copy(f"{three_laid}{beside}", f"{copy}{beside}")
    query(three_laid, "DELETE FROM snag")
    restore(three_laid, copy, LATER)
    assert query(three_laid, "SELECT count(*) FROM job") == [(4,)]


def test_it_is_told_what_a_backup_holds(three_laid: Path, path: Path) -> None:
    assert holding_of_backup(back_up(three_laid, NOW)) == Holding(3, 0, NOW)
    bill(three_laid, 1)
    assert holding_of_book(three_laid) == Holding(3, 2, NOW)
    assert holding_of_backup(back_up(three_laid, LATER)) == Holding(3, 2, NOW)


def test_what_cannot_be_read_is_told(tmp_path: Path) -> None:
    empty = tmp_path / "empty"
    empty.touch()
    with pytest.raises(Damaged):
        holding_of_backup(empty)
    with closing(sqlite3.connect(empty)) as connection:
        connection.execute("CREATE TABLE job (id)")
    with pytest.raises(Damaged):
        holding_of_backup(empty)
