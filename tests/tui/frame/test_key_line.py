"""The line of keys: the way back and the help are in it, whatever else has no room."""

from pathlib import Path

import pytest

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import click_on, lines, sees
from tui.job.page_tabs import TABS

MAIN = ("go('jobs')", "go('prices')", "go('stock')", "go('trader')", "new_enquiry")


def _keys(hands: Hands) -> str:
    return lines(hands.app)[-1]


def _both(hands: Hands) -> bool:
    return all(words in _keys(hands) for words in ("esc back", "F1 help"))


@pytest.mark.long
async def test_every_page_says_the_way_back_and_where_help_is(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        for page in TABS:
            await hands.turn_to(page)
            await hands.until(lambda: _both(hands))
            assert len(_keys(hands)) <= 80
        await click_on(pilot, "F1 help")
        await sees(pilot, "Help: keys, how a job runs")
        assert "esc back" in _keys(hands)


@pytest.mark.parametrize("command", MAIN)
async def test_every_screen_says_the_way_back_and_where_help_is(
    tmp_path: Path, command: str
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight", "F1 help")
        await hands.press(key("anywhere", command))
        await sees(pilot, "esc back", "F1 help")
