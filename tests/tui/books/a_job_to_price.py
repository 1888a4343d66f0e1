"""A book whose one job waits to be priced, the answers recorded but for two cautions."""

from datetime import datetime
from pathlib import Path

from domain.job import AccessPlan, Edges, EnquiryRecord, Job, Sending, Stage, StageMove
from storage.book import Book
from tests import builders, priced
from tests.tui.books.an_enquiry import NASTY
from tui.shell.app import HeadlapApp, make_app

NOW = datetime(2026, 6, 10, 19, 0)
EDGES = Edges(barge_boards="sound", fascia="sound", drip_trim="none", gutter="none", lined=False)
"""Everything but the finials."""
ACCESS = AccessPlan(means="ladder", two_people=False)
"""No photo."""


def surveyed(path: Path) -> Job:
    """A surveyed job of a householder with a nasty name, who rules out Mondays."""
    book = Book.open(path, lambda: NOW)
    book.save_trader(priced.registered())
    for price in priced.PRICES:
        book.set_price(price)
    site = builders.site(ruled_out="Mondays")
    job = book.take_enquiry(EnquiryRecord(builders.customer(name=NASTY), site, builders.enquiry()))
    job = book.save_survey(job, builders.survey(edges=EDGES, access=ACCESS))
    job = book.move_stage(job, StageMove(Stage.SURVEY, NOW.date(), {}))
    book.close()
    return job


def sent(path: Path) -> Job:
    """The same job, its quote sent today."""
    job = surveyed(path)
    book = Book.open(path, lambda: NOW)
    job = book.save_quote(job, priced.quote(priced.registered(), job=job))
    notes = {"finials": "none", "photo": "wet"}
    job = book.send_quote(job, Sending(NOW.date(), builders.VALID_UNTIL, notes))
    book.close()
    return job


def accepted(path: Path) -> Job:
    """The same job, its quote accepted on the day it was sent, at the customer's home."""
    job, today = sent(path), NOW.date()
    book = Book.open(path, lambda: NOW)
    option = job.quotes[0].options[0]
    yes = builders.acceptance(option_id=option.id, on=today, notice_on=today)
    job = book.accept_quote(job, yes)
    book.close()
    return job


def app_on(path: Path) -> HeadlapApp:
    """The app on the evening of 10 June 2026, a Wednesday."""
    return make_app(path, lambda: NOW)
