"""A book that is kept open to be read: never anything but what a reading afresh would find."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from pathlib import Path

import pytest

from domain.errors import HeadlapError
from storage import reading
from storage.book import Book
from storage.bookfile import open_current
from storage.errors import NewerBook
from storage.reading import keep_open, let_go
from storage.week_and_jobs import find_jobs, read_week
from tests.storage.books import NOW, enquired, open_book, opened
from tests.storage.test_same_file import HAPPENED


@pytest.fixture
def kept(book: Book, path: Path) -> Iterator[Book]:
    """The book of the path, open and kept open to be read."""
    enquired(book)
    keep_open(path)
    assert found(path) == ["Birch Lane"]
    yield book
    let_go(path)


@pytest.fixture
def times_opened(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    times = list[Path]()

    def noted(path: Path) -> sqlite3.Connection:
        times.append(path)
        return open_current(path)

    monkeypatch.setattr(reading, "open_current", noted)
    return times


def found(path: Path) -> object:
    """The places of all jobs, or what is said instead."""
    try:
        return [line.place for line in find_jobs(path, "")]
    except HeadlapError as error:
        return str(error)


def test_it_is_opened_once(kept: Book, path: Path, times_opened: list[Path]) -> None:
    for _ in range(3):
        find_jobs(path, "")
        read_week(path, NOW.date())
    assert times_opened == []


def test_every_save_is_read_whoever_made_it(
    kept: Book, path: Path, times_opened: list[Path]
) -> None:
    enquired(kept, "Mill Row")
    assert found(path) == ["Mill Row", "Birch Lane"]
    with closing(open_book(path)) as other:
        enquired(other, "Quarry Lane")
        assert times_opened == []
        assert found(path) == ["Quarry Lane", "Mill Row", "Birch Lane"]


@pytest.mark.parametrize("happened", HAPPENED)
@pytest.mark.parametrize("folded", [True, False], ids=["folded in", "just saved"])
def test_what_happens_to_the_file_is_seen(
    kept: Book, path: Path, happened: Callable[[Path], None], folded: bool
) -> None:
    with opened(path.with_name("older")) as older:
        enquired(older, "The Green")
    if folded:
        kept.fold_in()
    before = found(path)
    happened(path)
    seen = found(path)
    let_go(path)
    assert seen == found(path)
    assert seen != before or happened.__name__ == "replaced" or not folded


def test_a_newer_version_of_the_book_is_seen(kept: Book, path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA user_version = 999")
    with pytest.raises(NewerBook):
        find_jobs(path, "")


def test_saves_are_folded_in_meanwhile(kept: Book, path: Path) -> None:
    log = Path(f"{path}-wal")
    enquired(kept)
    read_week(path, NOW.date())
    assert log.stat().st_size
    kept.fold_in()
    assert not log.stat().st_size


def test_nothing_is_left_beside_the_book(kept: Book, path: Path) -> None:
    let_go(path)
    kept.close()
    assert not Path(f"{path}-wal").exists()


def test_two_readings_at_once_have_a_connection_each(kept: Book, path: Path) -> None:
    with reading.reading(path) as one, reading.reading(path) as another:
        assert one is not another
        assert one.execute("SELECT count(*) FROM job").fetchone()[0] == 1
        assert another.execute("SELECT count(*) FROM job").fetchone()[0] == 1


def test_a_reading_that_failed_leaves_none_open(
    kept: Book, path: Path, times_opened: list[Path]
) -> None:
    with suppress(HeadlapError), reading.reading(path) as connection:
        connection.execute("SELECT * FROM nothing")
    assert found(path) == ["Birch Lane"]
    assert times_opened == [path]
