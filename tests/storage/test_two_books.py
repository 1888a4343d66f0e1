"""Two windows on one book: neither writes over the other, and neither is left hanging."""

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from threading import Barrier

import pytest

from domain.accounts.counter_entries import GivenBack
from domain.accounts.credit_note import Credited
from domain.accounts.write_off import GivenUp
from domain.errors import NotNow
from domain.estimate.usage import UsageRecord
from domain.job import (
    Booking,
    Chase,
    Closing,
    DayAnswer,
    DaysMoved,
    DocumentKind,
    Ending,
    EnquiryRecord,
    Extra,
    Job,
    Note,
    Outgoing,
    Received,
    Reopening,
    Rung,
    Sending,
    SignOff,
    Snag,
    Stage,
    StageBack,
    StageMove,
    VatTerms,
    WentAhead,
)
from domain.week import TaskKind
from domain.week.put_off import PutOff
from storage import bookfile
from storage.book import Book
from storage.errors import Changed, Locked
from storage.week_and_jobs import find_jobs
from tests import builders
from tests.storage.books import dump, enquired, one_option, open_book, query, redo, undo

ON = builders.SIGNED
EXTRA = Extra("board", Decimal(1), "m", 14_00, Decimal(0))

ON_A_JOB: Mapping[str, Callable[[Book, Job], object]] = {
    "change_enquiry": lambda book, job: book.change_enquiry(
        job, EnquiryRecord(job.customer, job.site, job.enquiry)
    ),
    "delete_enquiry": lambda book, job: book.delete_enquiry(job),
    "save_survey": lambda book, job: book.save_survey(job, builders.survey()),
    "save_quote": lambda book, job: book.save_quote(job, replace(one_option(job), number=2)),
    "send_quote": lambda book, job: book.send_quote(job, Sending(ON, ON, {})),
    "make_final": lambda book, job: book.make_final(job, Sending(ON, ON, {})),
    "mark_sent": lambda book, job: book.mark_sent(job, Outgoing.INVOICE, 1, ON),
    "accept_quote": lambda book, job: book.accept_quote(job, builders.acceptance()),
    "book_days": lambda book, job: book.book_days(job, Booking((), materials_in_hand=True)),
    "answer_day": lambda book, job: book.answer_day(
        job, DayAnswer(builders.LAY_DAY, WentAhead.RAINED_OFF)
    ),
    "move_days": lambda book, job: book.move_days(job, DaysMoved(job.days, 1)),
    "keep_days": lambda book, job: book.keep_days(job, (Rung(builders.LAY_DAY, ON, "r"),)),
    "ring_again": lambda book, job: book.ring_again(job, PutOff(TaskKind.RING, ON)),
    "tied_down": lambda book, job: book.tied_down(job, ON),
    "move_stage": lambda book, job: book.move_stage(job, StageMove(Stage.SIGNED_OFF, ON, {})),
    "go_back": lambda book, job: book.go_back(job, StageBack(Stage.SURVEY, "why", ON)),
    "end_job": lambda book, job: book.end_job(job, Closing(Ending.CALLED_OFF, "why", ON)),
    "reopen": lambda book, job: book.reopen(job, Reopening("why", ON)),
    "record_stripping": lambda book, job: book.record_stripping(job, builders.stripping()),
    "save_extra": lambda book, job: book.save_extra(job, EXTRA),
    "delete_extra": lambda book, job: book.delete_extra(job, 1),
    "record_laying": lambda book, job: book.record_laying(job, builders.laying()),
    "record_usage": lambda book, job: book.record_usage(job, UsageRecord((), ())),
    "sign_off": lambda book, job: book.sign_off(job, SignOff("Mrs Adeyemi", ON)),
    "put_off": lambda book, job: book.put_off(job, PutOff(TaskKind.BOOK, builders.SIGNED)),
    "write_note": lambda book, job: book.write_note(job, Note("gate code 4417", ON)),
    "delete_note": lambda book, job: book.delete_note(job, 1),
    "save_snag": lambda book, job: book.save_snag(job, Snag("trim")),
    "chase": lambda book, job: book.chase(job, Chase(1, ON, ON, promised=True)),
    "tick_statement": lambda book, job: book.tick_statement(job, 1, ON),
    "write_off": lambda book, job: book.write_off(job, GivenUp(1, ON, "moved away")),
    "take_back_write_off": lambda book, job: book.take_back_write_off(job, GivenUp(1, ON, "paid")),
    "say_vat_terms": lambda book, job: book.say_vat_terms(job, VatTerms.INSIDE, None),
    "issue_invoice": lambda book, job: book.issue_invoice(job, ON),
    "issue_deposit_invoice": lambda book, job: book.issue_deposit_invoice(job, ON),
    "record_payment": lambda book, job: book.record_payment(job, Received(1, 100, ON, "cash")),
    "give_back": lambda book, job: book.give_back(
        job, GivenBack(DocumentKind.MISTAKE, 1, 100, ON, "typed by mistake"), ON
    ),
    "credit": lambda book, job: book.credit(job, Credited(1, 100, "wrong address"), ON),
}
"""Everything that is written of one job."""


@pytest.fixture
def other(book: Book, path: Path) -> Iterator[Book]:
    """The same book in another window."""
    with closing(open_book(path, "other")) as other:
        yield other


@contextmanager
def held(path: Path) -> Iterator[sqlite3.Connection]:
    """Another program that has begun to write."""
    with closing(sqlite3.connect(path, isolation_level=None, check_same_thread=False)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield other


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Books that are opened in this test wait for others a twentieth of a second."""
    monkeypatch.setattr(bookfile, "BUSY_SECONDS", 0.05)


def test_the_list_of_what_is_written_of_a_job_is_whole() -> None:
    takes_a_job = {
        name
        for name in dir(Book)
        if not name.startswith("_") and "job" in getattr(Book, name).__annotations__
    }
    assert takes_a_job == set(ON_A_JOB)


def test_the_second_to_write_is_told_and_writes_over_nothing(three_laid: Path) -> None:
    with closing(open_book(three_laid)) as book, closing(open_book(three_laid)) as other:
        stale = book.job(1)
        other.save_snag(stale, Snag("a ridge piece lifts"))
        before = dump(three_laid)
        for name, write in ON_A_JOB.items():
            with pytest.raises(Changed, match="Nothing was saved"):
                write(book, stale)
            assert dump(three_laid) == before, name


def test_one_who_looks_again_can_write(book: Book, other: Book) -> None:
    stale = enquired(book)
    other.save_snag(stale, Snag("first"))
    fresh = book.job(stale.id or 0)
    assert [s.words for s in book.save_snag(fresh, Snag("second")).snags] == ["first", "second"]


def test_two_jobs_are_in_no_ones_way(book: Book, other: Book) -> None:
    mine, theirs = enquired(book), enquired(other)
    book.save_snag(mine, Snag("mine"))
    assert other.save_snag(theirs, Snag("theirs")).snags[0].words == "theirs"


def test_own_details_and_the_forecast_are_guarded_too(book: Book, other: Book, path: Path) -> None:
    trader, forecast = book.trader(), builders.forecast()
    other.save_trader(replace(trader, phone="01632 960111"))
    other.save_forecasts([forecast])
    before = dump(path)
    with pytest.raises(Changed):
        book.save_trader(replace(trader, phone="01632 960222"))
    with pytest.raises(Changed):
        book.save_forecasts([forecast])
    assert dump(path) == before


def test_what_one_window_saved_since_the_other_opened_only_it_undoes(
    book: Book, other: Book, path: Path
) -> None:
    job = enquired(book)
    job_id = job.id or 0
    book.save_snag(job, Snag("trim"))
    refusal = (
        "Cannot undo: another window saved this last. "
        "Undo it there, or close Headlap here and open it again."
    )
    with pytest.raises(NotNow) as refused:
        undo(other, job_id)
    assert str(refused.value) == refusal
    with closing(open_book(path, "later")) as later:
        assert later.undoable(job_id).clause == "snag “trim” saved"
    undo(book, job_id)
    assert book.job(job_id) == job
    with pytest.raises(NotNow, match="Cannot redo: another window"):
        redo(other, job_id)
    redo(book, job_id)


def test_what_stands_in_a_window_is_not_undone_unseen_once_another_went_first(
    book: Book, other: Book, path: Path
) -> None:
    job = enquired(book)
    job = book.save_snag(book.save_snag(job, Snag("first")), Snag("second"))
    with closing(open_book(path, "later")) as later:
        shown = later.undoable(job.id or 0)
        undo(book, job.id or 0)
        with pytest.raises(NotNow, match="saved or undone meanwhile"):
            later.undo(shown)
    assert [snag.words for snag in book.job(job.id or 0).snags] == ["first"]


@pytest.mark.usefixtures("impatient")
def test_one_who_meets_a_held_book_is_told_and_can_try_again(path: Path) -> None:
    with closing(open_book(path)) as book:
        job = enquired(book)
        before = dump(path)
        with held(path):
            for write in (
                lambda: book.save_snag(job, Snag("trim")),
                lambda: enquired(book),
                lambda: book.save_trader(builders.trader()),
                lambda: undo(book, job.id or 0),
            ):
                with pytest.raises(Locked, match="Nothing was saved: try again"):
                    write()
            assert book.job(job.id or 0) == job
            assert [line.ref for line in find_jobs(path, "")] == [job.ref]
        assert dump(path) == before
        assert book.save_snag(job, Snag("trim")).snags[0].words == "trim"


def test_a_short_hold_is_waited_for(book: Book, path: Path) -> None:
    job = enquired(book)
    with held(path) as holder, ThreadPoolExecutor(1) as pool:
        saved = pool.submit(book.save_snag, job, Snag("trim"))
        holder.execute("ROLLBACK")
        assert saved.result().snags[0].words == "trim"


def test_two_programs_make_one_book_of_a_file_that_is_not_there(path: Path) -> None:
    together = Barrier(4)

    def first_open(_: int) -> str:
        together.wait()
        with closing(open_book(path)) as book:
            return enquired(book).ref

    with ThreadPoolExecutor(4) as pool:
        refs = sorted(pool.map(first_open, range(4)))
    assert refs == ["0001", "0002", "0003", "0004"]
    assert query(path, "SELECT count(*) FROM job") == [(4,)]


def test_one_book_serves_many_threads(three_laid: Path) -> None:
    with closing(open_book(three_laid)) as book, ThreadPoolExecutor(4) as pool:
        jobs = [book.job(job_id) for job_id in (1, 2, 3)]
        saved = pool.map(lambda job: book.save_snag(job, Snag("trim")), jobs)
        read = pool.map(book.job, (1, 2, 3) * 4)
        assert [len(job.snags) for job in saved] == [1, 1, 1]
        assert [job.ref for job in read] == ["0001", "0002", "0003"] * 4
