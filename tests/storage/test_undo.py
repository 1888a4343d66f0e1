"""What is taken back is as if it had never been; what others hold a paper of stays."""

import json
import shutil
from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from domain.errors import HeadlapError, NotNow
from domain.job import Ending, Extra, ExtraState, Job, SignOff, Site, Snag, Stage
from domain.stages import next_stage
from domain.stock import Material, StockMove
from storage.book import Book
from storage.errors import Changed
from tests import builders, priced
from tests.storage.all_sorts import NOTES
from tests.storage.books import (
    NOW,
    Cells,
    booked,
    dump,
    enquired,
    laid,
    one_option,
    opened,
    query,
    surveyed,
)

TODAY = NOW.date()
ON_RECORD = ("action", "journal")
"""What undoing adds to; all else is as it was."""


def state(path: Path) -> dict[str, list[Cells]]:
    """Every row of what the journal is about."""
    return dump(path, *ON_RECORD)


def _draft(book: Book, job: Job, n: int) -> None:
    sent = sum(quote.sent_on is not None for quote in job.quotes)
    book.save_quote(job, replace(one_option(job), number=sent + 1, deposit=n))


def _accept(book: Book, job: Job, n: int) -> None:
    options = [option for quote in job.quotes for option in quote.options]
    chosen = options[n % len(options)].id if options else 0
    book.accept_quote(job, builders.acceptance(option_id=chosen, who=f"Mrs {n}"))


def _extra(book: Book, job: Job, n: int) -> None:
    extra = Extra(f"board {n}", Decimal(n), "m", n, Decimal(0), ExtraState.NOT_CHARGED)
    known = job.extras[n % len(job.extras)].id if job.extras and n % 3 else None
    if known is not None and n % 3 == 1:
        book.drop_extra(job, known)
    else:
        book.save_extra(job, replace(extra, id=known))


def _snag(book: Book, job: Job, n: int) -> None:
    known = job.snags[0].id if job.snags and n % 2 else None
    book.save_snag(job, Snag(f"snag {n}", TODAY if n % 3 else None, id=known))


def _used(book: Book, job: Job, n: int) -> None:
    moves = (StockMove(Material.MASTIC, "", Decimal(n - 4), TODAY, "counted"),)
    book.record_usage(job, builders.usages()[: n % 5], moves[: n % 2])


def _on(book: Book, job: Job, n: int) -> None:
    book.move_stage(job, next_stage(job) or Stage.ENQUIRY, TODAY, NOTES if n % 3 else {})


def _again(book: Book, job: Job, n: int) -> None:
    customer = replace(job.customer, phone=f"0{n}") if n % 2 else builders.customer()
    book.take_enquiry(customer, Site(f"place {n}"), builders.enquiry(rough=n))


def _corrected(book: Book, job: Job, n: int) -> None:
    customer, site = replace(job.customer, name=f"name {n}"), Site(f"place {n}")
    book.change_enquiry(job, customer, site, builders.enquiry(rough=n))


ACTIONS: Mapping[str, Callable[[Book, Job, int], object]] = {
    "asks again": _again,
    "corrected": _corrected,
    "surveyed": lambda book, job, n: book.save_survey(
        job, builders.survey(measures=builders.measures(span=builders.mm(1800 + n)))
    ),
    "drafted": _draft,
    "accepted": _accept,
    "booked": lambda book, job, n: book.book_days(
        job, (builders.booked_day(hours=Decimal(n)),) * (n % 3), bool(n % 2)
    ),
    "stripped": lambda book, job, n: book.record_stripping(
        job, builders.stripping(found=f"{n} boards")
    ),
    "extra": _extra,
    "laid": lambda book, job, n: book.record_laying(job, builders.laying(temperature_c=Decimal(n))),
    "used": _used,
    "snag": _snag,
    "signed": lambda book, job, n: book.sign_off(job, SignOff(f"Mrs {n}", TODAY)),
    "on": _on,
    "back": lambda book, job, n: book.go_back(job, list(Stage)[n % 7], "why", TODAY),
    "ended": lambda book, job, n: book.end_job(job, list(Ending)[n % 2], "why", TODAY),
    "reopened": lambda book, job, n: book.reopen(job, f"why {n}", TODAY),
    "price": lambda book, job, n: book.set_price(priced.price(Material.NAILS, n, "9")),
    "stock": lambda book, job, n: book.move_stock(StockMove(Material.NAILS, "", Decimal(n), TODAY)),
    "trader": lambda book, job, n: book.save_trader(replace(book.trader(), phone=f"0{n}")),
    "outlook": lambda book, job, n: book.save_outlook(
        replace(next(iter(book.outlooks(TODAY, TODAY)), builders.outlook(TODAY)), low_c=Decimal(n))
    ),
}


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(st.sampled_from(sorted(ACTIONS)), st.integers(1, 12), st.integers(0, 9)),
        min_size=1,
        max_size=10,
    )
)
def test_whatever_was_done_is_taken_back_step_by_step(
    all_sorts: Path, steps: list[tuple[str, int, int]]
) -> None:
    path = all_sorts.with_name("undone.headlap")
    shutil.copy(all_sorts, path)
    with opened(path) as book:
        passed = [state(path)]
        for name, job_id, n in steps:
            try:
                ACTIONS[name](book, book.job(job_id), n)
            except HeadlapError:
                assert state(path) == passed[-1]
            else:
                passed.append(state(path))
        for before in reversed(passed[:-1]):
            book.undo()
            assert state(path) == before
    path.unlink()


def test_the_journal_tells_what_was_done_and_what_was_taken_back(book: Book) -> None:
    enquired(book, "The Green")
    job = book.save_snag(enquired(book, "Quay"), Snag("trim"))
    assert book.undo() == f"the snag “trim” of {job.ref} Quay"
    told = [(entry.words, entry.undone, entry.at) for entry in book.recent(3)]
    assert told == [
        ("the snag “trim” of 0002 Quay", True, NOW),
        ("the enquiry of Mrs Adeyemi", False, NOW),
        ("the enquiry of Mrs Adeyemi", False, NOW),
    ]


def test_every_row_an_action_wrote_is_in_the_journal_before_and_after(
    book: Book, path: Path
) -> None:
    job = book.save_snag(enquired(book), Snag("trim"))
    job = book.save_snag(job, replace(job.snags[0], done_on=TODAY))
    written = "SELECT before, after FROM journal WHERE entity = 'snag' ORDER BY id"
    images = [
        tuple(json.loads(image) if image else None for image in images)
        for images in query(path, written)
    ]
    as_new = {"id": 1, "job_id": job.id, "words": "trim", "done_on": None}
    as_done = {**as_new, "done_on": "2026-06-25"}
    assert images == [(None, as_new), (as_new, as_done)]


def test_undone_work_can_be_done_again_by_who_read_it_before(book: Book) -> None:
    job = enquired(book)
    written = book.save_snag(job, Snag("trim"))
    book.undo()
    with pytest.raises(Changed):
        book.save_snag(written, Snag("on top of what was taken back"))
    assert book.save_snag(job, Snag("trim")).snags[0].words == "trim"


def test_there_is_an_end_to_what_can_be_taken_back(path: Path) -> None:
    with opened(path) as book:
        before = state(path)
        enquired(book)
        book.undo()
        with pytest.raises(NotNow, match="nothing left to take back"):
            book.undo()
        assert state(path) == before


def _sent(book: Book) -> None:
    job = surveyed(book)
    book.send_quote(book.save_quote(job, one_option(job)), builders.SENT, builders.HOLDS, {})


def _invoiced(book: Book) -> None:
    book.issue_invoice(laid(book), builders.SIGNED)


def _deposit_asked(book: Book) -> None:
    book.issue_deposit_invoice(booked(book), builders.AGREED)


def _paid(book: Book) -> None:
    job = book.issue_invoice(laid(book), builders.SIGNED)
    book.record_payment(job, job.documents[0].id or 0, 1, builders.DUE, "cash")


@pytest.mark.parametrize(
    ("done", "sentence"),
    [
        (_sent, "A quote that was sent stays: make a new version of it."),
        (_deposit_asked, "An issued document stays: it cannot be taken back."),
        (_invoiced, "An issued document stays: it cannot be taken back."),
        (_paid, "An issued document stays: it cannot be taken back."),
    ],
)
def test_what_others_hold_a_paper_of_stays(
    book: Book, path: Path, done: Callable[[Book], None], sentence: str
) -> None:
    done(book)
    before = dump(path)
    with pytest.raises(NotNow) as refused:
        book.undo()
    assert str(refused.value) == sentence
    assert dump(path) == before


@pytest.mark.parametrize(
    "meanwhile",
    [
        "UPDATE snag SET words = 'changed'",
        "DELETE FROM snag",
        "UPDATE job SET version = 999",
        "UPDATE job SET said = 'changed'",
    ],
)
def test_what_was_changed_since_stays(book: Book, path: Path, meanwhile: str) -> None:
    job = enquired(book)
    book.save_snag(job, Snag("trim"))
    query(path, meanwhile)
    before = dump(path)
    with pytest.raises(NotNow, match="It was changed since"):
        book.undo()
    assert dump(path) == before


def test_what_stands_in_the_place_of_what_was_dropped_stays(book: Book, path: Path) -> None:
    job = book.save_extra(enquired(book), Extra("board", Decimal(1), "m", 1, Decimal(0)))
    book.drop_extra(job, job.extras[0].id or 0)
    query(
        path,
        "INSERT INTO extra VALUES"
        " (1, :job, 'new', '1', 'm', 1, '0', 'to agree', '', NULL, NULL, 0)",
        job=job.id,
    )
    before = dump(path)
    with pytest.raises(NotNow, match="It was changed since"):
        book.undo()
    assert dump(path) == before


def test_a_fault_while_it_is_taken_back_leaves_it_done(book: Book, path: Path) -> None:
    job = surveyed(book)
    book.save_quote(job, one_option(job))
    query(path, "CREATE TRIGGER fault AFTER DELETE ON quote BEGIN SELECT RAISE(FAIL, 'no'); END")
    before = dump(path)
    with pytest.raises(NotNow, match="no"):
        book.undo()
    assert dump(path) == before
