"""The site sheet is reached from every page of a job from the survey on, by key and by mouse."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, turn_to
from tests.tui.papers.pdf import pages_of
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.job.job_screen import JobScreen
from tui.job.page_tabs import TABS
from tui.papers.paper_screen import PaperScreen

FROM = [name for name in TABS if name is not PageName.ENQUIRY]


async def _click_for_it(pilot: Pilot[None], size: tuple[int, int]) -> None:
    """Among all the commands: the line of keys has no room for it on every page."""
    hands = Hands(pilot)
    await pilot.click(offset=(size[0] - 3, size[1] - 1))
    await sees(pilot, "Type what you want to do")
    await hands.type_in("site sheet")
    await hands.until(lambda: "Go to your leftover stock." not in text(hands.app))
    await sees(pilot, "Show the paper for the roof")
    await click_on(pilot, "Show the paper for the roof")


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("page", FROM)
async def test_it_is_reached_by_mouse_and_by_key(
    tmp_path: Path, page: PageName, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        app.open_job(1)  # at the money sheet it would turn on to what comes before an invoice
        await hands.shows_a_job(1)
        await hands.turn_to(page)
        await _click_for_it(pilot, size)
        await hands.until(lambda: isinstance(app.screen, PaperScreen))
        await sees(pilot, "Site sheet 0001")
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, JobScreen))
        await hands.press(key("job", "site_sheet"))
        await hands.until(lambda: isinstance(app.screen, PaperScreen))


async def test_it_is_saved_to_print(tmp_path: Path) -> None:
    carried_to(tmp_path / "book.headlap", Stage.STRIPPED)
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.SURVEY)
        await hands.shows(PageName.SURVEY)
        await hands.press(key("job", "site_sheet"))
        await hands.until(lambda: isinstance(app.screen, PaperScreen))
        await hands.press(key("paper", "print"))
        await hands.until(lambda: list(tmp_path.glob("papers/*.pdf")) != [])
        await hands.hears("Saved as ")
    (kept,) = (tmp_path / "papers").iterdir()
    assert kept.name == "site-sheet-0001.pdf"
    first, second = pages_of(kept.read_bytes(), 2)
    assert "Fragile: treat every old roof" in first
    assert "Chalk lines" in first
    assert "Lay the courses" in second


async def test_it_is_clicked_in_the_line_of_keys_where_there_is_room(tmp_path: Path) -> None:
    carried_to(tmp_path / "book.headlap", Stage.STRIPPED)
    async with app_on(tmp_path / "book.headlap").run_test(size=(120, 40)) as pilot:
        await turn_to(pilot, Hands(pilot).app, PageName.SURVEY)
        await sees(pilot, "F12 site sheet")
        await click_on(pilot, "F12 site sheet")
        await sees(pilot, "Site sheet 0001")


async def test_it_is_of_what_is_recorded_not_of_what_is_only_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        hands.form.put("length", "3 m")
        await hands.press(key("job", "site_sheet"))
        await hands.hears("Save what you typed")
        assert isinstance(app.screen, JobScreen)


async def test_before_there_is_a_survey_it_says_what_is_wanted(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        await hands.press(key("job", "site_sheet"))
        await hands.hears("fill in the survey and choose the covering")
