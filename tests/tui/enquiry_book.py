"""A book with prices and jobs for the pages that begin a job, and an app on it."""

import asyncio
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from textual.pilot import Pilot
from textual.widgets import ContentSwitcher

from domain.job import EnquiryRecord, Job, Survey
from domain.pages import PageName
from storage.book import Book
from tests import builders, priced
from tui.shell.app import HeadlapApp, make_app
from tui.widgets.form import Form

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
    """The job as it is on record, read by another hand."""
    book = Book.open(path, lambda: NOW)
    try:
        return book.job(job_id)
    finally:
        book.close()


def app_on(path: Path) -> HeadlapApp:
    """The app on the evening of the visit."""
    return make_app(path, lambda: NOW)


async def until(pilot: Pilot[None], so: Callable[[], bool]) -> None:
    """Wait until something is so; what never comes fails the test."""
    async with asyncio.timeout(10):
        while not so():
            await pilot.pause(0.02)


async def turn_to(pilot: Pilot[None], app: HeadlapApp, page: PageName) -> None:
    """Open the job at a page, and wait until it shows what is on record."""
    app.open_job(1, page)
    await until(
        pilot, lambda: any(s.current == page.value for s in app.screen.query(ContentSwitcher))
    )


def form_of(app: HeadlapApp) -> Form:
    """The form in front."""
    return app.screen.query_one(Form)
