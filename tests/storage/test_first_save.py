"""The first thing a program that was just started saves is of a job that is there already."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.storage.books import query

BEGIN = """
import sys
from datetime import datetime
from pathlib import Path
from domain.estimate.usage import UsageRecord
from domain.job import Note, Received
from storage.book import Book

book = Book.open(Path(sys.argv[1]), lambda: datetime(2026, 6, 25, 19, 0))
job = book.job(1)
{}
book.close()
"""


@pytest.mark.parametrize(
    "save",
    [
        "book.write_note(job, Note('the gate sticks', datetime(2026, 6, 25).date()))",
        "book.record_usage(job, UsageRecord(job.usages, ()))",
        "book.record_payment(job, Received(None, 1_00, datetime(2026, 6, 25).date(), 'cash'))",
    ],
)
def test_a_program_just_started_saves_on_a_job(three_laid: Path, save: str) -> None:
    command = [sys.executable, "-c", BEGIN.format(save), str(three_laid)]
    before = query(three_laid, "SELECT count(*) FROM action")
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (run.returncode, run.stderr) == (0, "")
    assert query(three_laid, "SELECT count(*) FROM action") != before
