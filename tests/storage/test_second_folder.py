"""The second folder of backups: copied to when it is there, no error when it is not."""

from datetime import timedelta
from pathlib import Path

import pytest

from storage.backups.daily import back_up
from storage.backups.names import backup_name, backups_folder
from storage.backups.second import can_be_reached, copy_to_second, second_backup_on
from storage.week_and_jobs import read_week
from tests.storage.books import NOW, dump, opened
from tests.storage.test_backups import FIRST
from tests.storage.test_files import as_nobody, mode

TODAY = NOW.date()


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    folder = tmp_path / "a stick"
    folder.mkdir()
    return folder


def test_the_newest_backup_is_copied_there_once(three_laid: Path, stick: Path) -> None:
    back_up(three_laid, NOW - timedelta(days=1))
    back_up(three_laid, NOW)
    for _ in range(2):
        assert copy_to_second(three_laid, str(stick), NOW)
    assert [each.name for each in stick.iterdir()] == [FIRST]
    assert dump(stick / FIRST) == dump(three_laid)
    assert mode(stick / FIRST) == "0o600"
    assert second_backup_on(three_laid, str(stick)) == TODAY


def test_a_stick_that_is_out_is_no_error_and_is_known_since_when(
    three_laid: Path, stick: Path
) -> None:
    back_up(three_laid, NOW)
    folder = str(stick)
    assert copy_to_second(three_laid, folder, NOW)
    stick.rename(stick.with_name("elsewhere"))
    assert not copy_to_second(three_laid, folder, NOW + timedelta(days=4))
    assert not stick.exists()
    assert second_backup_on(three_laid, folder) == TODAY


def test_a_folder_that_never_was_there_is_known_from_the_first_try(three_laid: Path) -> None:
    back_up(three_laid, NOW)
    assert second_backup_on(three_laid, "/nowhere/stick") is None
    for days in (0, 3):
        assert not copy_to_second(three_laid, "/nowhere/stick", NOW + timedelta(days=days))
    assert second_backup_on(three_laid, "/nowhere/stick") == TODAY
    assert second_backup_on(three_laid, "/nowhere/else") is None


def test_a_file_of_that_name_with_other_things_in_it_is_no_copy(
    three_laid: Path, stick: Path
) -> None:
    back_up(three_laid, NOW)
    (stick / FIRST).write_text("half", encoding="utf-8")
    assert not copy_to_second(three_laid, str(stick), NOW)


def test_the_second_folder_is_thinned_out_too(three_laid: Path, stick: Path) -> None:
    for ago in range(1, 60):
        (stick / backup_name(three_laid, NOW - timedelta(days=ago))).touch()
    (stick / "family.jpg").touch()
    back_up(three_laid, NOW)
    copy_to_second(three_laid, str(stick), NOW)
    left = {each.name for each in stick.iterdir()}
    assert {FIRST, "family.jpg"} < left
    assert len(left) < 15


def test_the_folder_of_the_first_backups_is_no_second(three_laid: Path) -> None:
    back_up(three_laid, NOW)
    assert not can_be_reached(str(backups_folder(three_laid)), three_laid)
    assert can_be_reached(str(three_laid.parent), three_laid)
    assert not can_be_reached("~nobody-of-that-name/backups", three_laid)


def test_a_folder_that_cannot_be_written_is_no_error() -> None:
    with as_nobody() as folder:
        book, stick = folder / "book.headlap", folder / "stick"
        opened(book).__enter__().close()
        back_up(book, NOW)
        stick.mkdir(mode=0o500)
        assert not copy_to_second(book, str(stick), NOW)


@pytest.mark.parametrize("written", ["", "2026-13-01 /stick", "\udcff", "2026-06-25"])
def test_a_note_that_is_none_is_as_if_nothing_was_tried(three_laid: Path, written: str) -> None:
    back_up(three_laid, NOW)
    copy_to_second(three_laid, "/stick", NOW)
    (note,) = backups_folder(three_laid).glob("*.txt")
    note.write_bytes(written.encode("utf-8", "surrogateescape"))
    assert second_backup_on(three_laid, "/stick") is None


def test_the_week_knows_of_it(three_laid: Path) -> None:
    with opened(three_laid) as book:
        folder = book.trader().backup_folder
    back_up(three_laid, NOW)
    copy_to_second(three_laid, folder, NOW)
    assert read_week(three_laid, TODAY + timedelta(days=5)).second_backup_on == TODAY
