"""Undo and redo at the keys: asked, of what is in front."""

from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from domain.job import EnquiryRecord, Snag
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.storage.books import dump
from tests.tui.books.an_enquiry import NOW, app_on, book_at, read_again
from tests.tui.hands import Clock, Hands, app_at, key
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.job_screen import JobScreen
from tui.lists.prices_screen import PricesScreen
from tui.shell.app import HeadlapApp
from tui.week.week_screen import WeekScreen
from tui.your_details.details_screen import DetailsScreen

UNDO, REDO, YES = "f8", key("anywhere", "redo"), key("undo", "save")


def _surveyed(path: Path) -> None:
    book_at(path, builders.survey())


async def _opened(hands: Hands, page: PageName = PageName.SURVEY) -> None:
    hands.app.open_job(1, page)
    await hands.shows(page)


def _is_job(app: HeadlapApp) -> bool:
    return isinstance(app.screen, JobScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_what_was_just_saved_goes_at_the_same_key_and_comes_back(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await sees(pilot, "F8 undo ")
        assert await cut_off(pilot) == []
        await hands.press(UNDO)
        await sees(pilot, "Undo: survey of Birch Lane saved 19:00", "Nothing stood there before.")
        assert await cut_off(pilot) == []
        assert read_again(path).survey is not None
        await hands.press(UNDO)
        await hands.hears("Undone: survey saved. ctrl+y to redo.")
        assert read_again(path).survey is None
        await hands.press(REDO)
        await hands.hears("Done again: survey saved.")
        assert read_again(path).survey is not None


async def test_another_customers_job_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        other = _another_job(book)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.press(UNDO)
        await sees(pilot, "survey of Birch Lane")
        await hands.press(UNDO)
        await hands.hears("Undone: survey saved.")
    assert [snag.words for snag in read_again(path, other).snags] == ["trim"]


def _another_job(book: Book) -> int:
    """Another job of the book, the last that anything was saved of."""
    job = book.job(1)
    taken = replace(builders.customer(), name="Mr Ek")
    job = book.take_enquiry(EnquiryRecord(taken, builders.site(), job.enquiry))
    return book.save_snag(job, Snag("trim")).id or 0


@pytest.mark.parametrize("minutes", [0, 11])
async def test_it_is_asked_in_the_same_way_however_old_it_is(tmp_path: Path, minutes: int) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_at(path, Clock(NOW + timedelta(minutes=minutes)))
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.ask(UNDO)
        await sees(pilot, "Undo: survey of Birch Lane saved 19:00", "It changes: survey.")
        assert await cut_off(pilot) == []
        await hands.press("escape")
        await hands.until(lambda: _is_job(app))
        assert read_again(path).survey is not None
        await hands.ask(UNDO)
        await hands.press("enter")  # once too often: no is the answer at hand
        await hands.until(lambda: _is_job(app))
        assert read_again(path).survey is not None
        await hands.ask(UNDO)
        await sees(pilot, "enter no", "y yes, undo it")
        await hands.press(YES)
        await hands.hears("Undone: survey saved.")
    assert read_again(path).survey is None


async def test_an_undone_enquiry_closes_its_page_and_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands, PageName.ENQUIRY)
        await hands.press(UNDO)
        await sees(pilot, "Undo: enquiry of Mrs Adeyemi added")
        await hands.press(UNDO)
        await hands.hears("Undone: enquiry of Mrs Adeyemi added. Its page is closed")
        assert isinstance(app.screen, WeekScreen)
        await hands.press(REDO)
        await hands.shows_a_job(1)
    assert read_again(path).customer.name == "Mrs Adeyemi"


async def test_a_list_has_an_undo_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("anywhere", "go('prices')"))
        await hands.until(lambda: isinstance(app.screen, PricesScreen))
        await hands.press(UNDO)
        await sees(pilot, "Undo: new price of")
        await hands.press(UNDO)
        await hands.hears("Undone: new price of")
    with closing(Book.open(path, lambda: NOW)) as book:
        assert len(book.prices()) == len(priced.PRICES) - 1
        assert book.job(1).survey is not None


async def test_the_week_undoes_what_was_done_from_it_the_last_first(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        other = _another_job(book)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(UNDO)
        await hands.hears("Nothing to undo: nothing was saved from here since Headlap opened.")
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Ms Quill", "Place": "Mill Row"})
        await hands.press(key("dialog", "save"))
        await hands.until(lambda: _is_job(app))
        await hands.press(key("job", "back"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await hands.press(UNDO)
        await sees(pilot, "Undo: enquiry of Ms Quill added")
        await hands.press(UNDO)
        await hands.hears("Undone: enquiry of Ms Quill added.")
        await hands.ask(key("week", "forecast"))
        await hands.press("d", key("dialog", "save"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        await hands.press(key("week", "open"))
        await hands.until(lambda: _is_job(app))
        assert isinstance(app.screen, JobScreen)
        opened = app.screen.job_id
        await app.open_book.ask(lambda book: book.save_snag(book.job(opened), Snag("from Tonight")))
        not_from_here = other if opened == 1 else 1
        await app.open_book.ask(
            lambda book: book.save_snag(book.job(not_from_here), Snag("from elsewhere"))
        )
        await hands.press(key("job", "back"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
        for what in ("snag “from Tonight”", "forecast for"):
            await hands.press(UNDO)
            await sees(pilot, f"Undo: {what}")
            await hands.press(UNDO)
            await hands.hears(f"Undone: {what}")
        await hands.press(UNDO)
        await hands.hears("Nothing to undo")
        await hands.press(REDO)
        await hands.hears("Done again: forecast for")
        await hands.press(REDO)
        await hands.hears("Done again: snag “from Tonight”")
    assert [snag.words for snag in read_again(path, not_from_here).snags][-1] == "from elsewhere"


async def test_where_nothing_is_saved_it_says_where_to_go(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.press(key("anywhere", "go('jobs')"))
        await sees(pilot, "survey")
        await hands.press(UNDO)
        await hands.hears("Open the job, or the list, whose last save you want to undo or redo.")


async def test_undo_is_clicked_in_the_line_of_keys(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await click_on(pilot, "F8 undo ")
        await sees(pilot, "Undo: survey")
        await click_on(pilot, "yes, undo it")
        await hands.hears("Undone: survey saved.")


async def test_a_save_says_with_which_key_it_is_undone(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands, PageName.ENQUIRY)
        await hands.write({"Telephone": "01632 960 222"})
        await hands.press(key("job", "save"))
        await hands.hears("F8 to undo.")
        await hands.press(UNDO)
        await sees(pilot, "telephone 01632 960222 back to 01632 960117")
        assert read_again(path).customer.phone == "01632 960222"
        await hands.press(UNDO)
        await hands.hears("Undone: enquiry saved.")
    assert read_again(path).customer.phone != "01632 960222"


async def test_a_save_of_nothing_new_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    _surveyed(path)
    before = dump(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.save("Nothing changed")
        await hands.turn_to(PageName.ENQUIRY)
        await hands.write({"Telephone": " 01632 960117 "})  # as it is recorded, spaced otherwise
        await hands.save("Nothing changed")
        await hands.press(key("anywhere", "go('trader')"))
        await hands.until(lambda: isinstance(app.screen, DetailsScreen))
        assert dump(path) == before
        await hands.save("Saved. Quotes")  # a book begins without a trader
        await hands.save("Nothing changed")
