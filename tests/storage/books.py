"""Books for tests of stock: jobs taken so far by its own actions, read back by another hand."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any, TypeAlias

from domain.estimate.usage import UsageRecord, estimate, leftovers_to_stock
from domain.job import Booking, EnquiryRecord, Job, Quote, Received, Sending, Stage, StageMove
from domain.scope import ListName, Scope
from storage.book import Book
from tests import builders, priced

NOW = datetime(2026, 6, 25, 19, 0)
DEPOSIT = 100_00
BOTH_ON_A_DAY = {"another-job": "both are small"}
"""What passes the caution that another job is booked for the day."""

Cells: TypeAlias = tuple[Any, ...]


DOCUMENT = (
    "id, job_id, series, number, kind, issued_on, tax_point, due_on, gross, snapshot, refers_to"
)
"""The columns of a document that have no default."""


def open_book(path: Path, window: str = "") -> Book:
    """Open a book on the evening of 25 June 2026."""
    return Book.open(path, lambda: NOW, window=window)


def undo(book: Book, of: Scope) -> str:
    """Undo the last thing saved of a job or a list."""
    return book.undo(book.undoable(of))


def redo(book: Book, of: Scope) -> str:
    """Do again what was undone last of a job or a list."""
    return book.redo(book.redoable(of))


def last_of(path: Path) -> Scope:
    """What the last action of all was of."""
    ((job_id, name),) = query(path, "SELECT job_id, list_name FROM action ORDER BY id DESC LIMIT 1")
    return job_id or ListName(name)


@contextmanager
def opened(path: Path) -> Iterator[Book]:
    """A book that is closed again."""
    with closing(open_book(path)) as book:
        yield book


def read_again(path: Path, job: Job) -> Job:
    """The job as it is recorded, read through a book of its own."""
    with opened(path) as book:
        return book.job(job.id or 0)


def query(path: Path, sql: str, **given: Any) -> list[Cells]:
    """What plain SQL reads, or writes, on a connection that knows nothing of stock."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        return connection.execute(sql, given).fetchall()


def dump(path: Path, *left_out: str) -> dict[str, list[Cells]]:
    """Every row of every table, but for those left out."""
    with closing(sqlite3.connect(path)) as connection:
        listed = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        names = [name for (name,) in connection.execute(listed)]
        return {
            name: connection.execute(f'SELECT * FROM "{name}" ORDER BY 1').fetchall()  # noqa: S608 -- the book's own names
            for name in names
            if name not in left_out
        }


def settle(book: Book) -> None:
    """The trader's details and the prices."""
    book.save_trader(builders.trader())
    for price in priced.PRICES:
        book.set_price(price)


def enquired(book: Book, place: str = "Birch Lane") -> Job:
    """A job just asked for."""
    return book.take_enquiry(
        EnquiryRecord(builders.customer(), builders.site(place=place), builders.enquiry())
    )


def surveyed(book: Book, place: str = "Birch Lane") -> Job:
    """A job whose roof is surveyed."""
    job = book.save_survey(enquired(book, place), builders.survey())
    return book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))


def one_option(job: Job) -> Quote:
    """A quote with a deposit and one covering."""
    return priced.quote(deposit=DEPOSIT, job=job)


def quote_for(job: Job) -> Quote:
    """A quote with a deposit and two coverings, the second with fewer lines."""
    made = one_option(job)
    first = made.options[0]
    second = replace(first, covering="hexagonal", colour="green", lines=first.lines[:3])
    return replace(made, options=(first, second))


def quoted(book: Book, place: str = "Birch Lane") -> Job:
    """A job whose quote was sent."""
    job = surveyed(book, place)
    job = book.save_quote(job, quote_for(job))
    return book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))


def booked(book: Book, place: str = "Birch Lane") -> Job:
    """A job that was accepted, with its day."""
    job = quoted(book, place)
    option = job.quotes[0].options[0].id or 0
    job = book.accept_quote(job, builders.acceptance(option_id=option))
    job = book.book_days(job, Booking((builders.booked_day(),), materials_in_hand=True))
    return book.move_stage(job, StageMove(Stage.BOOKED, builders.AGREED, BOTH_ON_A_DAY))


def laid(book: Book, place: str = "Birch Lane") -> Job:
    """A job that is laid and recorded, not invoiced."""
    job = book.record_stripping(booked(book, place), builders.stripping())
    job = book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, {}))
    job = book.record_laying(job, builders.laying())
    rows = estimate(job.quotes[0].counting.basis)
    job = book.record_usage(job, UsageRecord(rows, leftovers_to_stock(job, rows, builders.LAY_DAY)))
    return book.move_stage(job, StageMove(Stage.LAID, builders.LAY_DAY, {}))


def bill(path: Path, job_id: int) -> None:
    """Ask for the deposit and for the rest, and take the money for both."""
    with opened(path) as book:
        job = book.issue_deposit_invoice(book.job(job_id), builders.SIGNED)
        job = book.issue_invoice(job, builders.SIGNED)
        for document in job.documents:
            job = book.record_payment(
                job, Received(document.id or 0, document.owed, builders.DUE, "bank transfer")
            )
