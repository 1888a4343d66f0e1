"""What the program said goes when another screen is opened."""

from pathlib import Path

from domain.job import Stage
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, said
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
