"""Plain SQL cannot change what was agreed and invoiced, nor set too much money against it."""

import shutil
import sqlite3
from pathlib import Path

import pytest

from domain.job import Received
from storage.migrations.versions.freeze_what_was_accepted import ACCEPTED
from storage.migrations.versions.freeze_what_was_sent import NUMBERED
from storage.migrations.versions.guard_what_was_agreed import AGREED, NAMED, TOO_MUCH
from storage.migrations.versions.use_credit_on_other_jobs import OF_ONE_CUSTOMER
from tests import builders
from tests.storage.books import DOCUMENT, dump, laid, opened, query, quoted, redo, settle, undo

COPIED = (
    "SELECT NULL, job_id, '{0}', {1}, '{0}', issued_on, tax_point, due_on, 1, '{{}}', NULL"
    " FROM document WHERE id = 1"
)

REFUSED = (
    (
        ACCEPTED,
        "UPDATE acceptance SET option_id = (SELECT max(id) FROM option WHERE quote_id = 2)"
        " WHERE quote_id = 2",
    ),
    (ACCEPTED, "UPDATE acceptance SET quote_id = 3 WHERE quote_id = 2"),
    (ACCEPTED, "DELETE FROM acceptance WHERE quote_id = 2"),
    (ACCEPTED, "REPLACE INTO acceptance SELECT * FROM acceptance WHERE quote_id = 2"),
    (
        AGREED,
        "UPDATE acceptance SET option_id = (SELECT max(id) FROM option WHERE quote_id = 1)"
        " WHERE quote_id = 1",
    ),
    (AGREED, "DELETE FROM acceptance WHERE quote_id = 1"),
    (AGREED, "REPLACE INTO acceptance SELECT * FROM acceptance WHERE quote_id = 1"),
    (NAMED, "UPDATE job SET ref = '0100' WHERE id = 1"),
    (TOO_MUCH, "INSERT INTO allocation SELECT NULL, 2, 1, gross, 0 FROM document WHERE id = 1"),
    (TOO_MUCH, "INSERT INTO allocation VALUES (NULL, 2, 1, 9901, 0)"),
    (OF_ONE_CUSTOMER, "INSERT INTO allocation VALUES (NULL, 3, 1, 1, 0)"),
    (OF_ONE_CUSTOMER, "INSERT INTO allocation VALUES (NULL, 2, (SELECT id FROM document"
                 " WHERE series = 'receipt' AND job_id = 1), 1, 0)"),
    ("CHECK constraint failed", "INSERT INTO payment VALUES (NULL, 1, '2026-07-01',-5, 'card', 0)"),
    ("CHECK constraint failed", "INSERT INTO payment VALUES (NULL, 1, '2026-07-01', 0, 'cash', 0)"),
    ("CHECK constraint failed", "INSERT INTO allocation VALUES (NULL, 2, 1, -1, 0)"),
    *((NUMBERED, f"INSERT INTO document ({DOCUMENT}) {COPIED.format(*forged)}") for forged in (
        ("invoice", 1), ("invoice", 3), ("invoice", -1), ("receipt", 1), ("receipt", 3),
    )),
)  # fmt: skip


@pytest.fixture(scope="module")
def _agreed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two jobs: of the first a deposit of £100 asked for, £1 paid on it and £99 not set yet."""
    path = tmp_path_factory.mktemp("agreed") / "book.headlap"
    with opened(path) as book:
        settle(book)
        job = book.issue_deposit_invoice(laid(book), builders.SIGNED)
        key = job.documents[0].id or 0
        book.record_payment(job, Received(key, 1_00, builders.SIGNED, "cash"))
        laid(book, "The Green")
    query(path, "INSERT INTO payment VALUES (2, 1, '2026-07-01', 20000, 'cash', 0)")
    query(path, "INSERT INTO payment VALUES (3, 2, '2026-07-01', 20000, 'cash', 0)")
    return path


@pytest.fixture
def agreed(_agreed: Path, path: Path) -> Path:
    """The same, a copy for each test."""
    shutil.copy(_agreed, path)
    return path


@pytest.mark.parametrize(("sentence", "statement"), REFUSED, ids=[sql for _, sql in REFUSED])
def test_the_database_refuses(agreed: Path, sentence: str, statement: str) -> None:
    before = dump(agreed)
    with pytest.raises(sqlite3.IntegrityError, match=sentence):
        query(agreed, statement)
    assert dump(agreed) == before


def test_what_is_owed_can_be_paid_to_the_last_penny(agreed: Path) -> None:
    query(agreed, "INSERT INTO allocation VALUES (NULL, 2, 1, 9900, 0)")


def test_who_said_yes_and_when_can_still_be_put_right(agreed: Path) -> None:
    query(agreed, "UPDATE acceptance SET who = 'Mr Adeyemi' WHERE quote_id = 1")


def test_another_yes_and_its_undo_change_what_is_not_invoiced_yet(agreed: Path) -> None:
    """Of the other covering, of who said it, and none at all, there and back."""
    ways = "SELECT option_id, who FROM acceptance WHERE quote_id = 2"
    with opened(agreed) as book:
        job = book.job(2)
        before = query(agreed, ways)
        other = job.quotes[0].options[1].id or 0
        for who in ("Mr Adeyemi", "Miss Adeyemi"):
            job = book.accept_quote(job, builders.acceptance(option_id=other, who=who))
        after = query(agreed, ways)
        assert after == [(other, "Miss Adeyemi")]
        for _ in range(2):
            undo(book, 2)
        assert query(agreed, ways) == before
        for _ in range(2):
            redo(book, 2)
    assert query(agreed, ways) == after


def test_a_yes_is_taken_back_by_its_undo_and_given_again(path: Path) -> None:
    with opened(path) as book:
        settle(book)
        job = quoted(book)
        option = job.quotes[0].options[0].id or 0
        book.accept_quote(job, builders.acceptance(option_id=option))
        undo(book, 1)
        assert query(path, "SELECT * FROM acceptance") == []
        redo(book, 1)
    assert query(path, "SELECT option_id FROM acceptance") == [(option,)]
