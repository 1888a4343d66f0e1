"""“Did it go ahead?” is asked from Tonight; each answer settles it and leads on."""

from datetime import datetime, time, timedelta
from pathlib import Path

import pytest

from domain.days.calendar import show_date
from domain.job import Cover, Stage, Stripping
from domain.page_names import PageName
from tests import builders
from tests.tui.books.a_job_at_a_stage import by_another_hand, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import cut_off, sees
from tui.shell.app import make_app
from tui.widgets.form_dialog import FormDialog

SAVE, OPEN = key("dialog", "save"), key("week", "open")
THAT_DAY = datetime.combine(builders.LAY_DAY, time(19, 0))


def _evening(days_later: int) -> Clock:
    return Clock(THAT_DAY + timedelta(days=days_later))


async def _asked(hands: Hands, words: str) -> None:
    await sees(hands.pilot, words)
    await hands.press(OPEN)
    await hands.until(lambda: isinstance(hands.app.screen, FormDialog))
    await sees(hands.pilot, "Wed 24 Jun 2026: did it go ahead?", "Mrs Adeyemi, Birch Lane")
    assert await cut_off(hands.pilot) == []


@pytest.mark.parametrize(("later", "words"), [(0, "Is the deck closed?"), (1, "Did it go ahead?")])
async def test_work_that_was_done_is_recorded_with_what_was_found(
    tmp_path: Path, later: int, words: str
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with make_app(path, _evening(later)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands, words)
        await hands.press("down")
        await hands.type_in("nothing")
        await hands.press(SAVE)
        await hands.hears("Done: the roof is laid, and the laying is recorded next.")
        await sees(pilot, "Record the laying")
        await hands.press(OPEN)
        await hands.shows(PageName.LAYING)
        assert hands.form.values["on"] == show_date(builders.LAY_DAY)
    assert read_again(path).stripping == Stripping(builders.LAY_DAY, "nothing", Cover.LAID)


async def test_a_day_that_was_rained_off_is_to_be_booked_again_and_undone_by_a_key(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    job = carried_to(path, Stage.BOOKED)
    async with make_app(path, _evening(1)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands, "Did it go ahead?")
        await hands.press("right", SAVE)
        await hands.hears("Rained off: book another day. F8 to undo.")
        assert read_again(path).days == ()
        await sees(pilot, "Book a day")
        undo = key("anywhere", "undo")
        await hands.press(undo)
        await sees(pilot, "Undo: Birch Lane Wed 24 Jun rained off")
        await hands.press(undo)
        await hands.hears("Undone: Birch Lane Wed 24 Jun rained off")
    assert read_again(path).days == job.days


async def test_work_that_was_part_done_stands_sheeted_with_its_laying_to_book(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with make_app(path, _evening(1)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands, "Did it go ahead?")
        await hands.press("p", SAVE)
        await hands.hears("Part done, and sheeted: book the laying.")
        await sees(pilot, "Book the laying")
    stripping = read_again(path).stripping
    assert stripping is not None
    assert (stripping.on, stripping.cover) == (builders.LAY_DAY, Cover.SHEETED)


async def test_an_answer_that_came_too_late_says_why(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with make_app(path, _evening(1)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands, "Did it go ahead?")
        by_another_hand(path, lambda book, job: book.record_laying(job, builders.laying()))
        await hands.press("right", SAVE)
        await hands.hears("The laying is recorded already")
        assert isinstance(hands.app.screen, FormDialog)
