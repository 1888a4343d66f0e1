"""The file of the book: made private, recognised, and left alone where it is none of ours."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from storage.bookfile import APPLICATION_ID, SCHEMA
from storage.errors import CannotWrite, Damaged, NewerBook, NotABook, NotCurrent
from storage.week_and_jobs import find_jobs
from tests.storage.books import enquired, open_book, opened, query

NOBODY = 65534


def mode(path: Path) -> str:
    """Who may read and write."""
    return oct(path.stat().st_mode & 0o777)


def refuse(path: Path, kind: type[Exception]) -> str:
    """Have a file refused for writing and for reading, untouched; returns the sentence."""
    before = {each: each.read_bytes() for each in path.parent.iterdir() if each.is_file()}
    stat = path.stat()
    with pytest.raises(kind) as refused:
        open_book(path)
    with pytest.raises(kind):
        find_jobs(path, "")
    after = {each: each.read_bytes() for each in path.parent.iterdir() if each.is_file()}
    assert after == before
    assert (path.stat().st_mode, path.stat().st_mtime_ns) == (stat.st_mode, stat.st_mtime_ns)
    return str(refused.value)


@contextmanager
def as_nobody() -> Iterator[Path]:
    """A folder of one whom the machine refuses things: it refuses its administrator nothing."""
    with tempfile.TemporaryDirectory() as folder:
        if os.geteuid():
            yield Path(folder)
            return
        os.chown(folder, NOBODY, NOBODY)
        os.seteuid(NOBODY)
        try:
            yield Path(folder)
        finally:
            os.seteuid(0)


def test_a_new_book_is_its_owners_alone(tmp_path: Path) -> None:
    path = tmp_path / "made for it" / "book.headlap"
    usual = os.umask(0)
    try:
        with opened(path) as book:
            enquired(book)
            beside = sorted(path.parent.iterdir())
            assert [each.name for each in beside] == [
                "book.headlap",
                "book.headlap-shm",
                "book.headlap-wal",
            ]
            assert {mode(each) for each in beside} == {"0o600"}
            assert mode(path.parent) == "0o700"
    finally:
        os.umask(usual)


def test_a_book_that_others_could_read_is_closed_to_them(path: Path) -> None:
    open_book(path).close()
    path.chmod(0o644)
    path.parent.chmod(0o755)
    open_book(path).close()
    assert mode(path) == "0o600"
    assert mode(path.parent) == "0o755"  # it may hold other things


def test_a_new_book_says_what_it_is(path: Path) -> None:
    open_book(path).close()
    assert query(path, "PRAGMA application_id") == [(APPLICATION_ID,)]
    assert query(path, "PRAGMA user_version") == [(SCHEMA,)]
    assert query(path, "PRAGMA journal_mode") == [("wal",)]
    assert query(path, "PRAGMA integrity_check") == [("ok",)]
    assert query(path, "PRAGMA foreign_key_check") == []


def test_an_empty_file_becomes_a_book(path: Path) -> None:
    path.touch(mode=0o644)
    with opened(path) as book:
        assert enquired(book).ref == "0001"
    assert mode(path) == "0o600"


def test_what_is_not_there_cannot_be_read_and_is_not_made_by_reading(path: Path) -> None:
    with pytest.raises(NotCurrent, match=r"book\.headlap has to be opened"):
        find_jobs(path, "")
    assert not path.exists()


@pytest.mark.parametrize(
    "content",
    [b"Dear Mrs Adeyemi,\n", b"\0", b"SQLite format 3\0", b"SQLite format 3\0" + bytes(200)],
    ids=["a letter", "a byte", "half a header", "an empty header"],
)
def test_a_foreign_file_is_left_byte_for_byte(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    assert refuse(path, NotABook) == (
        "book.headlap is not a Headlap book. It was left as it is: name another file."
    )


@pytest.mark.parametrize("journal", ["delete", "wal"])
def test_a_foreign_database_is_left_byte_for_byte(path: Path, journal: str) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA journal_mode = {journal}")
        connection.execute("CREATE TABLE job (id INTEGER PRIMARY KEY, words TEXT)")
        connection.execute("PRAGMA user_version = 1")
        # Open all the while: what is beside a file in use is left alone as well.
        assert "is not a Headlap book" in refuse(path, NotABook)


def test_a_folder_is_no_book(path: Path) -> None:
    path.mkdir()
    assert "is not a Headlap book" in refuse(path, NotABook)


def test_a_pipe_is_no_book_and_is_not_waited_on(path: Path) -> None:
    os.mkfifo(path)
    assert "is not a Headlap book" in refuse(path, NotABook)


def test_a_newer_book_is_left_byte_for_byte(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
    query(path, f"PRAGMA user_version = {SCHEMA + 1}")
    assert "was written by a newer Headlap" in refuse(path, NewerBook)


def test_a_damaged_book_is_told_as_such(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
    content = path.read_bytes()
    path.write_bytes(content[:100] + bytes(len(content) - 100))
    with pytest.raises(Damaged, match="restore a backup, from the list of backups"):
        open_book(path)


def test_a_cell_that_no_value_was_written_as_is_told_as_damage(path: Path) -> None:
    with opened(path) as book:
        job = enquired(book)
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("PRAGMA ignore_check_constraints = ON")
            connection.execute("UPDATE job SET received_on = 'in spring'")
        with pytest.raises(Damaged):
            book.job(job.id or 0)


def test_a_folder_that_is_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(CannotWrite, match="check that its folder exists"):
        open_book(tmp_path / "file" / "book.headlap")


def test_a_file_that_cannot_be_written_is_told_and_stays() -> None:
    with as_nobody() as folder:
        path = folder / "book.headlap"
        with opened(path) as book:
            enquired(book)
        before = path.read_bytes()
        path.chmod(0o400)
        with pytest.raises(CannotWrite, match="cannot be opened for writing"):
            open_book(path)
        assert path.read_bytes() == before
        assert mode(path) == "0o400"
        path.chmod(0o600)
        with opened(path) as book:
            assert enquired(book).ref == "0002"


def test_a_folder_that_cannot_be_written_is_told_and_stays() -> None:
    with as_nobody() as folder:
        folder.chmod(0o500)
        with pytest.raises(CannotWrite):
            open_book(folder / "book.headlap")
        with pytest.raises(CannotWrite):
            open_book(folder / "new" / "book.headlap")
        assert list(folder.iterdir()) == []
        folder.chmod(0o700)


def test_a_file_that_cannot_be_read_is_told() -> None:
    with as_nobody() as folder:
        path = folder / "book.headlap"
        open_book(path).close()
        path.chmod(0o000)
        with pytest.raises(CannotWrite):
            open_book(path)
        with pytest.raises(CannotWrite):
            find_jobs(path, "")
