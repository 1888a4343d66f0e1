"""A damaged book is told as one, in a sentence, and is never written to."""

import os
import random
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from domain.errors import HeadlapError
from storage.book import Book
from storage.errors import Damaged, NoBook
from storage.soundness import is_sound
from storage.week_and_jobs import find_jobs, read_week
from tests import builders
from tests.examples import share
from tests.storage.books import NOW, enquired, open_book, opened, query, undo

SHORTER = (0.0, 0.001, 0.1, 0.5, 0.9, 0.999)
"""Parts of the book that are left."""

FLIPPED = range(share(40))


@pytest.fixture(scope="module")
def whole(all_sorts: Path) -> bytes:
    return all_sorts.read_bytes()


def live_through(path: Path) -> tuple[list[HeadlapError], bool]:
    """Look at all there is, then save; the sentences that were said, and whether it was saved."""
    said: list[HeadlapError] = []

    def attempt(what: Callable[[], object]) -> bool:
        try:
            what()
        except HeadlapError as error:
            said.append(error)
            return False
        return True

    for look in (
        lambda: read_week(path, NOW.date()),
        lambda: list(find_jobs(path, "green")),
    ):
        attempt(look)
    books: list[Book] = []
    if not attempt(lambda: books.append(open_book(path))):
        return said, False
    with closing(books[0]) as book:
        for job_id in range(1, 20):
            attempt(lambda job_id=job_id: book.job(job_id))  # type: ignore[misc]
        attempt(book.trader)
        attempt(book.prices)
        attempt(book.stock)
        attempt(book.reservations)
        attempt(book.recent)
        saved = [attempt(lambda: enquired(book)), attempt(lambda: undo(book, 1))]
    return said, any(saved)


@pytest.mark.parametrize("part", SHORTER)
def test_a_book_cut_short_is_not_saved_to(path: Path, whole: bytes, part: float) -> None:
    path.parent.joinpath("backups").mkdir()
    path.parent.joinpath("backups", "book 2026-06-24 19.00.00.headlap").touch()
    path.write_bytes(whole[: int(len(whole) * part)])
    before = path.read_bytes()
    said, saved = live_through(path)
    assert said
    assert not saved
    assert path.read_bytes() == before


@pytest.mark.parametrize("seed", FLIPPED)
def test_a_book_with_flipped_bytes_is_not_saved_to_once_that_is_found(
    path: Path, whole: bytes, seed: int
) -> None:
    chance = random.Random(seed)  # noqa: S311 -- chance that can be repeated
    content = bytearray(whole)
    for _ in range(chance.choice((1, 4, 64))):
        content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
    path.write_bytes(content)
    found = path.read_bytes()
    said, saved = live_through(path)
    damaged = any(isinstance(each, Damaged) for each in said)
    if damaged:
        assert not saved
        assert path.read_bytes() == found
    if saved:
        assert is_sound(path, "quick_check")


def test_damage_met_while_reading_stops_every_later_save(three_laid: Path) -> None:
    with opened(three_laid) as book:
        book.demand_sound()
        first = book.job(1)
        with closing(sqlite3.connect(three_laid, isolation_level=None)) as other:
            other.execute("PRAGMA ignore_check_constraints = ON")
            other.execute("UPDATE job SET received_on = 'in spring' WHERE id = 2")
        with pytest.raises(Damaged):
            book.job(2)
        with pytest.raises(Damaged, match="Nothing was saved"):
            book.save_survey(first, builders.survey())
    assert query(three_laid, "SELECT version FROM job WHERE id = 1") == [(first.version,)]


def test_a_book_is_looked_through_before_its_first_save(three_laid: Path) -> None:
    ((root,),) = query(three_laid, "SELECT rootpage FROM sqlite_master WHERE name = 'snag'")
    ((size,),) = query(three_laid, "PRAGMA page_size")
    with three_laid.open("r+b") as file:
        file.seek((root - 1) * size)
        file.write(b"\xff" * 100)
    with opened(three_laid) as book:
        with pytest.raises(Damaged):
            enquired(book)
        with pytest.raises(Damaged):
            book.demand_sound()


def test_a_text_that_is_no_text_is_damage(three_laid: Path) -> None:
    query(three_laid, "UPDATE customer SET name = CAST(x'ff' AS TEXT) WHERE id = 1")
    with opened(three_laid) as book, pytest.raises(Damaged):
        book.job(1)
    with pytest.raises(Damaged):
        list(find_jobs(three_laid, ""))


def test_a_book_without_one_of_its_tables_is_damaged(three_laid: Path) -> None:
    query(three_laid, "DROP TABLE price")
    with opened(three_laid) as book, pytest.raises(Damaged):
        book.prices()


def test_a_book_of_a_step_that_never_was_is_damaged(path: Path) -> None:
    open_book(path).close()
    query(path, "UPDATE alembic_version SET version_num = 'abcd'")
    query(path, "PRAGMA user_version = 1")
    with pytest.raises(Damaged):
        open_book(path)


@pytest.mark.parametrize("missing", [os.remove, lambda path: os.truncate(path, 0)])
def test_a_book_missing_beside_its_backups_is_not_begun_again_unasked(
    three_laid: Path, missing: Callable[[Path], None]
) -> None:
    backup = three_laid.parent / "backups" / "book 2026-06-24 19.00.00.headlap"
    backup.parent.mkdir()
    shutil.copy(three_laid, backup)
    missing(three_laid)
    with pytest.raises(NoBook, match="there are backups of one beside it"):
        open_book(three_laid)
    assert not three_laid.exists() or not three_laid.stat().st_size
    with closing(Book.open(three_laid, lambda: NOW, begin_again=True)) as book:
        assert enquired(book).ref == "0001"


def test_backups_of_another_book_ask_nothing(path: Path) -> None:
    path.parent.joinpath("backups").mkdir()
    path.parent.joinpath("backups", "other 2026-06-24 19.00.00.headlap").touch()
    with opened(path) as book:
        assert enquired(book).ref == "0001"
