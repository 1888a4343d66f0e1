"""Backups: checked, whole, the owner's alone, never of a damaged book, thinned out by age."""

import os
import sqlite3
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from storage.backups import copying
from storage.backups.daily import back_up, back_up_of_the_day
from storage.backups.names import backup_name, backups_folder, backups_in, has_backups, made_at
from storage.errors import DamagedNotBackedUp, NotBackedUp
from tests.storage.books import NOW, dump, enquired, opened, query
from tests.storage.test_files import as_nobody, mode

FIRST = "book 2026-06-25 19.00.00.headlap"


def names(book: Path) -> list[str]:
    return sorted(each.name for each in backups_folder(book).iterdir())


def spoil(book: Path, table: str) -> None:
    """Have one table of a book read as something else."""
    ((root,),) = query(book, f"SELECT rootpage FROM sqlite_master WHERE name = '{table}'")  # noqa: S608
    ((size,),) = query(book, "PRAGMA page_size")
    with book.open("r+b") as file:
        file.seek((root - 1) * size)
        file.write(b"\xff" * 100)


def test_a_backup_holds_what_the_book_holds_in_one_file_for_its_owner(all_sorts: Path) -> None:
    usual = os.umask(0)
    try:
        made = back_up(all_sorts, NOW)
    finally:
        os.umask(usual)
    assert dump(made) == dump(all_sorts)
    assert query(made, "PRAGMA journal_mode") == [("delete",)]
    assert (mode(made), mode(made.parent)) == ("0o600", "0o700")
    assert names(all_sorts) == [made.name]


def test_an_open_book_is_backed_up_with_what_was_just_saved(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
        assert query(back_up(path, NOW), "SELECT ref FROM job") == [("0001",)]
        enquired(book)
        later = back_up(path, NOW)
        assert query(later, "SELECT count(*) FROM job") == [(2,)]
    assert names(path) == [FIRST, "book 2026-06-25 19.00.01.headlap"]


def test_one_is_made_a_day(three_laid: Path) -> None:
    for hours in (0, 2, 24, 28):
        back_up_of_the_day(three_laid, NOW + timedelta(hours=hours))
    assert names(three_laid) == [FIRST, "book 2026-06-26 19.00.00.headlap"]


def test_where_there_is_no_book_nothing_is_made(path: Path) -> None:
    back_up_of_the_day(path, NOW)
    assert list(path.parent.iterdir()) == []


@pytest.mark.parametrize("table", ["price", "site_by_customer_id"])
def test_a_damaged_book_is_not_backed_up_over_good_ones(three_laid: Path, table: str) -> None:
    for ago in range(30, 10, -1):
        backups_folder(three_laid).mkdir(exist_ok=True)
        (backups_folder(three_laid) / backup_name(three_laid, NOW - timedelta(ago))).touch()
    before = names(three_laid)
    spoil(three_laid, table)
    with pytest.raises(DamagedNotBackedUp, match="damaged, so no backup of it was made"):
        back_up_of_the_day(three_laid, NOW)
    assert names(three_laid) == before


def test_a_copy_with_other_rows_than_the_book_is_none(
    three_laid: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copying, "_rows_of", lambda _: {"job": 2})
    with pytest.raises(DamagedNotBackedUp):
        back_up(three_laid, NOW)
    assert names(three_laid) == []


def test_what_is_older_goes_and_what_is_no_backup_stays(three_laid: Path) -> None:
    folder = backups_folder(three_laid)
    folder.mkdir()
    kept = ["book 2026-06-24 19.00.00.headlap", "book 2026-05-31 19.00.00.headlap"]
    gone = ["book 2026-05-30 19.00.00.headlap", "book 2026-05-29 19.00.00.headlap"]
    strange = ["book two 2026-05-29 19.00.00.headlap", "book 2026-05-29.headlap", "notes.txt"]
    days = [backup_name(three_laid, NOW - timedelta(days=ago)) for ago in range(2, 25)]
    for name in (*kept, *gone, *strange, *days):
        (folder / name).touch()
    back_up_of_the_day(three_laid, NOW)
    assert {FIRST, *kept, *strange} <= set(names(three_laid))
    assert not set(gone) & set(names(three_laid))


def test_half_a_copy_is_cleared_away_once_nobody_can_be_writing_it(three_laid: Path) -> None:
    folder = backups_folder(three_laid)
    folder.mkdir()
    old, new = folder / ".headlap-old", folder / ".headlap-new"
    for half, hours in ((old, 25), (new, 23)):
        half.touch()
        os.utime(half, times=2 * ((NOW - timedelta(hours=hours)).timestamp(),))
    back_up_of_the_day(three_laid, NOW)
    assert names(three_laid) == [new.name, FIRST]


def test_a_folder_that_cannot_be_written_is_told() -> None:
    with as_nobody() as folder:
        book = folder / "book.headlap"
        with opened(book) as filled:
            enquired(filled)
        folder.chmod(0o500)
        with pytest.raises(NotBackedUp, match="backups cannot be written: Permission denied"):
            back_up(book, NOW)
        folder.chmod(0o700)


def test_a_backup_waits_for_no_writer(three_laid: Path) -> None:
    with closing(sqlite3.connect(three_laid, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("DELETE FROM snag")
        made = back_up(three_laid, NOW)
        other.execute("ROLLBACK")
    assert dump(made) == dump(three_laid)


@pytest.mark.parametrize(
    ("name", "at"),
    [
        (FIRST, NOW),
        ("book 2026-6-25 19.00.00.headlap", None),
        ("book 2026-06-31 19.00.00.headlap", None),
        ("book 2026-06-25 19.00.00.db", None),
        ("book damaged 2026-06-25 19.00.00.headlap", None),
        ("my book 2026-06-25 19.00.00.headlap", None),
        ("book.headlap", None),
    ],
)
def test_a_backup_is_known_by_its_name(path: Path, name: str, at: datetime | None) -> None:
    assert made_at(name, path) == at
    backups_folder(path).mkdir()
    (backups_folder(path) / name).touch()
    assert has_backups(path) is (at is not None)
    assert list(backups_in(backups_folder(path), path)) == ([at] if at else [])
