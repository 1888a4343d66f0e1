"""A program killed while it made or updated the book: the book opens all the same."""

import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from storage.bookfile import State, look_at
from storage.errors import (
    CannotWrite,
    Damaged,
    DiskFails,
    DiskFull,
    NotABook,
    NotCurrent,
    in_words,
)
from storage.week_and_jobs import find_jobs
from tests.architecture.sources import ROOT
from tests.storage.books import dump, enquired, open_book, opened, query
from tests.storage.test_files import as_nobody
from tests.storage.test_older_books import book_of_version


def killed_in(path: Path, left: Path, *statements: str) -> None:
    """Leave at ``left`` what a program killed in mid-write leaves of the book at ``path``."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA cache_size = 2")  # pages go to the file long before the end
        connection.execute("BEGIN")
        for statement in statements:
            connection.execute(statement)
        connection.execute("CREATE TABLE filling AS SELECT zeroblob(200000) AS it")
        shutil.copy(path, left)
        shutil.copy(f"{path}-journal", f"{left}-journal")
    assert Path(f"{left}-journal").stat().st_size


def test_a_book_half_brought_up_to_date_opens_as_it_was_before(path: Path, tmp_path: Path) -> None:
    old = book_of_version(tmp_path / "old", 1)
    before = dump(old)
    killed_in(old, path, "UPDATE customer SET name = 'nobody'", "PRAGMA user_version = 2")
    with pytest.raises(NotCurrent):
        find_jobs(path, "")
    assert dump(path) == before
    with opened(path) as book:
        assert book.job(1).customer.name == "Mrs Vane"


def test_a_current_book_half_written_is_read_at_a_glance(path: Path, tmp_path: Path) -> None:
    made = tmp_path / "made"
    with opened(made) as book:
        enquired(book)
    query(made, "PRAGMA journal_mode = delete")
    killed_in(made, path, "UPDATE site SET place = 'nowhere'")
    assert [job.place for job in find_jobs(path, "")] == ["Birch Lane"]


def test_a_book_half_made_is_made_again(path: Path, tmp_path: Path) -> None:
    killed_in(tmp_path / "new", path)
    assert path.stat().st_size
    assert look_at(path) is State.NEW
    with opened(path) as book:
        assert enquired(book).ref == "0001"


def test_a_foreign_database_half_written_is_left_byte_for_byte(path: Path, tmp_path: Path) -> None:
    query(tmp_path / "foreign", "CREATE TABLE diary (words TEXT)")
    killed_in(tmp_path / "foreign", path)
    beside = [path, Path(f"{path}-journal")]
    before = [each.read_bytes() for each in beside]
    with pytest.raises(NotABook):
        open_book(path)
    assert [each.read_bytes() for each in beside] == before


def test_what_is_half_written_and_may_not_be_written_is_told(tmp_path: Path) -> None:
    with as_nobody() as folder:
        old = book_of_version(folder / "old", 1)
        path = folder / "book.headlap"
        killed_in(old, path)
        path.chmod(0o400)
        with pytest.raises(CannotWrite, match="you may write in it"):
            find_jobs(path, "")


@pytest.mark.parametrize(
    ("code", "kind", "words"),
    [
        (sqlite3.SQLITE_FULL, DiskFull, "make room"),
        (sqlite3.SQLITE_IOERR_SHMSIZE, DiskFull, "make room"),
        (sqlite3.SQLITE_READONLY_ROLLBACK, CannotWrite, "may write"),
        (sqlite3.SQLITE_IOERR_ACCESS, CannotWrite, "may write"),
        (sqlite3.SQLITE_IOERR_WRITE, DiskFails, "plugged in"),
        (sqlite3.SQLITE_IOERR_FSYNC, DiskFails, "plugged in"),
        (sqlite3.SQLITE_CORRUPT_INDEX, Damaged, "restore a backup"),
        (sqlite3.SQLITE_NOTADB, Damaged, "restore a backup"),
    ],
)
def test_a_full_disk_a_permission_a_failing_disk_and_damage_are_told_apart(
    code: int, kind: type[Exception], words: str
) -> None:
    error = sqlite3.OperationalError("as SQLite says it")
    error.sqlite_errorcode = code
    told = in_words(error)
    assert type(told) is kind
    assert words in str(told)


@pytest.mark.long
def test_no_kill_leaves_a_book_that_does_not_open() -> None:
    run = subprocess.run(
        [sys.executable, "-m", "tests.torture", "4", "1"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr
