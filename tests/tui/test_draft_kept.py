"""Nothing typed is lost or saved twice: a save that fails keeps it, leaving asks first."""

import sqlite3
from contextlib import closing
from datetime import datetime, time
from pathlib import Path
from typing import Any

import pytest

from tests import builders
from tests.tui.hands import Clock, Hands, key
from tui.app import HeadlapApp, make_app
from tui.dialogs.base import FormDialog
from tui.screens.job import JobScreen
from tui.screens.week import WeekScreen

EVENING = Clock(datetime.combine(builders.LAY_DAY, time(19, 0)))
SAVE = key("dialog", "save")


def _by_palette(app: HeadlapApp, title: str) -> None:
    """Run a command as the palette does when it is chosen there."""
    offered = app.get_system_commands(app.screen)
    next(each for each in offered if each.title == title).callback()


def _rows(path: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


async def test_a_key_held_down_takes_one_enquiry_down(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Mrs Adeyemi", "Place": "Birch Lane"})
        hands.hold(SAVE, times=20)
        await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
        await pilot.pause(0.2)
    assert _rows(path, "SELECT ref FROM job") == [("0001",)]


@pytest.mark.parametrize("title", ["The week", "Leave"])
async def test_a_dialog_is_not_left_from_the_palette_unasked(tmp_path: Path, title: str) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app = hands.app
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Mrs Adeyemi"})
        _by_palette(app, title)
        await hands.hears("What you typed is not saved.")
        assert isinstance(app.screen, FormDialog)
        assert hands.form.values["name"] == "Mrs Adeyemi"
        _by_palette(app, title)
        await hands.until(lambda: not app.is_running or isinstance(app.screen, WeekScreen))
