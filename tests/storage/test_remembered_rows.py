"""What is remembered from one save to the next, and when it is not."""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from domain.job import Snag
from domain.week.put_off import PutOff
from domain.week.tonight_order import TaskKind
from storage.book import Book
from storage.database import _all_or_nothing
from storage.mapping.codec import cells_of
from storage.remembered_rows import RememberedRows
from storage.rows import CustomerRow, SnagRow, SurveyRow
from storage.tables import Tables
from tests.storage.books import query, surveyed

NAME = "UPDATE customer SET name = 'Another' WHERE id = 1"


@pytest.fixture
def driver(book: Book, path: Path) -> Iterator[sqlite3.Connection]:
    surveyed(book)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        yield connection


def in_one(tables: Tables, remembered: RememberedRows) -> object:
    """The first customer's name, read in a transaction of its own."""
    with _all_or_nothing(tables._driver, remembered):
        (row,) = tables.read(CustomerRow, id=1)
    return row["name"]


def test_what_nobody_wrote_is_not_asked_again(driver: sqlite3.Connection) -> None:
    remembered = RememberedRows(driver)
    tables = Tables(driver, remembered)
    asked: list[str] = []
    driver.set_trace_callback(asked.append)
    names = [in_one(tables, remembered) for _ in range(3)]
    assert len(set(names)) == 1
    assert sum('FROM "customer"' in each for each in asked) == 1


def test_where_a_job_has_nothing_is_asked_once(driver: sqlite3.Connection) -> None:
    remembered = RememberedRows(driver)
    tables = Tables(driver, remembered)
    asked: list[str] = []
    driver.set_trace_callback(asked.append)
    for _ in range(3):
        with _all_or_nothing(driver, remembered):
            found = tables.of_job((SurveyRow, SnagRow), 1)
        assert [len(rows) for rows in found.values()] == [1, 0]
    assert sum('"snag"' in each for each in asked) == 1
    row = SnagRow(job_id=1, **cells_of(Snag("Lifted tab"), "id"))
    with _all_or_nothing(driver, remembered):
        tables.add(SnagRow, row.cells())
        assert len(tables.of_job((SurveyRow, SnagRow), 1)[SnagRow]) == 1


def test_what_another_program_wrote_is_read(driver: sqlite3.Connection, path: Path) -> None:
    remembered = RememberedRows(driver)
    tables = Tables(driver, remembered)
    assert in_one(tables, remembered) != "Another"
    with closing(sqlite3.connect(path)) as other:
        other.execute(NAME)
        other.commit()
    assert in_one(tables, remembered) == "Another"


class Hurried(sqlite3.Connection):
    """Another program writes as soon as this one has committed, once."""

    path: Path
    waits = True

    def commit(self) -> None:
        super().commit()
        if self.waits:
            self.waits = False
            with closing(sqlite3.connect(self.path)) as other:
                other.execute(NAME)
                other.commit()


def test_what_another_wrote_right_after_a_save_is_read(book: Book, path: Path) -> None:
    surveyed(book)
    with closing(sqlite3.connect(path, isolation_level=None, factory=Hurried)) as driver:
        driver.path = path
        remembered = RememberedRows(driver)
        tables = Tables(driver, remembered)
        assert in_one(tables, remembered) != "Another"
        assert in_one(tables, remembered) == "Another"


def test_what_this_program_wrote_past_it_is_read(driver: sqlite3.Connection) -> None:
    remembered = RememberedRows(driver)
    tables = Tables(driver, remembered)
    assert in_one(tables, remembered) != "Another"
    driver.execute(NAME)
    assert in_one(tables, remembered) == "Another"


def test_a_save_sees_what_another_window_did_to_the_same_customer(book: Book, path: Path) -> None:
    job = surveyed(book)
    before = book.put_off(job, PutOff(TaskKind.TEST, date(2026, 7, 1)))
    with closing(sqlite3.connect(path)) as other:
        other.execute(NAME)
        other.commit()
    after = book.put_off(before, PutOff(TaskKind.TEST, date(2026, 7, 2)))
    assert (before.customer.name != "Another", after.customer.name) == (True, "Another")


def test_no_trigger_writes_a_table_whose_rows_are_remembered(book: Book, path: Path) -> None:
    found = query(path, "SELECT sql FROM sqlite_master WHERE type = 'trigger'")
    bodies = [sql[sql.upper().index("BEGIN") :] for (sql,) in found]
    written = re.findall(r"(?:INTO|DELETE FROM|\bUPDATE(?! OF)) +\"?(\w+)", " ".join(bodies))
    assert len(bodies) > 20
    assert set(written) == {"listed"}
