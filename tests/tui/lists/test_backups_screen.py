"""Backups: listed, made, checked and restored, by keys and by mouse; what cannot be is said."""

import errno
import tempfile
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.job import EnquiryRecord, Stage
from domain.page_names import PageName
from storage import bookfile
from storage.backups.daily import back_up
from storage.backups.names import backup_name, backups_folder, backups_in
from storage.book import Book
from storage.bookfile import State, look_at
from storage.checking import check_book
from tests import builders
from tests.storage.books import query
from tests.storage.test_backups import spoil
from tests.storage.test_older_books import book_of_version
from tests.storage.test_restoring import open_elsewhere
from tests.tui.books.a_job_at_a_stage import NOW, app_on, carried_to
from tests.tui.hands import Hands, key, said
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.job_screen import JobScreen
from tui.lists.backups_screen import BackupsScreen
from tui.week.week_screen import WeekScreen

YESTERDAY = NOW - timedelta(days=1)
ASK, YES = key("backups", "open"), key("restore", "save")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A book with yesterday's backup, since which a job was added and one invoiced."""
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    back_up(path, YESTERDAY)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.issue_invoice(book.job(1), NOW.date())
        _enquire(book, "Mill Row")
    back_up(path, NOW - timedelta(hours=1))
    return path


def _enquire(book: Book, place: str) -> None:
    taken = EnquiryRecord(builders.customer(), builders.site(place=place), builders.enquiry())
    book.take_enquiry(taken)


def _refs(path: Path) -> list[str]:
    return [ref for (ref,) in query(path, "SELECT ref FROM job ORDER BY id")]


def _backups(path: Path) -> list[Path]:
    return list(backups_in(backups_folder(path), path).values())


async def _opened(hands: Hands) -> None:
    await sees(hands.pilot, "Tonight")
    await hands.comes_to_rest()
    await hands.press(key("anywhere", "go('backups')"))
    await hands.until(lambda: isinstance(hands.app.screen, BackupsScreen))
    await hands.comes_to_rest()


async def _asked(hands: Hands) -> None:
    """Ask for yesterday's backup."""
    await hands.press("end")
    await hands.ask(ASK)
    await sees(hands.pilot, "Restore the backup of Tue 23 Jun 2026 19:00?")


@pytest.mark.parametrize("size", SIZES)
async def test_a_backup_is_restored_only_by_a_key_of_its_own(
    path: Path, size: tuple[int, int]
) -> None:
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await sees(pilot, "Wed 24 Jun 2026 18:00", "Tue 23 Jun 2026 19:00", "beside the book")
        await sees(pilot, "your book now", "INV-1", "Nothing would be lost")
        await hands.press("down")
        await sees(pilot, "▲ Invoice INV-1 was issued since:", "Jobs added since: 0002 Mill Row.")
        assert await cut_off(pilot) == []
        for no in ("enter", "escape", key("dialog", "save")):
            await _asked(hands)
            await sees(pilot, "its number would be used again.", "is backed up first")
            assert await cut_off(pilot) == []
            await hands.press(no)
            if isinstance(app.screen, ModalScreen):  # ctrl+s, by habit, does nothing
                await hands.press("escape")
            await hands.until(lambda: isinstance(app.screen, BackupsScreen))
            assert _refs(path) == ["0001", "0002"]
        await _asked(hands)
        await hands.press(YES)
        await hands.hears("Restored: Tue 23 Jun 2026 19:00. The book that was there is backups/")
        assert isinstance(app.screen, WeekScreen)
        assert await cut_off(pilot) == []
        assert _refs(path) == ["0001"]
        assert _refs(_backups(path)[0]) == ["0001", "0002"]
        await hands.press(key("anywhere", "undo"))
        await hands.until(lambda: "Restored" not in said(app))
        await app.open_book.ask(lambda book: _enquire(book, "Canal Yard"))
    assert _refs(path) == ["0001", "0002"]
    assert check_book(path).faults == ()


@pytest.mark.long
async def test_a_backup_is_restored_by_mouse_from_your_details(path: Path) -> None:
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("anywhere", "go('trader')"))
        await sees(pilot, "your details", "ctrl+b backups")
        await hands.comes_to_rest()
        await click_on(pilot, "ctrl+b backups")
        await sees(pilot, "Tue 23 Jun 2026 19:00")
        await click_on(pilot, "Tue 23 Jun 2026 19:00")
        await sees(pilot, "Restore the backup of Tue 23 Jun 2026 19:00?")
        await click_on(pilot, "enter no")
        await hands.until(lambda: isinstance(app.screen, BackupsScreen))
        await click_on(pilot, "Tue 23 Jun 2026 19:00")
        await sees(pilot, "Restore the backup of Tue 23 Jun 2026 19:00?")
        await click_on(pilot, "y yes, restore it")
        await hands.hears("Restored: Tue 23 Jun 2026 19:00.")
    assert _refs(path) == ["0001"]


def _damaged(path: Path, _: pytest.MonkeyPatch) -> None:
    spoil(_backups(path)[-1], "price")


def _of_a_newer_version(path: Path, _: pytest.MonkeyPatch) -> None:
    query(_backups(path)[-1], "PRAGMA user_version = 99")


def _gone(path: Path, _: pytest.MonkeyPatch) -> None:
    _backups(path)[-1].unlink()


def _full(_: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(tempfile, "mkstemp", full)


def _does_nothing(_: Path, __: pytest.MonkeyPatch) -> None:
    """The trouble is another window."""


Trouble = Callable[[Path, pytest.MonkeyPatch], None]


@pytest.mark.parametrize(
    ("trouble", "words"),
    [
        (_damaged, "is damaged. The book was left as it is: choose another."),
        (_of_a_newer_version, "was written by a newer Headlap. It was left as it is"),
        (_gone, "There is no backup there: name another."),
        (_full, "Nothing was restored: No space left on device. The book is as it was."),
        (_does_nothing, "Another program has the book open. Nothing was restored"),
    ],
)
async def test_what_cannot_be_restored_is_said_and_the_book_goes_on(
    path: Path, trouble: Trouble, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bookfile, "BUSY_SECONDS", 0.05)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await _asked(hands)
        with monkeypatch.context() as disk:
            trouble(path, disk)
            if trouble is _does_nothing:
                with open_elsewhere(path):
                    await hands.press(YES)
            else:
                await hands.press(YES)
            await hands.hears(words)
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, BackupsScreen))
        await app.open_book.ask(lambda book: _enquire(book, "Canal Yard"))
    assert _refs(path) == ["0001", "0002", "0003"]
    assert check_book(path).faults == ()
    assert not list(path.parent.glob("**/.headlap-*"))


async def test_a_backup_of_an_older_version_is_brought_up_to_date(path: Path) -> None:
    older = backups_folder(path) / backup_name(path, YESTERDAY)
    older.unlink()
    book_of_version(older, 1)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await _asked(hands)
        await hands.press(YES)
        await hands.hears("Restored: Tue 23 Jun 2026 19:00.")
        assert (await app.open_book.ask(lambda book: book.job(1))).ref == "0001"
    assert look_at(path) is State.CURRENT


async def test_backups_that_cannot_be_read_say_so_in_their_line(path: Path) -> None:
    newer, older = _backups(path)
    newer.write_text("half a file", encoding="utf-8")
    query(older, "PRAGMA user_version = 99")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await _opened(Hands(pilot))
        await sees(pilot, "▲ cannot be read", "▲ written by a newer Headlap")
        await sees(pilot, "It cannot be restored: choose another.")


async def test_a_book_is_backed_up_and_checked_now_and_without_its_second_folder(
    path: Path, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_trader(replace(book.trader(), backup_folder=str(stick)))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await click_on(pilot, "+ back up now")
        await hands.hears(f"Backed up: Wed 24 Jun 2026 19:00. Not in {stick}")
        stick.mkdir()
        await hands.press(key("backups", "back_up"))
        await hands.hears("It lies in the second folder too.")
        await sees(pilot, "both folders", "beside the book")
        assert len(_backups(path)) == 4
        for each in _backups(path)[:2]:
            each.unlink()
        await hands.press("escape", key("anywhere", "go('backups')"))
        await sees(pilot, "second folder")
        await hands.press(key("backups", "check"))
        await hands.hears("Nothing is wrong: 2 jobs, 1 quote, 1 invoice, 0 receipts.")
        spoil(path, "site_by_customer_id")
        await hands.press(key("backups", "check"))
        await hands.hears("The file is damaged: restore a backup with headlap restore.")


async def test_a_damaged_book_is_kept_as_it_lies_and_one_without_backups_says_how_to_make_one(
    path: Path,
) -> None:
    spoil(path, "price")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await _asked(hands)
        await hands.press(YES)
        await hands.hears("The book that was there is backups/book damaged 2026-06-24 19.00.00")
    assert check_book(path).faults == ()
    for each in _backups(path):
        each.unlink()
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        _backups(path)[0].unlink()  # that of the day
        await hands.press("escape", key("anywhere", "go('backups')"))
        await sees(pilot, "No backups yet. Press + to make one.")


async def test_typing_that_is_not_saved_is_asked_about_before_a_restore(path: Path) -> None:
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.SIGN_OFF)
        await hands.shows(PageName.SIGN_OFF)
        await hands.write({"Signed off by": "Mr Ek"})
        app.action_go("backups")
        await hands.until(lambda: isinstance(app.screen, BackupsScreen))
        await hands.comes_to_rest()
        await hands.press("end", ASK)
        await hands.hears("Unsaved changes in signed off.")
        assert isinstance(app.screen, JobScreen)
    assert _refs(path) == ["0001", "0002"]
