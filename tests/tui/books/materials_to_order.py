"""A book with a booked job whose materials are still to be ordered."""

from datetime import datetime, timedelta
from pathlib import Path

from domain.job import Booking, Job, Stage
from storage.book import Book
from tests.tui.books.a_job_at_a_stage import by_another_hand, carried_to
from tui.shell.app import HeadlapApp, make_app

EVENING = datetime(2026, 6, 22, 19, 0)
"""Two days before the day on which the roof is laid."""


def _nothing_in_hand(book: Book, job: Job) -> Job:
    return book.book_days(job, Booking(job.days, materials_in_hand=False))


def to_supply(folder: Path) -> Path:
    """A book with one job that is booked, whose materials are still to be ordered."""
    path = folder / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, _nothing_in_hand)
    return path


def app_at(path: Path, days_on: int = 0) -> HeadlapApp:
    """The app on that evening, or so many days later."""
    return make_app(path, lambda: EVENING + timedelta(days=days_on))
