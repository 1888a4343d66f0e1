"""An overdue invoice is chased from its line of Tonight."""

from datetime import timedelta
from pathlib import Path

import pytest

from domain.days.calendar import show_day
from domain.job import Received
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import by_another_hand
from tests.tui.books.an_enquiry import read_again
from tests.tui.books.an_overdue_invoice import overdue
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, cut_off, sees, text
from tui.shell.app import make_app

OPEN, SAVE = key("week", "open"), key("dialog", "save")


@pytest.mark.parametrize("size", SIZES)
async def test_a_reminder_takes_two_keys_and_the_line_is_back_in_a_week(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    clock = overdue(path, 8)
    async with make_app(path, clock).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Overdue 8 days")
        await hands.ask(OPEN)
        await sees(pilot, "a reminder of our invoice INV-1")
        assert await cut_off(pilot) == []
        await hands.press(key("chase", "copy"))
        await hands.hears("F8 to undo.")
        assert hands.pressed == 2
        assert "reference INV-1" in hands.app.clipboard
        assert "Overdue" not in text(hands.app)
    clock.now += timedelta(days=7)
    async with make_app(path, clock).run_test(size=size) as pilot:
        await sees(pilot, "Overdue 15 days", "reminded on")


async def test_a_promise_keeps_the_rest_of_a_part_paid_invoice_quiet_until_its_day(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    clock = overdue(path, 9)
    today = clock.now.date()
    part = Received(1, 100_00, today, "cash")
    by_another_hand(path, lambda book, job: book.record_payment(job, part))
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Overdue 9 days")
        await hands.ask(OPEN)
        await sees(pilot, "thank you for £100.00; the other")
        await hands.press(key("chase", "will_pay"))
        await sees(pilot, "Will pay on")
        await hands.type_in(show_day(today + timedelta(days=3)))
        await hands.press(SAVE)
        await hands.hears("They said they would pay on")
        assert "Overdue" not in text(hands.app)
    (chased,) = read_again(path).chased
    assert (chased.until, chased.promised) == (today + timedelta(days=3), True)
    clock.now += timedelta(days=3)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Overdue 12 days", "said they would pay on")


async def test_a_second_one_on_the_same_evening_says_that_it_is(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, overdue(path, 8)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("anywhere", "go('owed')"))
        await sees(pilot, "INV-1")
        await hands.ask(OPEN)
        await sees(pilot, "a reminder of our invoice INV-1")
        assert "reminded today already" not in text(hands.app)
        await hands.press(key("chase", "copy"))
        await hands.hears("F8 to undo.")
        await hands.ask(OPEN)
        await sees(pilot, "They were reminded today already")


async def test_in_the_first_week_it_says_that_a_reminder_usually_waits(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, overdue(path, 6)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Overdue 6 days")
        await hands.ask(OPEN)
        await sees(pilot, "A reminder usually waits until 7 days after the due day.")
        await hands.press(key("chase", "money"))
        await hands.shows(PageName.MONEY)
