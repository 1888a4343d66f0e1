"""The demo's book that is kept for the day: whole or not at all, and never an old one."""

import os
import shutil
import sqlite3
import sys
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from demo_data.kept import fetch, keep, keeping_place, kept_name, open_demo

NOW = datetime(2026, 11, 25, 19, 30)
Laid = list[Path]


@pytest.fixture
def laid(monkeypatch: pytest.MonkeyPatch) -> Laid:
    """Stands in for laying out: writes a small book, and lists where."""
    books: Laid = []

    def lay_out(path: Path, *_: object) -> None:
        books.append(path)
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("CREATE TABLE whole (word TEXT)")

    monkeypatch.setattr("demo_data.layout.lay_out_book", lay_out)
    return books


def _tables(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return [name for (name,) in connection.execute("SELECT name FROM sqlite_master")]


def test_the_second_call_of_a_day_copies_what_the_first_laid_out(
    laid: Laid, tmp_path: Path
) -> None:
    first, second, place = tmp_path / "1.db", tmp_path / "2.db", tmp_path / "kept"
    open_demo(first, NOW, place)
    open_demo(second, NOW + timedelta(hours=2), place)
    assert laid == [first]
    assert first.read_bytes() == second.read_bytes()


def test_another_day_lays_it_out_again_and_keeps_only_that(laid: Laid, tmp_path: Path) -> None:
    first, second, place = tmp_path / "1.db", tmp_path / "2.db", tmp_path / "kept"
    open_demo(first, NOW, place)
    open_demo(second, NOW + timedelta(days=1), place)
    assert laid == [first, second]
    assert [path.name for path in place.iterdir()] == [kept_name((NOW + timedelta(days=1)).date())]


def test_without_a_place_nothing_is_kept(laid: Laid, tmp_path: Path) -> None:
    book = tmp_path / "1.db"
    open_demo(book, NOW, None)
    assert list(tmp_path.iterdir()) == laid == [book]


@pytest.mark.parametrize(
    "name", ["demo_data/scenario.toml", "domain/job/on_site.py", "storage/a.py"]
)
def test_a_changed_source_gives_another_name(tmp_path: Path, name: str) -> None:
    source = tmp_path / name
    source.parent.mkdir(parents=True)
    source.write_text("a", encoding="utf-8")
    before = kept_name(NOW.date(), tmp_path)
    assert kept_name(NOW.date(), tmp_path) == before
    os.utime(source, ns=(1, 1))
    assert kept_name(NOW.date(), tmp_path) != before


@pytest.mark.parametrize(
    ("prefix", "kept"),
    [("checkout/.venv", True), ("elsewhere/.venv", False), ("checkout", False)],
)
def test_a_book_is_kept_only_in_an_environment_inside_the_checkout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, prefix: str, kept: bool
) -> None:
    monkeypatch.setattr(sys, "prefix", str(tmp_path / prefix))
    place = tmp_path.resolve() / prefix / "share" / "headlap"
    assert keeping_place(tmp_path.resolve() / "checkout") == (place if kept else None)


def test_a_python_of_the_machine_keeps_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "prefix", str(tmp_path / "usr"))
    monkeypatch.setattr(sys, "base_prefix", str(tmp_path / "usr"))
    assert keeping_place(tmp_path.resolve()) is None


def test_a_program_killed_while_it_writes_leaves_no_book_that_is_taken(
    laid: Laid, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "kept"

    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(Path, "replace", killed)
        with pytest.raises(KeyboardInterrupt):
            open_demo(tmp_path / "1.db", NOW, place)
    half = place / f"{kept_name(NOW.date())}.abc"  # as a kill that nothing can catch leaves it
    half.write_bytes(b"half")
    open_demo(tmp_path / "2.db", NOW, place)
    assert len(laid) == 2
    assert [path.name for path in place.iterdir()] == [kept_name(NOW.date())]


def test_a_full_disk_where_it_is_kept_leaves_the_demo_as_it_is(
    laid: Laid, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    book, place = tmp_path / "1.db", tmp_path / "kept"
    open_demo(book, NOW, place)
    assert _tables(book) == ["whole"]
    assert list(place.iterdir()) == []


def test_a_disk_that_fills_while_it_is_copied_leaves_no_half_to_write_on(
    laid: Laid, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "kept"
    open_demo(tmp_path / "1.db", NOW, place)

    def half(_: Path, book: Path) -> None:
        book.write_bytes(b"half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", half)
    second = tmp_path / "2.db"
    assert not fetch(place / kept_name(NOW.date()), second)
    assert not second.exists()
    open_demo(second, NOW, place)
    assert _tables(second) == ["whole"]


def test_a_place_that_cannot_be_written_is_passed_over(laid: Laid, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    open_demo(tmp_path / "1.db", NOW, tmp_path / "file" / "kept")
    assert laid == [tmp_path / "1.db"]


def test_another_demo_that_clears_the_place_meanwhile_spoils_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, kept, sync = tmp_path / "1.db", tmp_path / "kept" / "demo-a.db", os.fsync
    book.write_bytes(b"whole")

    def meanwhile(handle: int) -> None:
        sync(handle)
        monkeypatch.setattr(os, "fsync", sync)
        keep(book, kept)

    monkeypatch.setattr(os, "fsync", meanwhile)
    keep(book, kept)
    assert [path.read_bytes() for path in kept.parent.iterdir()] == [b"whole"]
