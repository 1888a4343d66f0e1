"""What is taken back is as if it had never been; what others hold a paper of stays."""

import json
import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings

from domain.errors import HeadlapError, NotNow
from domain.job import Extra, Job, Received, Sending, Snag
from domain.scope import ListName
from storage.book import Book
from storage.errors import Changed
from tests import builders
from tests.storage.books import (
    NOW,
    Cells,
    dump,
    enquired,
    last_of,
    one_option,
    opened,
    query,
    redo,
    surveyed,
    undo,
)
from tests.storage.steps import TODAY, Step, steps, take

ON_RECORD = ("action", "journal")
"""What undoing adds to; all else is as it was."""
CLAUSE = re.compile(
    r"(?!the )(?:.+, )?(?:.+ (?:saved|added|recorded|issued|deleted|changed)|reopened"
    r"|.*marked as \w+(?: off)?|put back to \w+(?: off)?|closed as \w+(?: off)?"
    r"|\w+ \d+ \w+ (?:rained off|part done|did not go ahead: .+)"
    r"|moved to \w+ \d+ \w+|rung about \w+ \d+ \w+: it stays|rung, no answer: .+)"
)
"""What was done to what: it reads after “Undone:”."""


def state(path: Path) -> dict[str, list[Cells]]:
    """Every row of what the journal is about."""
    return dump(path, *ON_RECORD)


_ISSUED = """
    SELECT 1 FROM journal
    WHERE entity = 'document' AND action_id = (SELECT max(id) FROM action)
"""
"""Whether the last action issued a paper."""


@settings(max_examples=10)
@given(taken=steps(most=10))
def test_whatever_was_done_is_undone_step_by_step_and_done_again(
    all_sorts: Path, taken: list[Step]
) -> None:
    path = all_sorts.with_name("undone.headlap")
    shutil.copy(all_sorts, path)
    with opened(path) as book:
        passed, scopes = [state(path)], []
        for step in taken:
            try:
                take(book, step)
            except HeadlapError:
                assert state(path) == passed[-1]
            else:
                if state(path) == passed[-1]:  # what changes nothing is no action
                    continue
                passed.append(state(path))
                scopes.append(last_of(path))
                if query(path, _ISSUED):  # calling off credits what was asked for: that is final
                    passed, scopes = passed[-1:], []
            assert all(line.quantity > 0 for line in book.stock())
        for of, before in zip(reversed(scopes), reversed(passed[:-1]), strict=True):
            assert CLAUSE.fullmatch(undo(book, of))
            assert state(path) == before
        for of, after in zip(scopes, passed[1:], strict=True):
            redo(book, of)
            assert state(path) == after
    path.unlink()


def test_the_journal_tells_what_was_done_and_what_was_taken_back(book: Book) -> None:
    enquired(book, "The Green")
    job = book.save_snag(enquired(book, "Quay"), Snag("trim"))
    assert undo(book, job.id or 0) == "snag “trim” saved"
    told = [(entry.words, entry.undone, entry.at) for entry in book.recent(3)]
    assert told == [
        ("0002 Quay, snag “trim” saved", True, NOW),
        ("enquiry of Mrs Adeyemi added", False, NOW),
        ("enquiry of Mrs Adeyemi added", False, NOW),
    ]


def test_every_action_is_told_in_a_clause_that_reads_after_undone(all_sorts: Path) -> None:
    with opened(all_sorts) as book:
        told = [entry.words for entry in book.recent(1000)]
    assert len(told) > 100
    assert [words for words in told if not CLAUSE.fullmatch(words)] == []


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
    as_new |= {"hours": "0", "materials": "", "cost": 0}
    as_done = {**as_new, "done_on": "2026-06-25"}
    assert images == [(None, as_new), (as_new, as_done)]


def test_undone_work_can_be_done_again_by_who_read_it_before(book: Book) -> None:
    job = enquired(book)
    written = book.save_snag(job, Snag("trim"))
    undo(book, job.id or 0)
    with pytest.raises(Changed):
        book.save_snag(written, Snag("on top of what was taken back"))
    assert book.save_snag(job, Snag("trim")).snags[0].words == "trim"


def test_there_is_an_end_to_what_can_be_taken_back(path: Path) -> None:
    with opened(path) as book:
        before = state(path)
        undo(book, enquired(book).id or 0)
        with pytest.raises(NotNow, match="Nothing to undo"):
            undo(book, 1)
        assert state(path) == before


WITH_THEM = "It is put right on the money page."


def _sent(book: Book) -> Job:
    job = surveyed(book)
    return book.send_quote(
        book.save_quote(job, one_option(job)), Sending(builders.SENT, builders.VALID_UNTIL, {})
    )


def _invoiced(book: Book) -> Job:
    return book.issue_invoice(book.job(1), builders.SIGNED)


def _deposit_asked(book: Book) -> Job:
    return book.issue_deposit_invoice(book.job(1), builders.AGREED)


def _paid(book: Book) -> Job:
    job = book.issue_invoice(book.job(1), builders.SIGNED)
    return book.record_payment(job, Received(job.documents[0].id or 0, 1, builders.DUE, "cash"))


@pytest.mark.parametrize(
    ("done", "sentence"),
    [
        (_sent, "Cannot undo: a quote marked as sent is final. Make a new version of it."),
        (_deposit_asked, "Cannot undo: an issued invoice or receipt is final. " + WITH_THEM),
        (_invoiced, "Cannot undo: an issued invoice or receipt is final. " + WITH_THEM),
        (_paid, "Cannot undo: a recorded payment is final. " + WITH_THEM),
    ],
)
def test_what_others_hold_a_paper_of_stays(
    three_laid: Path, done: Callable[[Book], Job], sentence: str
) -> None:
    with opened(three_laid) as book:
        job = done(book)
        before = dump(three_laid)
        with pytest.raises(NotNow) as refused:
            undo(book, job.id or 0)
    assert str(refused.value) == sentence
    assert dump(three_laid) == before


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
    with pytest.raises(NotNow, match="it was changed since"):
        undo(book, job.id or 0)
    assert dump(path) == before


def test_what_stands_in_the_place_of_what_was_deleted_stays(book: Book, path: Path) -> None:
    job = book.save_extra(enquired(book), Extra("board", Decimal(1), "m", 1, Decimal(0)))
    book.delete_extra(job, job.extras[0].id or 0)
    query(
        path,
        "INSERT INTO extra VALUES"
        " (1, :job, 'new', '1', 'm', 1, '0', 'to agree', '', NULL, NULL, 0, 0)",
        job=job.id,
    )
    before = dump(path)
    with pytest.raises(NotNow, match="it was changed since"):
        undo(book, job.id or 0)
    assert dump(path) == before


def test_a_fault_while_it_is_taken_back_leaves_it_done(book: Book, path: Path) -> None:
    job = surveyed(book)
    book.save_quote(job, one_option(job))
    query(path, "CREATE TRIGGER fault AFTER DELETE ON quote BEGIN SELECT RAISE(FAIL, 'no'); END")
    before = dump(path)
    with pytest.raises(NotNow, match="no"):
        undo(book, job.id or 0)
    assert dump(path) == before


def test_a_column_that_came_since_is_no_change_and_keeps_what_it_holds(path: Path) -> None:
    with opened(path) as book:
        enquired(book)
        book.save_trader(builders.trader(version=0))
        saved = book.trader()
        book.save_trader(replace(saved, phone="01632 960999"))
    query(path, "ALTER TABLE trader ADD COLUMN van_colour TEXT NOT NULL DEFAULT 'white'")
    query(path, "UPDATE trader SET van_colour = 'green'")
    with opened(path) as book:
        assert undo(book, ListName.DETAILS) == "your details saved"
        assert book.trader().phone == saved.phone
    assert query(path, "SELECT van_colour FROM trader") == [("green",)]


def test_a_row_that_is_put_back_begins_with_the_default_of_a_column_that_came_since(
    path: Path,
) -> None:
    with opened(path) as book:
        job = book.save_extra(
            enquired(book), Extra("new fascia", Decimal(1), "job", 40_00, Decimal(0))
        )
        book.delete_extra(job, job.extras[0].id or 0)
    query(path, "ALTER TABLE extra ADD COLUMN photo TEXT NOT NULL DEFAULT 'none'")
    with opened(path) as book:
        undo(book, 1)
        assert [extra.words for extra in book.job(1).extras] == [job.extras[0].words]
    assert query(path, "SELECT photo FROM extra") == [("none",)]
