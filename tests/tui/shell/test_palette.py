"""The palette: every command of the place in front, by its words and by the mouse."""

from pathlib import Path

import pytest
from textual.command import CommandPalette
from textual.pilot import Pilot

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Hands, turn_to
from tests.tui.job.stripping.test_stripping_page import with_extras
from tests.tui.sight import click_on, lines, sees, text
from tui.frame.commands import commands
from tui.job.page import JobPage
from tui.job.page_tabs import TABS
from tui.lists.prices_screen import PricesScreen
from tui.shell.app import HeadlapApp
from tui.week.week_screen import WeekScreen


def _offered(app: HeadlapApp) -> set[str]:
    titles = [command.title.lower() for command in app.get_system_commands(app.screen)]
    return {title.rsplit("  ", 1)[0] for title in titles}


async def _finds(pilot: Pilot[None], help_words: str) -> None:
    """Wait until the palette shows this command, and no longer all of them."""
    hands = Hands(pilot)

    def so() -> bool:
        shown = text(hands.app)
        return help_words in shown and "Go to your leftover stock." not in shown

    await hands.until(so)


async def test_it_is_opened_by_a_key_and_by_the_mouse_and_runs_a_command(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press("ctrl+p")
        await hands.until(lambda: isinstance(app.screen, CommandPalette))
        await sees(pilot, "›  Type what you want to do", "Backups  F11", "Find  /")
        assert all(ord(sign) < 0x1F000 for sign in text(app))  # no picture sign: those begin there
        await hands.type_in("prices")
        await _finds(pilot, "Go to material prices.")
        assert max(map(len, lines(app))) <= 80
        await hands.press("enter")
        await hands.until(lambda: isinstance(app.screen, PricesScreen))
        assert lines(app)[-1].endswith("…")
        await pilot.click(offset=(80 - 3, 24 - 1))
        await hands.until(lambda: isinstance(app.screen, CommandPalette))
        await hands.type_in("the week")
        await _finds(pilot, "Go to this week.")
        await click_on(pilot, "Go to this week.")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))


@pytest.mark.long
async def test_it_offers_the_commands_of_the_page_in_front(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        for page in TABS:
            await hands.turn_to(page)
            own = app.screen.query_one(f"#{page.value}", JobPage).place
            wanted = {command.words for command in commands(own, "job", "anywhere")}
            assert wanted <= _offered(app)


async def test_what_is_chosen_there_is_done_to_the_row_under_the_cursor(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, with_extras)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        hands.rows.focus()
        await pilot.click(offset=(77, 23))
        await hands.until(lambda: isinstance(app.screen, CommandPalette))
        await hands.type_in("delete")
        await _finds(pilot, "Delete this extra.")
        await click_on(pilot, "Delete this extra.")
        await hands.hears("Extra deleted.")
    assert len(read_again(path).extras) == 1


async def test_it_is_left_by_escape_and_an_unknown_word_finds_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press("ctrl+p")
        await hands.until(lambda: isinstance(app.screen, CommandPalette))
        await hands.type_in("[/] xyzzy")
        await sees(pilot, "No matches found")
        await hands.press("enter", "escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
