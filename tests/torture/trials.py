"""What is killed: the making of a book, and the bringing up to date of an old one."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from domain.errors import HeadlapError
from storage.bookfile import SCHEMA
from storage.errors import NotCurrent
from storage.week_and_jobs import find_jobs
from tests.storage.books import enquired, open_book, opened, query
from tests.storage.test_older_books import book_of_version
from tests.torture.kills import Trial


def _open(path: Path) -> None:
    open_book(path).close()


def _fault(path: Path, jobs: int) -> str:
    """Look at it as the first screen does, then open it and go on with it."""
    try:
        try:
            found = len(find_jobs(path, ""))
        except NotCurrent:
            found = jobs
        with opened(path) as book:
            ref = enquired(book).ref
    except HeadlapError as error:
        return f"{type(error).__name__}: {error}"
    wrong = []
    if found != jobs or ref != f"{jobs + 1:04d}":
        wrong.append(f"{found} jobs, the next one {ref}")
    if query(path, "PRAGMA integrity_check") != [("ok",)]:
        wrong.append("damaged")
    if query(path, "PRAGMA user_version") != [(SCHEMA,)]:
        wrong.append("not brought up to date")
    return ", ".join(wrong)


def making() -> Trial:
    """A new book."""
    return Trial("making", lambda path: None, _open, lambda path: _fault(path, 0))


def upgrading(template: Path, journal: str) -> Trial:
    """A book of the first version, in either way of journalling; ``template`` is made once."""
    book_of_version(template, 1)
    with closing(sqlite3.connect(template, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA journal_mode = {journal}")

    def lay_out(path: Path) -> None:
        shutil.copy(template, path)

    return Trial(
        f"upgrading {journal}",
        lay_out,
        _open,
        lambda path: _fault(path, 1),
    )
