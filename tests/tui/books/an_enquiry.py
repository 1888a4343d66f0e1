"""A book with prices and jobs for the pages that begin a job, and an app on it."""

from datetime import datetime
from pathlib import Path

from domain.job import EnquiryRecord, Job, Survey
from storage.book import Book
from tests import builders, priced
from tui.shell.app import HeadlapApp, make_app

NOW = datetime(2026, 6, 3, 19, 0)
NASTY = "Smith [/] & Sons [a] \u202e“$(x)”"


def book_at(path: Path, survey: Survey | None = None) -> Job:
    """Make a book of one job, with the prices of January."""
    book = Book.open(path, lambda: NOW)
    for price in priced.PRICES:
        book.set_price(price)
    job = book.take_enquiry(EnquiryRecord(builders.customer(), builders.site(), builders.enquiry()))
    if survey is not None:
        job = book.save_survey(job, survey)
    book.close()
    return job


def read_again(path: Path, job_id: int = 1) -> Job:
    """The job as it is recorded, read by another hand."""
    book = Book.open(path, lambda: NOW)
    try:
        return book.job(job_id)
    finally:
        book.close()


def app_on(path: Path) -> HeadlapApp:
    """The app on the evening of the visit."""
    return make_app(path, lambda: NOW)
