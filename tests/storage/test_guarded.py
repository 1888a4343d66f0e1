"""Plain SQL cannot change what was agreed and invoiced, nor set too much money against it."""

import shutil
import sqlite3
from pathlib import Path

import pytest

from domain.job import Received
from storage.migrations.versions.guard_what_was_agreed import AGREED, NAMED, OF_ONE_JOB, TOO_MUCH
from tests import builders
from tests.storage.books import dump, laid, opened, query, settle

REFUSED = (
    (AGREED, "UPDATE acceptance SET option_id = (SELECT max(id) FROM option WHERE quote_id = 1)"),
    (AGREED, "DELETE FROM acceptance WHERE quote_id = 1"),
    (AGREED, "REPLACE INTO acceptance SELECT * FROM acceptance WHERE quote_id = 1"),
    (NAMED, "UPDATE job SET ref = '0100' WHERE id = 1"),
    (TOO_MUCH, "INSERT INTO allocation SELECT NULL, 2, 1, gross FROM document WHERE id = 1"),
    (TOO_MUCH, "INSERT INTO allocation VALUES (NULL, 2, 1, 9901)"),
    (OF_ONE_JOB, "INSERT INTO allocation VALUES (NULL, 3, 1, 1)"),
    (OF_ONE_JOB, "INSERT INTO allocation VALUES (NULL, 2, (SELECT id FROM document"
                 " WHERE series = 'receipt' AND job_id = 1), 1)"),
    ("CHECK constraint failed", "INSERT INTO payment VALUES (NULL, 1, '2026-07-01', -500, 'cash')"),
    ("CHECK constraint failed", "INSERT INTO payment VALUES (NULL, 1, '2026-07-01', 0, 'cash')"),
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
    query(path, "INSERT INTO payment VALUES (2, 1, '2026-07-01', 20000, 'cash')")
    query(path, "INSERT INTO payment VALUES (3, 2, '2026-07-01', 20000, 'cash')")
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
    query(agreed, "INSERT INTO allocation VALUES (NULL, 2, 1, 9900)")


def test_who_said_yes_and_when_can_still_be_put_right(agreed: Path) -> None:
    query(agreed, "UPDATE acceptance SET who = 'Mr Adeyemi' WHERE quote_id = 1")


def test_a_yes_of_which_nothing_is_invoiced_can_be_taken_back(agreed: Path) -> None:
    query(agreed, "DELETE FROM acceptance WHERE quote_id = 2")
