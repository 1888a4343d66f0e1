"""The short rows that the week and the list are found by are what they would be if made anew."""

import shutil
import sqlite3
from pathlib import Path

import pytest

from bench.books import make_book
from storage import reading
from storage.bookfile import open_current
from storage.week_and_jobs import find_jobs, read_week
from tests.laid_out_once import NOW
from tests.storage.all_sorts import give_back_what_is_over
from tests.storage.books import Cells, bill, opened, query

ANEW = "SELECT * FROM to_list ORDER BY job_id"
KEPT = "SELECT * FROM listed ORDER BY job_id"
CHANGES = (
    "UPDATE customer SET name = 'Zë'",
    "INSERT OR REPLACE INTO customer (id, name, kind, address, phone, email, version, kind_asked)"
    " SELECT id, 'Mrs Ek', kind, '', '', '', 1, 1 FROM customer",
    "UPDATE site SET place = place || ' 2'",
    "UPDATE site SET customer_id = (SELECT max(id) FROM customer)",
    "INSERT OR REPLACE INTO site SELECT id, customer_id, 'Row', '', '', '', 1 FROM site",
    "UPDATE job SET stage = 'survey' WHERE id = :job",
    "UPDATE job SET ended = 'declined' WHERE id = :job",
    "UPDATE job SET site_id = (SELECT max(id) FROM site) WHERE id = :job",
    "UPDATE job SET id = 900 WHERE id = :job",
    "DELETE FROM job WHERE id = :job",
    "INSERT INTO job (id, ref, site_id, stage, ended, ended_why, materials_in_hand, received_on,"
    " said, building, nominal, rough, visit_on, visit_at, version)"
    " SELECT 900, '0900', site_id, 'enquiry', NULL, '', 0, received_on, '', '', '',"
    " NULL, NULL, NULL, 1 FROM job LIMIT 1",
    "UPDATE snag SET done_on = '2026-06-30' WHERE job_id = :snagged",
    "UPDATE snag SET job_id = :job WHERE job_id = :snagged",
    "UPDATE strip SET cover = 'open', job_id = (SELECT id FROM job WHERE ended = 'declined')"
    " WHERE job_id = (SELECT min(job_id) FROM strip)",
    "DELETE FROM snag WHERE job_id = :snagged",
)
"""Each makes some row another one: of an enquiry, or of a job that only a snag keeps in sight."""
ENQUIRY = "SELECT min(id) FROM job WHERE ended IS NULL AND stage = 'enquiry'"
SNAGGED = (
    "SELECT job.id FROM job JOIN site ON site.id = site_id WHERE place = 'Long Done'"
    " AND job.id IN (SELECT job_id FROM snag)"
)


@pytest.fixture
def path(all_sorts: Path, path: Path) -> Path:
    """A copy of the book of all sorts, to change; nobody has anything to their credit."""
    shutil.copy(all_sorts, path)
    ((snagged,), *_) = query(path, SNAGGED)
    with opened(path) as book:
        give_back_what_is_over(book, book.job(snagged))
    return path


@pytest.mark.parametrize("change", CHANGES)
def test_whoever_changes_a_job_changes_its_row(path: Path, change: str) -> None:
    before = query(path, KEPT)
    assert before == query(path, ANEW)
    ((job,),), ((snagged,), *_) = query(path, ENQUIRY), query(path, SNAGGED)
    query(path, change, job=job, snagged=snagged)
    assert query(path, KEPT) == query(path, ANEW) != before


def test_money_takes_a_job_out_of_sight(three_laid: Path) -> None:
    query(three_laid, "UPDATE job SET stage = 'signed off'")

    def under_way() -> list[Cells]:
        assert query(three_laid, KEPT) == query(three_laid, ANEW)
        return query(three_laid, "SELECT job_id FROM listed WHERE under_way ORDER BY 1")

    assert under_way() == [(1,), (2,), (3,)]
    bill(three_laid, 2)
    assert under_way() == [(1,), (3,)]


def test_a_paste_of_many_words_is_searched_for_as_well(path: Path) -> None:
    assert [line.place for line in find_jobs(path, "the green " * 5000)] == ["The Green"]
    assert not find_jobs(path, "the green " * 50 + "lane")


def test_the_week_reads_no_more_of_a_long_history_than_of_a_short_one(
    demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What SQLite does is counted, in hundreds of its own steps."""
    done = [0]

    def counting(path: Path) -> sqlite3.Connection:
        connection = open_current(path)
        connection.set_progress_handler(lambda: done.append(done.pop() + 1), 100)
        return connection

    def steps_of(jobs: int) -> int:
        path = tmp_path / f"{jobs}.headlap"
        make_book(path, demo, jobs, NOW.date())
        done[0] = 0
        read_week(path, NOW.date())
        return done[0]

    monkeypatch.setattr(reading, "open_current", counting)
    short = steps_of(10)
    assert short > 0
    assert steps_of(2000) <= short + 1
