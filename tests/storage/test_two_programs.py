"""Another program opens and closes the book while this one has it open.

SQLite's locks belong to the process: opening the file beside SQLite and closing it again would drop
them, and the other program, the last as it believes, would take the -wal file away.
Source: "How To Corrupt An SQLite Database File", section 2.2 (sqlite.org/howtocorrupt.html); read.
"""

import subprocess
import sys
from pathlib import Path

import pytest

from domain.job import Customer, Enquiry, EnquiryRecord, Site
from storage.book import Book
from storage.week_and_jobs import find_jobs, read_week
from tests.storage.books import NOW

TODAY = NOW.date()

COMES_AND_GOES = """
import sqlite3, sys
book = sqlite3.connect(sys.argv[1])
book.execute("SELECT * FROM trader").fetchall()
book.close()
"""


def another_program_comes_and_goes(path: Path) -> None:
    """Only SQLite of it: the locks are all that the first one meets."""
    command = [sys.executable, "-c", COMES_AND_GOES, str(path)]
    subprocess.run(command, check=True)


def ring(book: Book, name: str) -> None:
    book.take_enquiry(EnquiryRecord(Customer(name), Site("Rook Lane"), Enquiry(TODAY)))


@pytest.mark.parametrize("look", ["the week", "a second window"])
def test_what_is_saved_after_another_program_left_is_on_disk(tmp_path: Path, look: str) -> None:
    path = tmp_path / "book.db"
    book = Book.open(path, lambda: NOW)
    ring(book, "Ms Brandreth")
    if look == "the week":
        read_week(path, TODAY)
    else:
        Book.open(path, lambda: NOW).close()
    another_program_comes_and_goes(path)
    ring(book, "Mr Teale")
    names = [line.customer for line in find_jobs(path, "")]
    book.close()
    assert names == ["Mr Teale", "Ms Brandreth"]
    assert [line.customer for line in find_jobs(path, "")] == names
