"""What is still needed follows what is typed, and the page's keys work from within it."""

from datetime import timedelta
from decimal import Decimal
from pathlib import Path

from domain.job import BookedDay, Booking, Job, Stage
from domain.page_names import PageName
from storage.book import Book
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key
from tests.tui.sight import sees, text
from tui.job.reminders_shown import Reminders
from tui.job.still_needed import StillNeeded
from tui.widgets.line_list import LineList

FOUND = {
    "Found": "two boards soft",
    "Deck left": "laid the same day",
    "Old covering": "18.7",
    "Taken to": "Osmerton tip",
}


async def test_it_follows_the_typing_and_the_keys_of_the_page_work_in_it(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 32)) as pilot:
        hands = Hands(pilot)
        app.open_job(1, PageName.STRIP)
        await hands.shows(PageName.STRIP)
        needed = app.screen.query_one(StillNeeded)
        rows = needed.query_one(LineList)
        before = rows.count
        await hands.write(FOUND)
        await hands.until(lambda: rows.count < before)
        rows.focus()
        reminders = app.screen.query_one(Reminders)
        height = reminders.size.height
        await hands.press(key("stripped", "reminders"))
        await hands.until(lambda: reminders.size.height != height)
        assert "add extra" in text(app).splitlines()[-1]


async def test_a_job_booked_for_later_opens_on_the_day_with_the_trouble(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    week = timedelta(days=7)
    sunday = TODAY + timedelta(days=6 - TODAY.weekday()) + week

    def booked(book: Book, job: Job) -> Job:
        days = (
            BookedDay(sunday - timedelta(days=3), Decimal(4)),
            BookedDay(sunday, Decimal(4)),
        )
        return book.book_days(job, Booking(days, True))

    by_another_hand(path, booked)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        app.open_job(1)
        await hands.shows(PageName.BOOKING)
        await sees(pilot, "Sunday")
        await hands.until(lambda: app.focused is not None and app.focused.id == "field-day2")
