"""A plain copy of the file holds every save: at opening, at leaving, when nothing is done."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from storage.book import Book
from storage.bookfile import State, connect, look_at
from storage.week_and_jobs import find_jobs
from tests.storage.books import enquired, open_book, opened
from tests.storage.test_faults import no_room


def jobs_in_a_copy(path: Path) -> int:
    """Copy the one file as anybody would, and count its jobs."""
    copy = path.with_name("copy")
    shutil.copy(path, copy)
    with closing(sqlite3.connect(copy)) as connection:
        found: int = connection.execute("SELECT count(*) FROM job").fetchone()[0]
    return found


def test_a_copy_holds_what_was_saved_once_nothing_is_done(book: Book, path: Path) -> None:
    enquired(book)
    assert jobs_in_a_copy(path) == 0
    book.fold_in()
    assert jobs_in_a_copy(path) == 1
    assert not Path(f"{path}-wal").stat().st_size


def test_a_copy_holds_what_was_saved_when_the_book_is_left(book: Book, path: Path) -> None:
    with closing(open_book(path)) as other:  # SQLite itself does it for the last one alone
        enquired(other)
    assert jobs_in_a_copy(path) == 1


def test_a_copy_holds_what_a_killed_program_saved_once_the_book_is_opened(
    three_laid: Path, tmp_path: Path
) -> None:
    left = tmp_path / "left"
    with opened(three_laid) as book:
        enquired(book)
        for beside in ("", "-wal"):  # what a kill leaves; the -shm goes with the last program
            shutil.copy(f"{three_laid}{beside}", f"{left}{beside}")
    assert jobs_in_a_copy(left) == 3
    with opened(left):
        assert jobs_in_a_copy(left) == 4


def test_a_reader_is_not_waited_for_and_it_is_done_the_next_time(book: Book, path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT * FROM job").fetchall()
        enquired(book)
        book.fold_in()
        enquired(book)
        reader.execute("ROLLBACK")
    book.fold_in()
    assert jobs_in_a_copy(path) == 2


def test_a_disk_that_refuses_costs_no_save(book: Book, path: Path) -> None:
    enquired(book)
    with no_room(1000):
        book.fold_in()
    assert len(find_jobs(path, "")) == 1
    book.fold_in()
    assert jobs_in_a_copy(path) == 1


@pytest.mark.parametrize("times", [1, 2])
def test_a_book_that_was_left_is_not_opened_again_by_it(path: Path, times: int) -> None:
    book = open_book(path)
    for _ in range(times):
        book.close()
    book.fold_in()
    assert [each.name for each in path.parent.iterdir()] == [path.name]


def test_a_book_that_is_folded_in_up_to_where_somebody_reads_is_not_called_damaged(
    book: Book, path: Path
) -> None:
    """The page that the file grew by is written again, so that it stays beside the file."""
    enquired(book, "Mill Row")
    book.fold_in()
    with closing(connect(path)) as writer, closing(connect(path)) as reader:
        writer.execute("CREATE TABLE grown (words TEXT)")
        writer.execute("INSERT INTO grown VALUES ('before')")
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM job").fetchone()
        writer.execute("UPDATE grown SET words = 'after'")
        writer.execute("PRAGMA wal_checkpoint(PASSIVE)")
        (pages,) = writer.execute("PRAGMA page_count").fetchone()
        (size,) = writer.execute("PRAGMA page_size").fetchone()
        assert path.stat().st_size < pages * size  # what it takes for this to be seen at all
        assert look_at(path) is State.CURRENT
        assert [line.place for line in find_jobs(path, "")] == ["Mill Row"]
