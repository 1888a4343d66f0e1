"""What was typed survives its window: kept raw beside the book, offered at the next start."""

import errno
import json
import signal
import stat
import tempfile
from dataclasses import asdict
from pathlib import Path

import pytest

from domain.job import Stage
from domain.page_names import PageName
from storage.kept_typing import KeptTyping, keep_typing, take_over_typing
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
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
@pytest.mark.parametrize("sign", [signal.SIGHUP, signal.SIGTERM])
def test_a_window_closed_in_mid_form_is_gone_on_with(tmp_path: Path, sign: signal.Signals) -> None:
    path = tmp_path / "book.db"
    book_at(path)
    with Terminal(path) as terminal:
        terminal.shows("Tonight")
        terminal.types("n", "Dave Hollis", ENTER * 3, "Osmer", pause_s=0.005)
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
    question = KeptTyping("Payment", "0001 Birch Lane", 1, money, {"a": "1"}, "Amount 1", True)
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
