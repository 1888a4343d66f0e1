"""The week: what leads where, the forecast, other weeks, and a book that cannot be read."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import datetime, time, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.job import Booking, EnquiryRecord, Job, Site, Stage
from domain.page_names import PageName
from storage.book import Book
from storage.bookfile import SCHEMA
from tests import builders
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY
from tests.tui.hands import Hands, key, said
from tests.tui.sight import SIZES, click_on, cut_off, lines, place_of, sees, text
from tui.frame.message_line import MessageLine
from tui.lists.jobs_screen import JobsScreen
from tui.papers.paper_screen import PaperScreen
from tui.shell.app import make_app
from tui.week.week_figures import WeekFigures
from tui.week.week_screen import WeekScreen
from tui.widgets.line_list import LineList
from tui.your_details.details_screen import DetailsScreen


def _with_odd_names(book: Book, job: Job) -> Job:
    customer = replace(job.customer, name=NASTY * 7)
    site = replace(job.site, place=f"🏚 {NASTY}\n{'Long ' * 30}")
    return book.change_enquiry(job, EnquiryRecord(customer, site, job.enquiry))


def _with_a_long_place(book: Book, job: Job) -> Job:
    site = replace(job.site, place="Birch Lane at the far end")
    return book.change_enquiry(job, EnquiryRecord(job.customer, site, job.enquiry))


async def test_the_key_of_a_new_enquiry_stands_in_the_line_of_an_empty_week(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    with closing(Book.open(path, lambda: datetime.combine(TODAY, time(19)))) as book:
        book.save_trader(replace(builders.trader(), version=book.trader().version))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Nothing left tonight.", "n new enquiry")
        assert "n new enquiry" in lines(Hands(pilot).app)[-1]
        await click_on(pilot, "n new enquiry")
        await sees(pilot, "Who", "What they say")
        await pilot.press("escape")
    carried_to(tmp_path / "other.headlap", Stage.LAID)
    async with app_on(tmp_path / "other.headlap").run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Send the invoice")
        assert "new enquiry" not in lines(Hands(pilot).app)[-1]


@pytest.mark.parametrize("size", SIZES)
async def test_tonight_and_the_days_lead_to_the_job(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _with_odd_names)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "£  Send the invoice")
        assert await cut_off(pilot) == []
        row = lines(app)[place_of(app, "Send the invoice").y]
        list_ends = size[0] - (34 if size[0] >= 110 else 0)
        assert row[:list_ends].rstrip().endswith("£382.11")
        assert max(map(len, lines(app))) <= size[0]
        await click_on(pilot, "Smith")  # on its day, above Tonight
        await hands.shows_a_job(1)
        await hands.press(key("job", "back"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await click_on(pilot, "Send the invoice")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.press(key("issue", "leave"), key("job", "back"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await hands.press(key("week", "used"))
        await hands.shows(PageName.MATERIALS)


async def test_coming_back_to_the_week_as_it_was_lays_nothing_out_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app, laid_out = app_on(path), list[object]()
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        week = app.screen
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        week.screen_layout_refresh_signal.subscribe(week, laid_out.append)
        await hands.press(key("jobs", "back"))
        await hands.until(lambda: app.screen is week and not app.workers._workers)
        await pilot.pause()
    assert laid_out == []


@pytest.mark.parametrize(
    ("size", "who"), [((80, 24), "Mrs Adeyemi "), ((120, 40), "Mrs Adeyemi, Birch Lane at the ")]
)
async def test_who_is_rung_stands_whole_where_the_place_has_no_room(
    tmp_path: Path, size: tuple[int, int], who: str
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _with_a_long_place)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, "£  Send the invoice")
        assert who in lines(app)[place_of(app, "Send the invoice").y]


async def test_the_strip_is_walked_by_keys_and_other_weeks_are_shown(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Wed 24 Jun 2026")
        await hands.press(key("week", "page_week(1)"))
        await sees(pilot, "29 Jun to 5 Jul · today Wed 24")
        assert "Birch Lane" not in "\n".join(lines(app)[:8])
        assert await cut_off(pilot) == []
        await hands.press(*[key("week", "page_week(-1)")] * 2)
        await sees(pilot, "15 to 21 Jun · today Wed 24  ‹ last week  next week ›")
        await hands.press(key("week", "page_week(1)"), "shift+tab", *["left"] * 9, *["right"] * 2)
        await hands.press("enter")
        await hands.shows_a_job(1)


async def test_what_was_said_of_a_week_goes_with_it_and_a_key_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Wed 24 Jun 2026")
        app.begin_restored("Restored: Tue 23 Jun 2026.")
        await hands.hears("Restored")
        await hands.press(key("week", "page_week(1)"))
        await sees(pilot, "29 Jun to 5 Jul")
        assert said(app) == ""
        await hands.press(key("anywhere", "go('week')"))
        await sees(pilot, "the week  Wed 24 Jun 2026")


async def test_a_new_book_says_how_to_begin(tmp_path: Path) -> None:
    app = app_on(tmp_path / "new" / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Look round the example")
        await hands.press("escape")
        await hands.hears("New book: b sets it up, F7 adds an enquiry.")
        assert await cut_off(pilot) == []
        await hands.press(key("week", "find"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await sees(pilot, "No job here yet: F7 adds one.")
        assert await cut_off(pilot) == []
        await hands.press("escape", "escape", key("week", "setup"))
        await sees(pilot, "Look round the example")


async def test_without_a_job_under_the_cursor_nothing_is_opened(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Nothing left tonight.")
        for command in ("used", "invoice"):
            await hands.press(key("week", command))
            await hands.hears("Pick a job in the Tonight list first.")
            assert isinstance(app.screen, WeekScreen)
        await hands.press("enter", key("week", "print_week"))
        await hands.until(lambda: isinstance(app.screen, PaperScreen))


async def test_what_is_the_traders_own_leads_to_the_own_details(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SIGNED_OFF)

    def runs_out(book: Book, job: Job) -> Job:
        soon = TODAY + timedelta(days=9)
        book.save_trader(replace(book.trader(), liability_expires=soon))
        return job

    by_another_hand(path, runs_out)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Tonight")
        await pilot.press("enter")
        await Hands(pilot).until(lambda: isinstance(app.screen, DetailsScreen))


async def test_a_book_that_a_newer_program_took_over_is_said_and_ends_nothing(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        with closing(sqlite3.connect(path)) as connection:
            connection.execute(f"PRAGMA user_version = {SCHEMA + 1}")
        await hands.press(key("week", "page_week(1)"))
        await hands.hears("written by a newer Headlap")
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.hears("written by a newer Headlap")
        await hands.press("right", "slash", "x")
        await hands.hears("written by a newer Headlap")
        assert await cut_off(pilot) == []
    assert not (tmp_path / "headlap-faults.log").exists()


async def test_a_file_that_is_no_book_is_said_at_once(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text("a shopping list", encoding="utf-8")
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.hears("list.txt is not a Headlap book.")
    assert path.read_text(encoding="utf-8") == "a shopping list"


@pytest.mark.parametrize("size", [*SIZES, (60, 20)])
async def test_what_is_said_moves_no_line_of_the_list(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _with_much_to_do)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, "When there is time")
        listed = app.screen.query_one(LineList)
        hands = Hands(pilot)
        await hands.press("end")
        await hands.comes_to_rest()
        before = listed.region, listed.scroll_offset, lines(app)[place_of(app, "Mr ").y]
        app.screen.query_one(MessageLine).say("Saved as /home/a/long/folder " * (size[0] // 20))
        await sees(pilot, "Saved as")
        shown = lines(app)[place_of(app, "Mr ").y]
        assert (listed.region, listed.scroll_offset, shown) == before
        assert await cut_off(pilot) == []


async def test_the_hours_of_the_week_are_said_in_quarters(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(120, 40)) as pilot:
        await sees(pilot, "22 to 28 Jun")
        shown = app.screen.query_one(WeekFigures)
        assert shown.figures is not None
        shown.figures = shown.figures._replace(hours=Decimal("11.25"))
        await sees(pilot, "hours                  11¼")


def _with_much_to_do(book: Book, job: Job) -> Job:
    """Eleven more jobs: four to ring about, the rest for when there is time."""
    for number in range(11):
        customer = replace(job.customer, name=f"Mr {number}", id=None)
        site = replace(job.site, place=f"Lane {number}", id=None)
        visit = None if number % 2 else TODAY + timedelta(days=1)
        asked = replace(job.enquiry, visit_on=visit, visit_at=time(9) if visit else None)
        book.take_enquiry(EnquiryRecord(customer, site, asked))
    return job


@pytest.mark.parametrize("size", SIZES)
async def test_what_can_wait_stands_behind_one_line_that_opens(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _with_much_to_do)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "£  Send the invoice", "+  When there is time: 11", "Arrange the visit")
        assert ("of them here" in text(app)) is (size == SIZES[0])  # as many as have room
        await hands.press("down")
        await sees(pilot, "Enter shows or hides them.")
        if size == SIZES[0]:
            await click_on(pilot, "When there is time")
            await hands.until(lambda: "of them here" not in text(app))
            await hands.press("down")
        else:  # all of them are in sight: it leads to the first
            await hands.press("enter")
        assert await cut_off(pilot) == []
        await sees(pilot, "Arrange the visit", "Mr 1, Lane 1")
        await hands.press("enter")
        await hands.shows(PageName.ENQUIRY)


@pytest.mark.parametrize("size", SIZES)
async def test_the_line_in_front_is_told_whole(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _with_odd_names)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, "01632 960117", "issue the invoice")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize(
    ("size", "done", "to_come"),
    [
        ((80, 24), "invoiced £0.00", "booked £382.11"),
        ((120, 40), "quoted               £0.00", "booked             £382.11"),
    ],
)
async def test_a_click_goes_a_week_on_or_back_and_each_has_its_own_figures(
    tmp_path: Path, size: tuple[int, int], done: str, to_come: str
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, _a_week_later)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, "Wed 24 Jun 2026  ‹ last week  next week ›", done)
        await click_on(pilot, "next week ›")
        await sees(pilot, "29 Jun to 5 Jul", "Birch Lane", to_come, "to come in")
        assert await cut_off(pilot) == []
        await click_on(pilot, "‹ last week")
        await sees(pilot, "Wed 24 Jun 2026  ‹ last week", done)


def _a_week_later(book: Book, job: Job) -> Job:
    days = tuple(replace(booked, day=booked.day + timedelta(days=7)) for booked in job.days)
    return book.book_days(job, Booking(days, materials_in_hand=True))


async def test_no_work_is_hidden_where_a_day_has_more_jobs_than_it_has_room_for(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, _with_more_on_its_day)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Birch Lane", "Mill Row", "Old Qu… +1", "▲ 32 of 8")
        await hands.press("shift+tab", *["down"] * 3)
        await sees(pilot, "▸Green… +1")
        assert await cut_off(pilot) == []
        await click_on(pilot, "Mill Row")  # on its day, above Tonight
        await hands.shows_a_job(2)


def _with_more_on_its_day(book: Book, job: Job) -> Job:
    for place in ("Mill Row", "Old Quay", "Green Lane"):
        other = book.take_enquiry(EnquiryRecord(job.customer, Site(place), job.enquiry))
        book.book_days(other, Booking((builders.booked_day(id=None),), materials_in_hand=False))
    return job


async def test_what_is_taken_along_tomorrow_is_told_under_the_list_and_saved_by_a_key(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = make_app(path, lambda: datetime.combine(builders.LAY_DAY - timedelta(days=1), time(19)))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Nothing left tonight", "strip, lay at Birch Lane, 8 h, from 07:30.")
        await hands.press(key("week", "tomorrow"))
        await hands.hears("Saved as ")
        await hands.hears("load-list-0001.pdf")
    kept = {each.name for each in (tmp_path / "papers").iterdir()}
    assert kept == {"site-sheet-0001.pdf", "load-list-0001.pdf"}
    nothing = Booking((), materials_in_hand=True)
    by_another_hand(path, lambda book, job: book.book_days(job, nothing))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Book a day", "Tomorrow, Thu 25 Jun 2026: nothing is booked.")
        await hands.press(key("week", "tomorrow"))
        await hands.hears("No work is booked for tomorrow, Thu 25.")


async def test_a_bank_holiday_is_said_once_the_week_stands(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = make_app(path, lambda: datetime(2026, 8, 31, 19, 0))
    async with app.run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Mon 31", "holiday")
