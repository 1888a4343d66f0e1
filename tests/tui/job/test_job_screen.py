"""The job screen: typing is kept, nothing is lost unasked, every part leads somewhere."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from textual.screen import ModalScreen
from textual.widgets import Input

from domain.job import Ending, EnquiryRecord, Job, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import (
    NOW,
    TODAY,
    app_on,
    by_another_hand,
    carried_to,
    settled_for,
)
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, comes_to, front, hears, key, said, turn_to, until
from tests.tui.sight import sees, text
from tui.frame.safe_text import one_line
from tui.job.job_heading import WhoAndWhere
from tui.job.job_screen import JobScreen
from tui.job.page_tabs import TABS, PageTabs
from tui.job.still_needed import StillNeeded
from tui.shell.app import HeadlapApp, make_app
from tui.week.week_screen import WeekScreen
from tui.widgets.form import Form


def _form(app: HeadlapApp, page: PageName) -> Form:
    return app.screen.query_one(f"#{page.value}").query_one(Form)


def _renamed(book: Book, job: Job) -> Job:
    return book.change_enquiry(
        job, EnquiryRecord(replace(job.customer, name="Mr Ek"), job.site, job.enquiry)
    )


async def test_the_survey_of_a_job_signed_off_changes_only_when_saved_twice(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    before = read_again(path).survey
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        await hands.write({"Length": "2.6 m"})
        await hands.press(key("job", "save"))
        await hands.hears("The job is signed off. Save again to change what was recorded.")
        assert read_again(path).survey == before
        await hands.press(key("job", "save"))
        await hands.hears("Saved: the survey.")
    assert read_again(path).survey != before


@pytest.mark.parametrize(
    ("stage", "page"),
    [
        (Stage.ENQUIRY, PageName.SURVEY),
        (Stage.SURVEY, PageName.SURVEY),
        (Stage.QUOTED, PageName.QUOTE),
        (Stage.BOOKED, PageName.STRIP),
        (Stage.STRIPPED, PageName.LAYING),
        (Stage.LAID, PageName.SIGN_OFF),
        (Stage.SIGNED_OFF, PageName.MONEY),
    ],
)
async def test_a_job_opens_at_what_is_to_be_done_next(
    tmp_path: Path, stage: Stage, page: PageName
) -> None:
    carried_to(tmp_path / "book.headlap", stage)
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        app.open_job(1)
        await until(pilot, lambda: front(app) is not None)
        assert front(app) == page.value


async def test_a_job_booked_for_later_opens_at_its_days(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    eve = NOW - timedelta(days=1)
    app = make_app(path, lambda: eve)
    async with app.run_test(size=(80, 24)) as pilot:
        app.open_job(1)
        await until(pilot, lambda: front(app) is not None)
        assert front(app) == PageName.BOOKING


@pytest.mark.parametrize("pause", [0.0, 0.001, 0.01, 0.03, 0.1])
async def test_a_job_can_be_left_while_it_opens(tmp_path: Path, pause: float) -> None:
    carried_to(tmp_path / "book.headlap", Stage.SURVEY)
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        app.open_job(1, PageName.SURVEY)
        await asyncio.sleep(pause)
        if isinstance(app.screen, JobScreen):
            app.screen.action_back()
        await until(pilot, lambda: isinstance(app.screen, WeekScreen))
        await Hands(pilot).comes_to_rest()
    assert not (tmp_path / "headlap-faults.log").exists()


async def test_typing_is_kept_while_other_pages_are_looked_at_and_saved(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        _form(app, PageName.ENQUIRY).put("access", "ring first")
        await pilot.press("pagedown")
        await comes_to(pilot, app, PageName.SURVEY)
        _form(app, PageName.SURVEY).put("means", "a tower")
        await pilot.press("ctrl+s")
        await hears(pilot, app, "Saved: the survey")
        await pilot.press("pageup")
        await comes_to(pilot, app, PageName.ENQUIRY)
        assert _form(app, PageName.ENQUIRY).values["access"] == "ring first"
        await pilot.press("ctrl+s")
        await hears(pilot, app, "Saved: the enquiry")
    job = read_again(path)
    assert job.site.access == "ring first"
    assert job.survey is not None
    assert job.survey.access.means == "a tower"


async def test_what_another_window_changed_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        _form(app, PageName.ENQUIRY).put("name", "Mrs Orr")
        by_another_hand(path, _renamed)
        assert isinstance(app.screen, JobScreen)
        await app.screen.reload_job()  # as coming back to the screen does: what was typed stays
        await pilot.press("ctrl+s")
        await hears(pilot, app, "another window")
        assert _form(app, PageName.ENQUIRY).values["name"] == "Mrs Orr"
    assert read_again(path).customer.name == "Mr Ek"


@pytest.mark.parametrize(
    ("leave", "left"),
    [
        ("escape", lambda app: isinstance(app.screen, WeekScreen)),
        ("f2", lambda app: isinstance(app.screen, WeekScreen)),
        ("ctrl+q", lambda app: not app.is_running),
    ],
)
async def test_leaving_with_typing_asks_once_and_again_after_more_typing(
    tmp_path: Path, leave: str, left: Callable[[HeadlapApp], bool]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.ENQUIRY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        for name in ("Mrs O", "Mrs Orr"):
            _form(app, PageName.ENQUIRY).put("name", name)
            await until(pilot, lambda: said(app) == "")
            await pilot.press(leave)
            await hears(pilot, app, "Unsaved changes in enquiry")
            assert isinstance(app.screen, JobScreen)
        await pilot.press(leave)
        await until(pilot, lambda: left(app))
    assert read_again(path).customer.name == builders.customer().name


async def test_a_stage_is_not_called_while_something_is_only_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    settled_for(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        _form(app, PageName.ENQUIRY).put("place", "")
        await pilot.press("ctrl+g")
        await hears(pilot, app, "Save what you typed under enquiry first")
    assert read_again(path).stage is Stage.ENQUIRY


async def test_the_trail_turns_pages_by_keys_and_by_mouse(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.SURVEY)
        trail = app.screen.query_one(PageTabs)
        trail.focus()
        await pilot.press("left", "left")
        await comes_to(pilot, app, PageName.MONEY)
        assert trail.has_focus
        await pilot.press("right")
        await comes_to(pilot, app, PageName.ENQUIRY)
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.focused, Input))
        start = trail.styles.padding.left
        for page, (words, _) in TABS.items():
            if page in (PageName.ENQUIRY, PageName.STRIP, PageName.MONEY):
                await pilot.click(PageTabs, offset=(start + 1, 0))
                await comes_to(pilot, app, page)
            start += len(words) + 2


@pytest.mark.parametrize("by", ["keys", "mouse"])
async def test_what_is_missing_leads_to_the_page_that_settles_it(tmp_path: Path, by: str) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        await sees(pilot, "before “booked”: ", "Enter: all")
        assert "■ stop" not in text(app)
        rows = app.screen.query_one("#missing-list")
        if by == "keys":
            rows.focus()
            await pilot.press("enter")
            await sees(pilot, "Still needed before “booked”")
            await pilot.press("down", "enter")
        else:
            await pilot.click(rows, offset=(5, 0))
            await sees(pilot, "Still needed before “booked”")
            await pilot.click(rows, offset=(5, 1))
        await comes_to(pilot, app, PageName.BOOKING)  # the second: “Is a day booked?”


async def test_going_back_and_ending_ask_why_and_the_reasons_stay(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        for key, why, then in (
            ("ctrl+b", "measured wrong", "The job is surveyed again"),
            ("ctrl+k", NASTY, "The job is declined"),
            ("ctrl+b", "rang back", "Job reopened"),
        ):
            await pilot.press(key)
            await until(pilot, lambda: isinstance(app.screen, ModalScreen))
            form = app.screen.query_one(Form)
            if key == "ctrl+k":
                form.put("how", Ending.DECLINED.value)
            await pilot.press("ctrl+s")
            await hears(pilot, app, "Why")
            form.put("why", why)
            await pilot.press("ctrl+s")
            await hears(pilot, app, then)
            if key == "ctrl+k":
                assert NASTY[:9] in _title(app)
    job = read_again(path)
    assert (job.stage, job.ended) == (Stage.SURVEY, None)
    assert [note.words for note in job.notes[-3:]] == [
        "measured wrong",
        one_line(NASTY),
        "rang back",
    ]


def _title(app: HeadlapApp) -> str:
    return str(app.screen.query_one(StillNeeded).query_one("StillNeededTitle").render())


async def test_an_enquiry_has_no_stage_before_it(tmp_path: Path) -> None:
    carried_to(tmp_path / "book.headlap", Stage.ENQUIRY)
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        await pilot.press("ctrl+b")
        await hears(pilot, app, "no earlier stage")


def _offered(app: HeadlapApp) -> set[str]:
    """What the palette offers, without the keys beside it."""
    return {each.title.split("  ")[0] for each in app.get_system_commands(app.screen)}


async def test_the_palette_offers_the_commands_of_the_page_in_front(tmp_path: Path) -> None:
    carried_to(tmp_path / "book.headlap", Stage.SURVEY)
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.QUOTE)
        assert {"Price", "Next stage", "New enquiry"} <= _offered(app)
        await turn_to(pilot, app, PageName.BOOKING)
        assert "Price it" not in _offered(app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_heading_breaks_no_line_and_cuts_no_telephone_number(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    name = f"{NASTY} and the Residents' Association of Birch Lane 🏚"

    def renamed(book: Book, job: Job) -> Job:
        site = replace(job.site, place=f"{NASTY}\n{'Long ' * 30}", access=NASTY * 9)
        return book.change_enquiry(
            job, EnquiryRecord(replace(job.customer, name=name), site, job.enquiry)
        )

    by_another_hand(path, renamed)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await turn_to(pilot, app, PageName.ENQUIRY)
        who = app.screen.query_one(WhoAndWhere)
        await until(pilot, lambda: who.region.height == 3)
        lines = [strip.text for strip in who.render_lines(who.region.reset_offset)]
        assert [line.startswith("      ") for line in lines] == [False, True, True]
        assert lines[0].startswith("0001  Smith [/] & Sons [a]")
        assert lines[2].startswith("      01632 960117 · ")
        assert all("\u202e" not in line for line in lines)


async def test_what_is_next_is_told_with_its_day(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.BOOKING)
        told = str(app.screen.query_one("StandsAt").render()).splitlines()
        assert told == ["booked", "day 1 of 1", "next: strip, lay, today"]
        assert TODAY == builders.LAY_DAY


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_neither_a_name_nor_what_is_next_is_cut_where_there_is_room(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)

    def renamed(book: Book, job: Job) -> Job:
        customer = replace(job.customer, name="Sarn Valley Riding School")
        return book.change_enquiry(job, EnquiryRecord(customer, job.site, job.enquiry))

    by_another_hand(path, renamed)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await turn_to(pilot, app, PageName.MATERIALS)
        await sees(pilot, "next: sign off and invoice", "Sarn Valley Riding School", "01632 960117")
