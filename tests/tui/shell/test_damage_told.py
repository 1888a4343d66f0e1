"""A book that is damaged, or gone, is told before anything is typed into it."""

import shutil
import sys
from datetime import timedelta
from io import StringIO
from pathlib import Path

import pytest

from domain.job import Stage
from storage.backups.daily import back_up
from storage.backups.names import backups_folder, backups_in, has_backups
from tests.storage.books import query
from tests.tui.books.a_job_at_a_stage import NOW, app_on, carried_to
from tests.tui.hands import Clock, Hands, app_at, said, until
from tui.shell import command_line
from tui.shell.app import make_app
from tui.shell.command_line import main


@pytest.fixture
def lost(tmp_path: Path) -> Path:
    """Where a book was, of which there is a backup."""
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    path.with_name("backups").mkdir()
    shutil.move(path, path.with_name("backups") / "book 2026-06-24 19.00.00.headlap")
    return path


async def test_damage_is_said_at_the_first_screen(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    ((root,),) = query(path, "SELECT rootpage FROM sqlite_master WHERE name = 'price'")
    ((size,),) = query(path, "PRAGMA page_size")
    with path.open("r+b") as file:
        file.seek((root - 1) * size)
        file.write(b"\xff" * 100)
    app = make_app(path)
    async with app.run_test() as pilot:
        await until(pilot, lambda: "The book is damaged" in said(app))


@pytest.mark.parametrize(("answer", "begun"), [("yes\n", True), ("y\n", False), ("", False)])
def test_a_lost_book_is_begun_again_only_by_a_yes(
    lost: Path,
    answer: str,
    begun: bool,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    opened = []
    monkeypatch.setattr(command_line, "run_app", lambda *a, **given: opened.append((a, given)))
    monkeypatch.setattr(sys, "stdin", StringIO(answer))
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    status = main(["--book", str(lost)])
    assert opened == ([((lost,), {"begin_again": True})] if begun else [])
    assert status == (0 if begun else 2)
    out = capsys.readouterr().out
    assert "there are backups of one beside it" in out
    assert "restore a backup with headlap restore" in out
    assert not lost.exists()


def test_a_lost_book_is_not_begun_again_where_nobody_can_be_asked(
    lost: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for command in ([], ["week"]):
        assert main([*command, "--book", str(lost)]) == 2
        told = capsys.readouterr().err
        assert "there are backups of one beside it" in told
        assert told.count("\n") == 1
    assert not lost.exists()


async def test_the_first_start_of_a_day_backs_up_the_book(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    for _ in range(2):
        app = app_on(path)
        async with app.run_test() as pilot:
            await Hands(pilot).comes_to_rest()
            assert said(app) == ""
    (backup,) = backups_in(backups_folder(path), path).values()
    assert query(backup, "SELECT ref FROM job") == [("0001",)]


async def test_a_book_left_open_over_midnight_is_backed_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.week.week_screen._LOOK_S", 0.05)
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    clock = Clock(NOW)
    app = app_at(path, clock)
    async with app.run_test() as pilot:
        hands = Hands(pilot)
        await hands.comes_to_rest()
        app.open_job(1)
        await hands.shows_a_job(1)
        assert len(backups_in(backups_folder(path), path)) == 1
        clock.now = NOW + timedelta(hours=5, minutes=1)
        await hands.until(lambda: len(backups_in(backups_folder(path), path)) == 2)
        await hands.comes_to_rest()
    assert next(iter(backups_in(backups_folder(path), path))) == clock.now


async def test_damage_that_only_a_backup_finds_is_said_and_leaves_the_good_ones(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    ((root,),) = query(
        path, "SELECT rootpage FROM sqlite_master WHERE name = 'site_by_customer_id'"
    )
    ((size,),) = query(path, "PRAGMA page_size")
    content = path.read_bytes()
    start, end = (root - 1) * size, root * size
    other = content[start:end].replace(b"\x03\x03\x09\x09", b"\x03\x03\x08\x09", 1)
    path.write_bytes(content[:start] + other + content[end:])
    app = app_on(path)
    async with app.run_test() as pilot:
        await until(pilot, lambda: "so no backup of it was made" in said(app))
    assert not has_backups(path)


def test_a_file_that_is_no_book_any_more_names_the_way_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    back_up(path, NOW)
    path.write_bytes(b"?" * 4096)
    assert main(["--book", str(path)]) == 2
    assert "or restore one of its backups with headlap restore." in capsys.readouterr().err
    assert main(["restore", "1", "--yes", "--book", str(path)]) == 0
    assert query(path, "SELECT ref FROM job") == [("0001",)]
