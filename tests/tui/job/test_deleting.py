"""Deleting an enquiry that came to nothing: asked once, undone from the list, or refused."""

from contextlib import closing
from pathlib import Path

import pytest

from domain.errors import Refused
from domain.job import EnquiryRecord, Site, Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.tui.books import a_job_at_a_stage
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at, read_again
from tests.tui.hands import Hands, key, said
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.frame.safe_text import one_line
from tui.job.deleting import DeleteDialog
from tui.job.job_screen import JobScreen
from tui.lists.jobs_screen import JobsScreen
from tui.week.week_screen import WeekScreen

DELETE, YES = key("job", "delete_enquiry"), key("delete", "save")
UNDO, REDO = "f8", key("anywhere", "redo")


async def _asked(hands: Hands, job_id: int = 1) -> None:
    hands.app.open_job(job_id)
    await hands.shows_a_job(job_id)
    await hands.ask(DELETE)
    assert isinstance(hands.app.screen, DeleteDialog)


def _is_gone(path: Path, job_id: int = 1) -> bool:
    try:
        read_again(path, job_id)
    except Refused:
        return True
    return False


@pytest.mark.parametrize("size", SIZES)
async def test_it_is_asked_once_and_undone_from_the_list(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    job = book_at(path, builders.survey())
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await hands.press(key("anywhere", "go('jobs')"))
        await _asked(hands)
        await sees(pilot, "Delete the enquiry 0001 of Mrs Adeyemi, Birch Lane?")
        await sees(pilot, "what they said, name, telephone and address, the survey.", "F8 brings")
        assert await cut_off(pilot) == []
        await hands.press(YES)
        await hands.hears("Deleted: the enquiry of Mrs Adeyemi. F8 to undo.")
        assert isinstance(app.screen, JobsScreen)
        assert _is_gone(path)
        await hands.press(UNDO, UNDO)
        await hands.shows_a_job(1)
        await hands.hears("Undone: 0001 Birch Lane, enquiry deleted. ctrl+y to redo.")
        assert read_again(path).customer == job.customer
        assert read_again(path).survey == job.survey
        await hands.press(REDO)
        await hands.hears("Done again: enquiry deleted. Its page is closed; F8 to undo.")
        assert isinstance(app.screen, JobsScreen)
        assert _is_gone(path)


@pytest.mark.parametrize("no", ["escape", "enter"])
async def test_no_leaves_it(tmp_path: Path, no: str) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands)
        await hands.press(no)
        await hands.shows_a_job(1)
        assert not _is_gone(path)


async def test_the_mouse_deletes_it_and_the_week_brings_it_back(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.ENQUIRY)
        await hands.shows(PageName.ENQUIRY)
        await click_on(pilot, "…")  # all that can be done here
        await sees(pilot, "Delete enquiry")
        await click_on(pilot, "Delete enquiry")
        await hands.until(lambda: isinstance(app.screen, DeleteDialog))
        await click_on(pilot, "yes, delete it")
        await hands.hears("Deleted: the enquiry of Mrs Adeyemi.")
        assert isinstance(app.screen, WeekScreen)
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await hands.press(UNDO)
        await sees(pilot, "Undo: 0001 Birch Lane, enquiry deleted 19:00")
        await hands.press(UNDO)
        await hands.shows_a_job(1)


async def test_what_was_sent_is_refused_in_a_sentence_and_so_is_work(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    a_job_at_a_stage.carried_to(path, Stage.QUOTED)
    app = a_job_at_a_stage.app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows_a_job(1)
        await hands.turn_to(PageName.ENQUIRY)
        await hands.press(DELETE)
        await hands.hears("has to be kept until 31 January 2033.")
        assert said(app).startswith("■ Quote 1, sent ")
        assert isinstance(app.screen, JobScreen)
        assert await cut_off(pilot) == []


async def test_their_page_goes_with_the_last_job_and_not_before(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    first = book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.take_enquiry(EnquiryRecord(first.customer, Site("Mill Row"), first.enquiry))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows_a_job(1)
        await hands.press(key("job", "customer"))
        await sees(pilot, "Mill Row")
        await hands.press("enter")
        await hands.shows_a_job(2)
        await hands.ask(DELETE)
        await sees(pilot, "Mrs Adeyemi stays, with 1 other job.")
        await hands.press(YES)
        await hands.hears("Deleted: the enquiry of Mrs Adeyemi. F8 to undo.")
        await sees(pilot, "Householder", "Birch Lane")
        await hands.press("enter")
        await hands.shows_a_job(1)
        await hands.ask(DELETE)
        await hands.press(YES)
        await hands.hears("Deleted: the enquiry of Mrs Adeyemi. F8 to undo.")
        assert isinstance(app.screen, WeekScreen)
        await hands.press(UNDO, UNDO)
        await hands.shows_a_job(1)
        await hands.press("escape", UNDO, UNDO)
        await hands.shows_a_job(2)
    assert read_again(path, 2).customer == first.customer


async def test_a_page_of_it_below_is_left_too(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows_a_job(1)
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await _asked(hands)
        await hands.press(YES)
        await hands.hears("Deleted")
        await hands.press("escape")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))


async def test_typing_that_is_not_saved_is_asked_about_first(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.ENQUIRY)
        await hands.shows_a_job(1)
        await hands.write({"Who": "Mr Ek"})
        await hands.press(DELETE)
        await hands.hears("Unsaved changes in enquiry.")
        assert isinstance(app.screen, JobScreen)


async def test_a_name_full_of_markup_is_asked_about_as_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        who = EnquiryRecord(builders.customer(name=NASTY), Site("[b]x[/]"), job.enquiry)
        book.take_enquiry(who)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _asked(hands, 2)
        await sees(pilot, f"Delete the enquiry 0002 of {one_line(NASTY)}", "[b]x[/]?")
        await hands.press(YES)
        await hands.hears("Deleted: the enquiry of Smith [/] & Sons [a]")
