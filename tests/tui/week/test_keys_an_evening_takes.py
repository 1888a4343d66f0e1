"""How many keys the two things of every evening take, from launch to the record.

source: the project's own aim, twelve keys at the most for either.
"""

import sqlite3
from contextlib import closing
from datetime import datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any

from domain.job import Cover, Job, Stage, StageMove
from domain.page_names import PageName
from storage.book import Book
from tests import builders
from tests.storage.books import booked, laid, settle
from tests.tui.hands import Clock, Hands, key
from tui.job.money.invoice_dialog import IssueDialog
from tui.shell.app import make_app

MOST_KEYS = 12
EVENING = Clock(datetime.combine(builders.LAY_DAY, time(19, 0)))


def _stripped(book: Book, place: str, **found: Any) -> Job:
    job = book.record_stripping(booked(book, place), builders.stripping(**found))
    return book.move_stage(job, StageMove(Stage.STRIPPED, builders.LAY_DAY, {}))


def _book_with_an_open_deck(path: Path) -> Book:
    """A book in which another job's open deck, and what it used, come first in Tonight."""
    book = Book.open(path, EVENING)
    settle(book)
    job = _stripped(book, "Mill Row")
    book.record_stripping(job, builders.stripping(cover=Cover.OPEN))
    return book


def _rows(path: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


async def test_the_invoice_for_a_job_laid_today(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(_book_with_an_open_deck(path)) as book:
        job = laid(book)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press("down")
        await hands.ask(key("week", "invoice"))
        await hands.press(key("issue", "save"))
        await hands.hears("Issued")
        assert hands.pressed == 3
    assert hands.pressed <= MOST_KEYS
    issued = _rows(path, "SELECT job_id, number, kind, issued_on FROM document")
    assert issued == [(job.id, 1, "invoice", builders.LAY_DAY.isoformat())]


async def test_what_was_used_with_two_corrections(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(_book_with_an_open_deck(path)) as book:
        job = book.record_laying(_stripped(book, "Birch Lane"), builders.laying())
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press("down", key("week", "used"))
        await hands.shows(PageName.MATERIALS)
        await hands.press("5", "3", "enter", key("used", "step(1)"), key("used", "accept_all"))
        await hands.hears("Saved")
        assert hands.pressed == 7
    assert hands.pressed <= MOST_KEYS
    query = "SELECT job_id, element, estimated, used FROM usage ORDER BY id"
    rows = _rows(path, query)
    assert {row[0] for row in rows} == {job.id}
    over = {element: Decimal(used) - Decimal(estimated) for _, element, estimated, used in rows}
    assert {element: by for element, by in over.items() if by} == {"strips": -2, "underlay": 1}


async def test_a_key_pressed_too_long_issues_no_invoice(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with closing(Book.open(path, EVENING)) as book:
        settle(book)
        laid(book)
    async with make_app(path, EVENING).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.ask(key("week", "open"))
        for _ in range(5):
            await hands.press(key("week", "open"), key("money", "send"))
        await hands.comes_to_rest()
        assert isinstance(hands.app.screen, IssueDialog)
    assert _rows(path, "SELECT number FROM document") == []
