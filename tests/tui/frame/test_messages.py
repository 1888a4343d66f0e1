"""What the program said goes when another screen is opened."""

from pathlib import Path

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, said, turn_to
from tui.job.job_screen import JobScreen
from tui.lists.jobs_screen import JobsScreen
from tui.week.week_screen import WeekScreen


async def test_a_message_goes_with_the_screen_it_was_said_on(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        assert isinstance(app.screen, WeekScreen)
        app.screen.say("Saved: the forecast.")
        await hands.hears("Saved: the forecast.")
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        assert said(app) == ""


async def test_a_message_goes_when_the_page_of_a_job_is_turned(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        screen = app.screen
        assert isinstance(screen, JobScreen)
        screen.say("Saved: a snag.")
        await screen.turn_to(PageName.SIGN_OFF)
        await hands.hears("Saved: a snag.")  # no page was turned
        await hands.press(key("job", "page(1)"))
        await hands.shows(PageName.MONEY)
        assert said(app) == ""
        await screen.turn_to(PageName.SIGN_OFF)
        screen.say("Said after the turn.")
        await hands.hears("Said after the turn.")
        await hands.comes_to_rest()
        assert said(app).endswith("Said after the turn.")


async def test_what_says_how_to_undo_it_stays_when_the_page_is_turned(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SIGN_OFF)
        screen = app.screen
        assert isinstance(screen, JobScreen)
        screen.say("Deleted: undo brings it back.", lasting=True)
        await hands.press(key("job", "page(1)"))
        await hands.shows(PageName.MONEY)
        await hands.hears("Deleted: undo brings it back.")
