"""What is loaded before the first screen stands, seen in a process of its own."""

import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from domain.job import Customer, Enquiry, EnquiryRecord, Site
from storage.book import Book
from tests.architecture.sources import ROOT

NOW = datetime(2026, 11, 25, 19, 30)
HEAVY = {
    "sqlmodel",
    "sqlalchemy",
    "pydantic",
    "cattrs",
    "pint",
    "highspy",
    "numpy",
    "alembic",
    "holidays",
    "shapely",
    "segno",
    "stdnum",
    "typst",
}

LATER = (
    "argparse",
    "domain.job.job",
    "domain.job.account",
    "domain.setting_out",
    "domain.units",
    "domain.estimate",
    "domain.cutting",
    "tui.widgets.form",
)
"""What the week does without: to make the classes of our own takes a third of the start."""

FIRST_PAINT = """
import asyncio
from datetime import datetime
from pathlib import Path
from tui.shell.app import make_app
from tui.frame.open_book import OpenBook

async def stay_cold(open_book):
    "What is loaded once the week stands is another matter."

async def paint():
    app = make_app(Path({book!r}), lambda: datetime.fromisoformat({now!r}))
    async with app.run_test() as pilot:
        await pilot.pause()
        rows = app.screen.query_one("#tonight LineList").virtual_size.height
        assert rows == 3  # two that can wait, and the line they stand behind

OpenBook.warm_up = stay_cold
asyncio.run(paint())
"""


@pytest.mark.parametrize(
    "module",
    [
        "tui.shell.command_line",
        "tui.shell.app",
        "storage.week_and_jobs",
        "storage.folders",
        "domain.week",
    ],
)
def test_importing_what_the_first_screen_needs_loads_nothing_heavy(module: str) -> None:
    assert _loaded_by(f"import {module}") & HEAVY == set()


def test_the_week_stands_before_anything_heavy_is_loaded(tmp_path: Path) -> None:
    book = tmp_path / "book.db"
    _with_a_visit(book)
    code = FIRST_PAINT.format(book=str(book), now=NOW.isoformat())
    loaded = _loaded_by(code)
    assert loaded & HEAVY == set()
    assert [name for name in loaded if name.startswith(LATER)] == []


def _with_a_visit(path: Path) -> None:
    """A book with one job, whose visit is tomorrow."""
    book = Book.open(path, lambda: NOW)
    enquiry = Enquiry(received_on=NOW.date(), visit_on=NOW.date() + timedelta(days=1))
    book.take_enquiry(EnquiryRecord(Customer("Mrs Vane"), Site("Priory Gardens"), enquiry))
    book.close()


def _loaded_by(code: str) -> set[str]:
    """Run the code in a fresh interpreter; the names of all modules it has loaded."""
    script = f"{code}\nimport sys\nprint(*sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    return set(run.stdout.splitlines()[-1].split())


def test_the_command_line_loads_no_screen_before_it_is_asked_for_one() -> None:
    assert {"textual", "rich.console"} & _loaded_by("import tui.shell.command_line") == set()
