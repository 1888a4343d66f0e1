"""Nothing is saved into a file that is no longer the book that was opened."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from storage.book import Book
from storage.bookfile import connect
from storage.errors import Gone
from storage.week_and_jobs import find_jobs
from tests.storage.books import NOW, dump, enquired, open_book, opened, query, undo


def moved(path: Path) -> None:
    path.rename(path.with_name("elsewhere"))


def deleted(path: Path) -> None:
    path.unlink()


def replaced(path: Path) -> None:
    """As most programs save a file: a new one takes the place of the old."""
    shutil.copy(path, path.with_name("new"))
    path.with_name("new").replace(path)


def another_copied_over_it(path: Path) -> None:
    tomorrow = NOW + timedelta(days=1)
    with closing(Book.open(path.with_name("another"), lambda: tomorrow)) as other:
        enquired(other, "Nowhere")
        enquired(other, "Nowhere Else")
    shutil.copyfile(path.with_name("another"), path)


def an_older_copy_over_it(path: Path) -> None:
    shutil.copyfile(path.with_name("older"), path)


def emptied(path: Path) -> None:
    os.truncate(path, 0)


def cut_short(path: Path) -> None:
    os.truncate(path, 4096)


def a_letter_over_it(path: Path) -> None:
    path.write_text("Dear Mrs Adeyemi")


HAPPENED = (
    moved,
    deleted,
    replaced,
    another_copied_over_it,
    an_older_copy_over_it,
    emptied,
    cut_short,
    a_letter_over_it,
)


@pytest.mark.parametrize("happened", HAPPENED)
@pytest.mark.parametrize("folded", [True, False], ids=["folded in", "just saved"])
def test_a_save_is_refused_and_the_file_left_as_it_is(
    path: Path, happened: Callable[[Path], None], folded: bool
) -> None:
    with opened(path) as book:
        shutil.copy(path, path.with_name("older"))
        enquired(book)
    with opened(path) as book:
        job = enquired(book)
        if folded:
            book.fold_in()
        happened(path)
        before = path.read_bytes() if path.exists() else None
        for _ in range(2):
            with pytest.raises(Gone, match=r"book\.headlap was moved, deleted or replaced") as said:
                enquired(book)
        assert f"put it back into {path.parent} and save again" in str(said.value)
        assert (path.read_bytes() if path.exists() else None) == before
        with pytest.raises(Gone):
            undo(book, job.id or 0)
        assert book.job(job.id or 0) == job or happened is cut_short


@pytest.mark.parametrize("saves", [0, 1])
@pytest.mark.parametrize("others", [1, 60], ids=["a small one", "a longer one"])
def test_a_new_book_leaves_another_that_is_copied_over_it_whole(
    path: Path, saves: int, others: int
) -> None:
    tomorrow = NOW + timedelta(days=1)
    with closing(Book.open(path.with_name("another"), lambda: tomorrow)) as other:
        for _ in range(others):
            enquired(other, "Nowhere")
    with opened(path) as book:
        for _ in range(saves):
            enquired(book)
        shutil.copyfile(path.with_name("another"), path)
        with pytest.raises(Gone):
            enquired(book)
    assert dump(path) == dump(path.with_name("another"))
    assert query(path, "PRAGMA integrity_check") == [("ok",)]


def test_what_another_window_folds_into_a_new_book_is_no_other_file(path: Path) -> None:
    with opened(path) as book:
        with closing(open_book(path)) as other:
            enquired(other)
        enquired(book)
        with closing(open_book(path)) as other:
            enquired(other)
        assert enquired(book).ref == "0004"


def test_what_was_moved_holds_all_that_was_saved_and_can_be_put_back(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
        moved(path)
        with pytest.raises(Gone):
            enquired(book)
        elsewhere = path.with_name("elsewhere")
        copy = path.with_name("copy")
        shutil.copy(elsewhere, copy)
        assert query(copy, "SELECT count(*) FROM job") == [(1,)]
        elsewhere.rename(path)
        assert enquired(book).ref == "0002"
    assert len(find_jobs(path, "")) == 2


def test_saves_deleted_from_beside_it_are_written_into_it_again(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
        Path(f"{path}-wal").unlink()
        with pytest.raises(Gone):
            enquired(book)
    with opened(path) as book:
        assert enquired(book).ref == "0002"


def test_what_took_its_place_gets_nothing_of_the_other(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
        with opened(path.with_name("new")) as new:
            enquired(new, "The Green")
        path.with_name("new").replace(path)
        with pytest.raises(Gone):
            enquired(book)
    assert query(path, "SELECT place FROM site") == [("The Green",)]
    assert query(path, "PRAGMA integrity_check") == [("ok",)]


def test_what_another_window_folds_in_is_no_other_file(book: Book, path: Path) -> None:
    for _ in range(3):
        with closing(open_book(path)) as other:
            enquired(other)
            other.fold_in()
        enquired(book)
    assert len(find_jobs(path, "")) == 6


def test_a_book_opened_while_another_program_made_it_is_its_own(path: Path) -> None:
    open_book(path).close()
    query(path, "PRAGMA journal_mode = delete")
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")  # so that its way of journalling stays for now
        with opened(path) as book:
            other.execute("COMMIT")
            other.execute("PRAGMA journal_mode = wal")
            assert enquired(book).ref == "0001"
            assert enquired(book).ref == "0002"
    assert len(dump(path)["job"]) == 2


def test_what_another_program_could_fold_in_only_in_part_is_no_other_file(
    book: Book, path: Path
) -> None:
    """Somebody reads meanwhile: the file alone is then a page short of what it says."""
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
        enquired(book, "Birch Lane")
    enquired(book, "The Green")
    book.close()
    assert [line.place for line in find_jobs(path, "")] == ["The Green", "Birch Lane", "Mill Row"]
