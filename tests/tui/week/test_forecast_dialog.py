"""The forecast of the coming days, typed in one line from the week."""

from datetime import datetime, time, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.days.forecast import Sky
from domain.days.forecast_line import read_line, show_line
from domain.job import BookedDay, Booking, Job, Stage
from domain.papers.week_paper import week_paper
from domain.week import plan_week
from storage.book import Book
from storage.week_and_jobs import read_week
from tests.domain.papers.reading import tables
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, lines, sees, text
from tui.shell.app import make_app
from tui.week.forecast_dialog import example
from tui.week.week_screen import WeekScreen

SAVE = key("dialog", "save")
TWO_DAYS_BEFORE = datetime.combine(TODAY - timedelta(days=2), time(19))


def line_of(path: Path) -> str:
    """What is recorded, as it is typed."""
    return show_line({f.day: f for f in read_week(path, TODAY).forecasts}, TODAY)


async def test_a_line_about_rain_opens_the_forecast_at_its_day(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    told = read_line("forecast", "d9-15 - r11/6", TODAY - timedelta(days=2))

    def tell(book: Book, job: Job) -> Job:
        book.save_forecasts(told)
        return job

    by_another_hand(path, tell)
    async with make_app(path, Clock(TWO_DAYS_BEFORE)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Ring: rain on Wednesday")
        await hands.ask("f")
        await hands.comes_to_rest()
        await hands.press("d", SAVE)
        await hands.hears("Saved: the forecast.")
        await hands.until(lambda: "Ring:" not in text(hands.app))
    recorded = read_week(path, TODAY - timedelta(days=2)).forecasts
    assert show_line({f.day: f for f in recorded}, TODAY - timedelta(days=2)) == "d9-15 -d"


async def test_seven_days_are_saved_in_ten_keys_and_undone_in_one(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        pressed = ("f", *"ddrrddr", SAVE)
        assert len(pressed) <= 10
        await hands.ask(pressed[0])
        await hands.press(*pressed[1:])
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await sees(pilot, "dry 7½–18", "rain")
        assert line_of(path) == "ddrrddr"
        await hands.press(key("anywhere", "undo"), key("anywhere", "undo"))
        await hands.until(lambda: line_of(path) == "")


@pytest.mark.parametrize("size", SIZES)
async def test_the_days_stand_below_as_they_are_typed(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.ask(key("week", "forecast"))
        await sees(pilot, "Wed 24", "Tue 30", "no forecast", "8 h booked", example(TODAY))
        assert await cut_off(pilot) == []
        await hands.type_in("r11 d9-12,14-17/3@14g25 3r x9")
        await sees(pilot, "▲ dry 7½–11", "d9-12,14-17/3@14g25", "dry 9–12", "■ “x9” cannot be read")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("“x9” is not valid. Give d dry, r rain")
        assert line_of(path) == ""
        await hands.press("backspace", "backspace", *"9d")
        await sees(pilot, "Tue 7")  # fourteen days, today among them
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+s save")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await sees(pilot, "▲ dry 7½–11" if size[0] > 80 else "▲ 7½–11")
    assert line_of(path) == "r11 d9-12,14-17/3@14g25 rrrddddddddd"
    (printed, *_) = tables(week_paper(plan_week(read_week(path, TODAY), TODAY)))
    assert printed.rows[TODAY.weekday()][2] == "▲ dry 7½–11"


@pytest.mark.parametrize("size", [(60, 20), (60, 24)])
async def test_in_sixty_columns_each_day_has_one_line_and_the_keys_theirs(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with app_on(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await hands.comes_to_rest()
        await hands.ask(key("week", "forecast"))
        await hands.type_in("dr")
        await sees(pilot, "Tue 30", "8 h booked" if size[1] == 24 else "no forecast", "ctrl+s save")
        assert await cut_off(pilot) == []


async def test_one_day_is_changed_where_it_stands_and_the_others_stay(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(120, 40)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await click_on(pilot, "f forecast")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.press(*"ddr", SAVE)
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        before = read_week(path, TODAY).forecasts
        await hands.ask(key("week", "forecast"))
        await hands.press(*"-w", SAVE)
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await hands.ask(key("week", "forecast"))
        await hands.press("end", *"c", SAVE)
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        assert any("cold" in line for line in lines(app))
    after = {f.day: f for f in read_week(path, TODAY).forecasts}
    assert line_of(path) == "dwrc"
    assert after[before[0].day] == before[0]  # not written again
    assert after[TODAY + timedelta(days=1)].sky is Sky.WIND


async def test_an_unchanged_or_empty_line_saves_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.ask(key("week", "forecast"))
        await hands.press(SAVE)
        await hands.hears("Forecast is empty. Give a letter a day")
        await hands.press("d", SAVE)
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        before = read_week(path, TODAY)
        await hands.ask(key("week", "forecast"))
        await hands.press(SAVE)
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
    assert read_week(path, TODAY) == before


def _with_a_long_day(book: Book, job: Job) -> Job:
    return book.book_days(job, Booking((BookedDay(TODAY, Decimal(12)),), materials_in_hand=True))


@pytest.mark.parametrize(
    ("size", "words"),
    [((80, 24), ("▲ short", "12 of 10½")), ((120, 40), ("▲ too short", "12 of 10½ h"))],
)
async def test_a_day_that_is_too_short_says_so_and_by_how_much(
    tmp_path: Path, size: tuple[int, int], words: tuple[str, str]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, _with_a_long_day)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, *words)
        assert "Ring" not in text(app)
        assert await cut_off(pilot) == []
