"""A paper on the screen: read, saved as plain text, copied; and help from every place."""

from pathlib import Path

import pytest
from textual.widgets import Input

from domain.checks.reminders import REMINDERS
from domain.job import Stage
from domain.page_names import PageName
from domain.papers.blocks import Paper, Table, Words
from domain.papers.takeoff_paper import takeoff_paper
from domain.signs import Sign
from tests import priced
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import Hands, key, said, turn_to
from tests.tui.papers.pdf import pages_of
from tests.tui.sight import SIZES, click_on, cut_off, lines, sees, text
from tui.frame.command_places import PLACES
from tui.frame.command_table import every_command
from tui.frame.commands import commands, key_words
from tui.frame.safe_text import one_line
from tui.job.job_screen import JobScreen
from tui.lists.jobs_screen import JobsScreen
from tui.papers.as_text import plain_text
from tui.papers.paper_screen import PaperScreen
from tui.shell.help_page import help_paper
from tui.shell.help_screen import HelpScreen
from tui.week.week_screen import WeekScreen

ODD = Paper(f"Quote [/] ../\x1b[31m {NASTY}", (Words(f"{NASTY}\n{'word ' * 200}"),))


@pytest.mark.parametrize("size", SIZES)
async def test_a_paper_is_read_saved_and_copied(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    paper = takeoff_paper(priced.worked_example())
    folder = tmp_path / "papers"
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(paper))
        await sees(pilot, paper.title)
        assert await cut_off(pilot) == []
        assert max(map(len, lines(app))) <= size[0]
        await hands.press(key("paper", "save"))
        await hands.hears("Saved as ")
        assert await cut_off(pilot) == []
        (kept,) = folder.iterdir()
        assert kept.read_text(encoding="utf-8") == plain_text(paper)
        await hands.press(key("paper", "copy"))
        await hands.hears("Your terminal may have copied it.")
        assert app.clipboard == plain_text(paper)
        await click_on(pilot, "p pdf")
        await hands.hears("Saved as ")
        await hands.until(lambda: ".pdf" in said(app))
        assert await cut_off(pilot) == []
        await hands.press("end")
        await sees(pilot, "licensed people")
        await click_on(pilot, "esc back")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
    assert sorted(folder.iterdir()) == [folder / "take-off.pdf", kept]  # saved again, not twice
    assert "Chalk lines" in pages_of((folder / "take-off.pdf").read_bytes(), 1)[0]


async def test_a_paper_with_an_odd_name_stays_in_its_folder(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(ODD))
        await sees(pilot, "Smith [/] & Sons [a]")
        assert await cut_off(pilot) == []
        await hands.press(key("paper", "save"))
        await hands.hears("Saved as ")
    (kept,) = (tmp_path / "papers").iterdir()
    assert kept.name.startswith("quote-")
    assert not set(kept.read_text(encoding="utf-8")) & set("\x1b\u202e")


async def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    (tmp_path / "papers").write_text("in the way", encoding="utf-8")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        app.push_screen(PaperScreen(ODD))
        await sees(pilot, "Smith")
        for pressed in ("p", key("paper", "save"), "c", "o"):
            await hands.press(pressed)
            await hands.hears("The paper was not saved")
            assert await cut_off(pilot) == []
        assert app.clipboard == ""


async def test_help_is_of_the_place_it_was_asked_from(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await click_on(pilot, "F1 help")
        await hands.until(lambda: isinstance(app.screen, HelpScreen))
        await sees(pilot, "Open the highlighted line.")
        assert await cut_off(pilot) == []
        await hands.press(key("help", "back"))
        await turn_to(pilot, app, PageName.LAYING)
        await hands.write({"Laid on": "today"})
        await hands.press("f1")
        await sees(pilot, "the laying page, a job", "Tick every check as done.")
        await hands.press("end")
        await sees(pilot, "licensed people come first.")
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, JobScreen))
        assert hands.form.values["on"] == "today"


async def test_help_is_there_in_a_dialog(tmp_path: Path) -> None:
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Who you are")
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Mrs Adeyemi?"})
        await hands.press("f1")
        await sees(pilot, "a question", "asks before losing what you typed")
        await hands.press("escape")
        await sees(pilot, "Mrs Adeyemi?")
        await hands.press(key("anywhere", "quit"))
        await hands.hears("Not saved.")
        assert app.is_running


async def test_escape_does_what_the_help_page_says(tmp_path: Path) -> None:
    words = " ".join(plain_text(help_paper(("week",))).split())
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        assert "in the week it does nothing" in words
        await hands.press("escape")
        await hands.comes_to_rest()
        assert isinstance(app.screen, WeekScreen)
        assert "goes back to the screen before, from whichever page of a job" in words
        for page in PageName.ENQUIRY, PageName.SIGN_OFF:
            await turn_to(pilot, app, page)
            await hands.press("escape")
            await hands.until(lambda: isinstance(app.screen, WeekScreen))
        assert "In the list of jobs it first clears what you typed to find one, then goes" in words
        await hands.press(key("anywhere", "go('jobs')"))
        await sees(pilot, "▸all")
        await hands.press("slash")
        await hands.type_in("Birch")
        find = app.screen.query_one("#find", Input)
        await hands.press("escape")
        await hands.until(lambda: not find.value and find.has_focus)
        await hands.press("escape")
        await hands.until(lambda: not find.has_focus)
        assert isinstance(app.screen, JobsScreen)
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("width", [80, 120])
def test_the_help_of_a_place_names_all_its_keys(place: str, width: int) -> None:
    words = plain_text(help_paper((place,)), width)
    flat = " ".join(words.split())
    for command in (*commands(place), *commands("anywhere")):
        assert command.help in flat
        assert all(key_words(each) in flat for each in command.key.split(","))
    assert all(reminder in flat for each in REMINDERS.values() for reminder in each)
    assert max(map(len, words.splitlines())) <= width


def test_no_command_is_left_out_of_help() -> None:
    pages = " ".join(" ".join(plain_text(help_paper((place,))).split()) for place in PLACES)
    assert all(command.help in pages for command in every_command())
    assert one_line(pages) == pages


def test_help_says_how_a_job_runs_how_to_set_up_and_what_each_sign_means() -> None:
    tables = {
        tuple(column.title for column in block.columns): block.rows
        for block in help_paper(("week",)).blocks
        if isinstance(block, Table)
    }
    stages = [row[0] for row in tables["stage", "what you do"]]
    assert stages == [stage.value for stage in Stage]
    keys = [row[0] for row in tables["key", "what to put down"]]
    assert keys == ["F6", "F6", "F4", "F5", "F7"]
    told = {row[0]: row[1] for row in tables["sign", "what it means"]}
    assert set(told) == {sign.value for sign in Sign}
    assert all(told.values())


async def test_the_light_is_changed_everywhere(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Send the invoice", "nothing is booked")  # tomorrow comes last
        before = text(app)
        for light in ("day", "evening"):
            await pilot.press(key("anywhere", "switch_colours"))
            assert app.theme == light
            assert text(app) == before
