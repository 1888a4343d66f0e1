"""The history of a job reads like a diary, and says what was undone."""

from pathlib import Path

import pytest

from domain.job import Stage
from domain.page_names import PageName
from tests.storage.books import query
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, lines, sees
from tui.job.entry_screen import EntryScreen
from tui.job.history_screen import HistoryScreen


@pytest.mark.parametrize("size", SIZES)
async def test_the_history_is_read_by_key_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        await hands.write({"Telephone": "01632 960999"})
        await hands.save("Saved: the enquiry.")
        await hands.press("f8", "f8")  # ctrl+z is the field's own
        await hands.hears("Undone: enquiry saved.")
        await hands.press(key("job", "history"))
        await hands.until(lambda: isinstance(app.screen, HistoryScreen))
        await sees(pilot, "history", "0001 Birch Lane", "Quote marked as sent", "Survey: roof")
        told = [line.strip() for line in lines(app) if ":" in line]
        assert told[0].endswith("Enquiry: telephone 01632 960117 → 01632 960999  undone")
        assert "Enquiry of" in told[-1]
        assert await cut_off(pilot) == []
        await hands.press(key("history", "open"))
        await sees(pilot, "Enquiry saved", "undone since", "before", "01632 960117", "01632 960999")
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, HistoryScreen))
        await hands.press("escape")
        await hands.shows(PageName.ENQUIRY)
        await click_on(pilot, "Birch Lane")
        await hands.until(lambda: isinstance(app.screen, HistoryScreen))


async def test_what_another_program_wrote_is_shown_without_what_a_terminal_obeys(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    query(path, "UPDATE site SET place = :place", place="Birch\x1b[31m \u202eLane\x9b2J")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.ENQUIRY)
        await hands.press(key("job", "history"))
        await hands.until(lambda: isinstance(app.screen, HistoryScreen))
        await sees(pilot, "Birch[31m Lane2J")
        assert all(line.isprintable() for line in lines(app))
        await hands.press(key("history", "open"))
        await hands.until(lambda: isinstance(app.screen, EntryScreen))
        await sees(pilot, "Birch[31m Lane2J")
        assert all(line.isprintable() for line in lines(app))
