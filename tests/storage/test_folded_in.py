"""A plain copy of the file holds every save: at opening, at leaving, when nothing is done."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from storage.book import Book
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
