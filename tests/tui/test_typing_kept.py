"""What was typed survives its window: kept raw beside the book, offered at the next start."""

import errno
import json
import signal
import stat
import tempfile
from contextlib import closing
from dataclasses import asdict, replace
from pathlib import Path

import pytest

from domain.job import EnquiryRecord, Stage
from domain.page_names import PageName
from storage.backups.daily import back_up
from storage.backups.restoring import restore
from storage.book import Book
from storage.kept_typing import KeptTyping, keep_typing, still_belongs, take_over_typing
from storage.marks import mark_of_book, mark_of_job
from tests import builders
from tests.tui.books.a_job_at_a_stage import NOW, app_on, carried_to
from tests.tui.books.an_enquiry import book_at, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import cut_off, sees
from tests.tui.terminal import ENTER, Terminal, ctrl
from tui.job.job_screen import JobScreen
from tui.shell.unsaved_screen import UnsavedScreen
from tui.week.week_screen import WeekScreen

TYPED = KeptTyping("survey", "0001 Mill Row", 1, "survey", {"length": "2.4 m"}, "Length 2.4 m")


def _files(path: Path) -> list[Path]:
    return sorted(path.parent.glob(f"{path.name}.typing-*"))


@pytest.mark.long
@pytest.mark.parametrize("sign", [signal.SIGHUP, signal.SIGTERM, signal.SIGINT])
def test_a_window_closed_in_mid_form_is_gone_on_with(tmp_path: Path, sign: signal.Signals) -> None:
    path = tmp_path / "book.db"
    book_at(path)
    with Terminal(path) as terminal:
        terminal.shows("Tonight")
        terminal.types("n", "Dave Hollis", ENTER, "Osmer", pause_s=0.005)
        terminal.shows("Osmer")
        assert terminal.ends(sign) == 128 + sign
    (kept,) = _files(path)
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    with Terminal(path) as terminal:
        terminal.shows("Dave Hollis")
        terminal.types(ENTER, pause_s=0)
        terminal.shows("Osmer")
        terminal.types(ctrl("s"), pause_s=0)
        terminal.shows("0002")
        terminal.types(ctrl("q"), pause_s=0)
        assert terminal.ends() == 0
    assert not _files(path)
    assert read_again(path, 2).customer.name == "Dave Hollis"
    assert read_again(path, 2).site.place == "Osmer"


@pytest.mark.long
def test_what_is_typed_survives_a_kill(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    book_at(path)
    with Terminal(path) as terminal:
        terminal.shows("Tonight")
        terminal.types("n", "Dave Hollis", pause_s=0.005)
        terminal.waits(lambda: bool(_files(path)))
        terminal.ends(signal.SIGKILL)
    (kept,) = take_over_typing(path)
    assert (kept.form, kept.values) == ("New enquiry", {"name": "Dave Hollis"})


async def test_pages_are_offered_by_job_and_name_and_filled_again(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.MATERIALS)
        await hands.press(*"50")
        await hands.turn_to(PageName.SIGN_OFF)
        await hands.write({"Signed off by": "Mr Ek"})
        app._typing.keep()
    (kept,) = _files(path)
    kept.rename(path.with_name(f"{path.name}.typing-999999999"))  # of a window that is gone
    again = app_on(path)
    async with again.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: isinstance(again.screen, UnsavedScreen))
        await sees(pilot, "0001 Birch Lane  materials", "0001 Birch Lane  signed off", "50 used")
        assert await cut_off(pilot) == []
        await hands.press("enter")
        await hands.shows(PageName.MATERIALS)
        await sees(pilot, "50")
        assert isinstance(again.screen, JobScreen)
        assert again.screen.unsaved == ["materials"]
        await hands.press(key("job", "save"))
        await hands.hears("Saved")
        await hands.press("escape")
        await hands.until(lambda: isinstance(again.screen, UnsavedScreen))
        await hands.press("delete")
        await hands.until(lambda: isinstance(again.screen, WeekScreen))
        assert not _files(path)


OTHER_PAGE = json.dumps([asdict(TYPED) | {"page": "garage"}])


def test_a_file_that_cannot_be_read_is_passed_by(tmp_path: Path) -> None:
    path = tmp_path / "book [1].db"
    for number, text in enumerate(("", "[", '[{"form": 1}]', "\x00", "[1]", OTHER_PAGE)):
        path.with_name(f"{path.name}.typing-99999999{number}").write_text(text)
    path.with_name(f"{path.name}.typing-other").write_text("[]")
    assert take_over_typing(path) == ()


async def test_what_was_typed_into_a_question_is_told_on_its_page(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    money = PageName.MONEY.value
    mark = mark_of_job(path, 1)
    assert mark is not None
    question = KeptTyping(
        "Payment", mark.called, 1, money, {"a": "1"}, "Amount 1", is_dialog=True, job_mark=mark.mark
    )
    keep_typing(path, [question])
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: isinstance(app.screen, UnsavedScreen))
        await hands.press("enter")
        await hands.hears("You had typed Payment: Amount 1")
        assert isinstance(app.screen, JobScreen)
        await hands.press("escape")
        await sees(pilot, "0001 Birch Lane  Payment")


def test_what_cannot_be_taken_over_stays_for_the_next_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.db"
    keep_typing(path, [TYPED])
    (kept,) = _files(path)
    gone = kept.rename(path.with_name(f"{path.name}.typing-999999999"))

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr(tempfile, "mkstemp", full)
        assert take_over_typing(path) == (TYPED,)
    assert _files(path) == [gone]
    assert take_over_typing(path) == (TYPED,)
    assert _files(path) == [kept]


def test_nothing_typed_leaves_no_file(tmp_path: Path) -> None:
    path = tmp_path / "book.db"
    keep_typing(path, [TYPED])
    assert len(_files(path)) == 1
    keep_typing(path, [])
    assert not _files(path)


async def _typed_into_the_second_job(path: Path) -> None:
    """Type into the survey of job 2, and leave it unsaved in a window that is gone."""
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(2, PageName.SURVEY)
        await hands.shows(PageName.SURVEY)
        await hands.press("right")
        app._typing.keep()
    (kept,) = _files(path)
    kept.rename(path.with_name(f"{path.name}.typing-999999999"))


def _enquire(path: Path, place: str) -> None:
    taken = EnquiryRecord(builders.customer(), builders.site(place=place), builders.enquiry())
    with closing(Book.open(path, lambda: NOW, window=place)) as book:
        book.take_enquiry(taken)


async def test_typing_is_never_put_into_another_job_of_the_same_number(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    backup = back_up(path, NOW)
    _enquire(path, "Mill Row")
    await _typed_into_the_second_job(path)
    kept = restore(path, backup, NOW)
    assert kept is not None
    _enquire(path, "Canal Yard")
    again = app_on(path)
    async with again.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: isinstance(again.screen, UnsavedScreen))
        await sees(pilot, "0002 Mill Row  survey", "Roof ", "no longer in this book, or is another")
        assert await cut_off(pilot) == []
        await hands.press("enter")
        await hands.hears("0002 Mill Row is no longer in this book, or is another job by now")
        assert isinstance(again.screen, UnsavedScreen)
    assert len(_files(path)) == 1
    restore(path, kept, NOW)
    again = app_on(path)
    async with again.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: isinstance(again.screen, UnsavedScreen))
        await hands.press("enter")
        await hands.shows(PageName.SURVEY)
        assert isinstance(again.screen, JobScreen)
        assert again.screen.unsaved == ["survey"]


def test_typing_belongs_to_the_book_and_the_job_it_was_typed_in(tmp_path: Path) -> None:
    path, other = tmp_path / "book.db", tmp_path / "other.db"
    for each in (path, other):
        with closing(Book.open(each, lambda: NOW, window=each.stem)) as book:
            assert mark_of_book(each) == ""
            taken = EnquiryRecord(builders.customer(), builders.site(), builders.enquiry())
            book.take_enquiry(taken)
    details = KeptTyping("your details", "", None, "", {}, "", book_mark=mark_of_book(path))
    assert [still_belongs(details, each) for each in (path, other)] == [True, False]
    assert still_belongs(replace(details, book_mark=""), other)
    mark = mark_of_job(path, 1)
    assert mark is not None
    survey = replace(TYPED, job_mark=mark.mark)
    assert [still_belongs(survey, each) for each in (path, other)] == [True, False]
    assert not still_belongs(TYPED, path)
    assert not still_belongs(survey, tmp_path / "none")
    with closing(Book.open(path, lambda: NOW)) as book:
        book.delete_enquiry(book.job(1))
    assert not still_belongs(survey, path)
