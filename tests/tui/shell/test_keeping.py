"""Backing up, checking, restoring and exporting from the command line, and its questions."""

import shutil
import sys
from collections.abc import Callable
from dataclasses import replace
from io import StringIO
from pathlib import Path

import pytest
from sqlmodel import SQLModel

from domain.job import Stage
from storage.backups.names import backups_folder, backups_in
from tests.storage.books import opened, query
from tests.storage.test_backups import spoil
from tests.tui.books.a_job_at_a_stage import carried_to
from tui.shell.command_line import main

Run = Callable[..., tuple[int, list[str], str]]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A book whose one job is signed off and invoiced."""
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    return path


@pytest.fixture
def run(path: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line on the book; gives status, lines printed, and what went to stderr."""

    def run(*arguments: str) -> tuple[int, list[str], str]:
        status = main([*arguments, "--book", str(path)])
        out, complaint = capsys.readouterr()
        return status, out.splitlines(), complaint

    return run


def _answering(monkeypatch: pytest.MonkeyPatch, *answers: str) -> None:
    """Sit somebody down at a terminal."""
    monkeypatch.setattr(sys, "stdin", StringIO("".join(f"{each}\n" for each in answers)))
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)


def _backups(path: Path) -> list[Path]:
    return list(backups_in(backups_folder(path), path).values())


def _another_job(path: Path) -> None:
    query(path, "INSERT INTO site SELECT id + 1, customer_id, 'Mill Row', '', '', '', 1 FROM site")


def test_a_backup_is_made_now(path: Path, run: Run, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    status, printed, complaint = run("backup", "--to", str(stick))
    (copy,) = stick.iterdir()
    assert (status, printed, complaint) == (0, [f"Backed up as {copy}"], "")
    assert _backups(path) == []
    with opened(path) as book:
        stick = tmp_path / "other stick"  # one name a second: the first copy may have this one's
        stick.mkdir()
        book.save_trader(replace(book.trader(), backup_folder=str(stick)))
    status, printed, _ = run("backup")
    (backup,) = _backups(path)
    assert (status, printed) == (0, [f"Backed up as {backup}", f"Copied to {stick}"])
    assert (stick / backup.name).read_bytes() == backup.read_bytes()
    shutil.rmtree(stick)
    assert run("backup")[1][1].startswith(f"Not copied to {stick}: it is not there")


def test_a_folder_that_is_not_there_is_refused(run: Run, tmp_path: Path) -> None:
    status, printed, complaint = run("backup", "--to", str(tmp_path / "stick"))
    assert (status, printed) == (2, [])
    assert "There is no such folder" in complaint


def test_a_sound_book_is_said_to_be_so(run: Run) -> None:
    status, printed, complaint = run("check")
    assert (status, complaint) == (0, "")
    assert printed[0].split() == ["1", "job"]
    assert printed[-1] == "Nothing is wrong."


def test_a_damaged_book_is_told_and_ends_with_1(path: Path, run: Run) -> None:
    spoil(path, "site_by_customer_id")
    status, printed, _ = run("check")
    assert (status, printed[-1]) == (
        1,
        "The file is damaged: restore a backup with headlap restore.",
    )
    status, _, complaint = run("backup")
    assert status == 2
    assert "so no backup of it was made" in complaint


def test_the_backups_are_listed_the_newest_first_with_what_they_hold(path: Path, run: Run) -> None:
    assert run("restore")[1] == [f"There are no backups of {path} yet."]
    run("backup")
    run("backup")
    _backups(path)[1].write_text("half a file", encoding="utf-8")
    status, printed, complaint = run("restore")
    newer, older = _backups(path)
    assert (status, complaint) == (0, "")
    assert printed[0].startswith(f"  1  {newer.name}  1 job, last invoice INV-1, last change ")
    assert printed[1] == f"  2  {older.name}  cannot be read"


def test_a_backup_is_restored_after_a_yes(
    path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    run("backup")
    _another_job(path)
    _answering(monkeypatch, "1", "yes")
    status, printed, complaint = run("restore")
    assert (status, complaint) == (0, "")
    assert printed[2].startswith("In its place now: ")
    assert printed[3] == "Nothing would be lost: nothing was saved since."
    newest, oldest = _backups(path)
    assert printed[-2].endswith(f"Restored {oldest.name} as {path}")
    assert printed[-1] == f"The book that was there is kept as {newest}"
    assert query(path, "SELECT count(*) FROM site") == [(1,)]
    assert query(newest, "SELECT count(*) FROM site") == [(2,)]


@pytest.mark.parametrize("answers", [("1", "y"), ("1", ""), ("1",), ("",), ()])
def test_without_a_yes_nothing_is_restored(
    path: Path, run: Run, answers: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    run("backup")
    _another_job(path)
    _answering(monkeypatch, *answers)
    assert run("restore")[0] == 0
    assert query(path, "SELECT count(*) FROM site") == [(2,)]
    assert len(_backups(path)) == 1


def test_where_nobody_can_be_asked_it_is_refused_unless_it_is_told_to(path: Path, run: Run) -> None:
    run("backup")
    _another_job(path)
    for arguments, words in (
        (("restore", "1"), "Nobody is there to be asked: add --yes"),
        (("restore", "--yes"), "Name the backup to restore"),
        (("restore", "2", "--yes"), "Give a number from 1 to 1."),
        (("restore", "99999999999999999999", "--yes"), "Give a number from 1 to 1."),
        (("restore", "nothing.db", "--yes"), "There is no backup there"),
    ):
        status, printed, complaint = run(*arguments)
        assert (status, printed) == (2, [])
        assert words in complaint
    assert query(path, "SELECT count(*) FROM site") == [(2,)]
    assert run("restore", "1", "--yes")[0] == 0
    assert query(path, "SELECT count(*) FROM site") == [(1,)]


def test_a_lost_book_is_restored_from_a_file(path: Path, run: Run, tmp_path: Path) -> None:
    run("backup")
    (backup,) = _backups(path)
    path.unlink()
    status, printed, _ = run("restore", str(backup), "--yes")
    assert (status, printed) == (0, [f"Restored {backup.name} as {path}"])
    assert query(path, "SELECT ref FROM job") == [("0001",)]


def test_every_table_is_exported_once(path: Path, run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "for the accountant"
    count = len(SQLModel.metadata.tables)
    assert run("export", str(folder)) == (0, [f"{count} tables saved in {folder}"], "")
    assert {each.stem for each in folder.iterdir()} == set(SQLModel.metadata.tables)
    before = {each: each.read_bytes() for each in folder.iterdir()}
    status, _, complaint = run("export", str(folder))
    assert status == 2
    assert "is in it already: name another folder" in complaint
    assert {each: each.read_bytes() for each in folder.iterdir()} == before
    status, _, complaint = run("export", str(path))
    assert status == 2
    assert "It cannot be made" in complaint
