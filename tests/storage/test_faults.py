"""A full disk, one that fails, a program that is killed: all is saved or nothing."""

import resource
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from domain.job import EnquiryRecord, Job, Received
from storage import database, texts
from storage.book import Book
from storage.bookfile import connect
from storage.errors import DiskFails, DiskFull, NotKept
from storage.week_and_jobs import find_jobs
from tests import builders
from tests.architecture.sources import ROOT
from tests.storage.books import DEPOSIT, dump, enquired, open_book, opened, query
from tests.storage.test_older_books import book_of_version

LONG = "x" * 100_000
KILLED_HALFWAY = """
import os
import signal
import sys
from decimal import Decimal
from pathlib import Path

from domain.estimate.usage import UsageRecord
from domain.job import Usage
from storage import texts
from tests.storage.books import opened

texts.LINE = 100_000

def moved():
    os.kill(os.getpid(), signal.SIGKILL)
    yield

used = [Usage(f"{n}" + 20_000 * "x", "m", Decimal(1), Decimal(1)) for n in range(120)]
with opened(Path(sys.argv[1])) as book:
    book.record_usage(book.job(1), UsageRecord(used, moved()))
"""


def _asked_again(book: Book, job: Job) -> Job:
    return book.take_enquiry(
        EnquiryRecord(job.customer, builders.site(access=LONG), builders.enquiry())
    )


def _paid(book: Book, job: Job) -> Job:
    return book.record_payment(job, Received(job.documents[0].id or 0, DEPOSIT, builders.DUE, LONG))


def _stripped(book: Book, job: Job) -> Job:
    return book.record_stripping(job, builders.stripping(found=LONG))


ACTIONS = (_asked_again, _paid, _stripped)


@contextmanager
def no_room(most: int) -> Iterator[None]:
    """A disk on which no file grows over so many bytes."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@pytest.fixture
def invoiced(three_laid: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A book with an invoice for a deposit, in which texts are as long as fills a disk."""
    for limit in ("LINE", "NOTE"):
        monkeypatch.setattr(texts, limit, len(LONG))
    with opened(three_laid) as book:
        book.issue_deposit_invoice(book.job(1), builders.SIGNED)
    return three_laid


@pytest.mark.parametrize("act", ACTIONS)
def test_a_full_disk_is_told_and_nothing_is_half_saved(
    invoiced: Path, act: Callable[[Book, Job], Job], monkeypatch: pytest.MonkeyPatch
) -> None:
    connections: list[sqlite3.Connection] = []

    def connect_to_a_full_disk(path: Path) -> sqlite3.Connection:
        connections.append(connect(path))
        connections[-1].execute("PRAGMA max_page_count = 1")  # no more than there are
        return connections[-1]

    monkeypatch.setattr(database, "connect", connect_to_a_full_disk)
    with opened(invoiced) as book:
        job, before = book.job(1), dump(invoiced)
        with pytest.raises(DiskFull, match="Nothing was saved: make room, then try again"):
            act(book, job)
        assert dump(invoiced) == before
        assert book.job(1) == job
        connections[-1].execute("PRAGMA max_page_count = 1000000")
        act(book, job)
    assert dump(invoiced) != before


@pytest.mark.parametrize("act", ACTIONS)
def test_a_disk_that_fails_in_mid_write_is_told_and_nothing_is_half_saved(
    invoiced: Path, act: Callable[[Book, Job], Job]
) -> None:
    with opened(invoiced) as book:
        job, before = book.job(1), dump(invoiced)
        with no_room(50_000), pytest.raises(DiskFails, match="Nothing was saved"):
            act(book, job)
        assert Path(f"{invoiced}-wal").stat().st_size > 4096
        assert dump(invoiced) == before
        assert book.job(1) == job
        act(book, job)
    assert dump(invoiced) != before
    assert query(invoiced, "PRAGMA integrity_check") == [("ok",)]


def test_a_book_that_cannot_be_made_for_want_of_room_can_be_made_later(path: Path) -> None:
    with no_room(10_000), pytest.raises(DiskFails):
        open_book(path)
    with opened(path) as book:
        assert enquired(book).ref == "0001"


def test_an_older_book_stays_when_there_is_no_room_for_its_copy(path: Path) -> None:
    before = book_of_version(path, 1).read_bytes()
    with no_room(len(before) - 1), pytest.raises(DiskFails):
        open_book(path)
    assert path.read_bytes() == before
    assert list((path.parent / "backups").iterdir()) == []


@pytest.mark.long
def test_a_program_killed_in_mid_write_leaves_the_book_as_before(three_laid: Path) -> None:
    before = dump(three_laid)
    killed = subprocess.run(
        [sys.executable, "-c", KILLED_HALFWAY, three_laid],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert killed.returncode == -signal.SIGKILL, killed.stderr
    assert Path(f"{three_laid}-wal").stat().st_size > 1_000_000  # much was written already
    assert len(find_jobs(three_laid, "")) == 3
    assert dump(three_laid) == before
    with opened(three_laid) as book:
        assert book.save_survey(book.job(1), builders.survey()).ref == "0001"
    assert query(three_laid, "PRAGMA integrity_check") == [("ok",)]


@pytest.mark.parametrize(
    ("customer", "rough"),
    [("half a character \ud800", 0), ("Mrs Vane", 2**63), ("Mrs Vane", -1)],
)
def test_what_a_book_cannot_hold_is_told_and_nothing_is_saved(
    book: Book, path: Path, customer: str, rough: int
) -> None:
    before = dump(path)
    with pytest.raises(NotKept, match="That could not be saved"):
        book.take_enquiry(
            EnquiryRecord(
                builders.customer(name=customer), builders.site(), builders.enquiry(rough=rough)
            )
        )
    assert dump(path) == before
    assert enquired(book).ref == "0001"
