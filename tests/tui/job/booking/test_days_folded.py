"""Days gone by stand in one line, and blank days are shown when asked for."""

from dataclasses import replace
from datetime import timedelta
from functools import partial
from pathlib import Path

import pytest

from domain.job import Booking, Job, Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import NOW, by_another_hand, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, form_of, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.shell.app import HeadlapApp, make_app


@pytest.mark.parametrize("size", SIZES)
async def test_a_day_gone_by_is_folded_and_another_can_be_booked(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    (booked,) = read_again(path).days
    late = NOW.replace(year=booked.day.year, month=booked.day.month, day=booked.day.day)
    app = make_app(path, lambda: late + timedelta(days=1))
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.BOOKING)
        await sees(pilot, "1 past day: ", "ctrl+t shows them")
        assert "Day 1" not in text(app)
        assert "Day 2" not in text(app)
        assert await cut_off(pilot) == []
        await hands.press(key("booking", "another_day"))
        await sees(pilot, "Day 2")
        assert app.focused is app.screen.query_one("#field-day2")
        form_of(app).put("day2", "+3")
        await hands.press(key("booking", "past_days"))
        await sees(pilot, "Day 1", "ctrl+t puts them away")
        assert form_of(app).values["day2"] == "+3"
        await click_on(pilot, "1 past day: ")
        await hands.until(lambda: "Day 1" not in text(app))
        await hands.press(key("job", "save"))
        await hands.hears("Saved: booked for")
    days = [each.day for each in read_again(path).days]
    assert days == [booked.day, booked.day + timedelta(days=4)]


def _is_at(app: HeadlapApp, field: str) -> bool:
    return app.focused is not None and app.focused.id == field


async def test_nothing_booked_shows_one_day(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = make_app(path, lambda: NOW)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.BOOKING)
        await sees(pilot, "Day 1")
        assert "past day" not in text(app)
        for number in (2, 3, 4):
            await hands.press(key("booking", "another_day"))
            await hands.until(partial(_is_at, app, f"field-day{number}"))
        await hands.press(key("booking", "another_day"))
        await hands.hears("4 days at most.")


async def test_a_booked_day_that_is_cleared_stays_to_be_typed_anew(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    (booked,) = read_again(path).days
    by_another_hand(path, lambda book, job: book.book_days(job, _two(job)))
    app = make_app(path, lambda: NOW.replace(day=1))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.BOOKING)
        app.screen.query_one("#field-day2").focus()
        await hands.press("ctrl+u")
        await hands.until(lambda: form_of(app).values["day2"] == "")
        assert _is_at(app, "field-day2")
        await sees(pilot, "Day 2")
    assert len(read_again(path).days) == 2
    assert read_again(path).days[0].day == booked.day


def _two(job: Job) -> Booking:
    (first,) = job.days
    return Booking((first, replace(first, day=first.day + timedelta(days=1))), True)
