"""The demo: the book of an invented trader, laid out around today on a scratch copy."""

import tempfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from demo_data.kept import keeping_place, open_demo
from demo_data.story import DEMO_SURVEY
from domain.job import DocumentKind
from domain.papers.blocks import Paper
from tui.frame.wall_clock import wall_clock
from tui.shell.questions import is_answered


def run_demo(run_app: Callable[[Path], None], show: Callable[[Paper], None]) -> None:
    """Open the demo on a terminal; into a pipe, print the week, a take-off and an invoice.

    The scratch copy goes when the demo is left; a checkout keeps the day's book for the next time.
    """
    with tempfile.TemporaryDirectory(prefix="headlap-demo-") as folder:
        book = Path(folder) / "demo.db"
        if is_answered():
            print("Setting up an example book…", flush=True)
            open_demo(book, wall_clock(), keeping_place())
            run_app(book)
        else:
            now = wall_clock()
            open_demo(book, now, keeping_place())
            for paper in papers(book, now):
                show(paper)
                print()


def papers(path: Path, now: datetime) -> list[Paper]:
    """The week, one take-off with its cut plan, and one invoice."""
    from domain.accounts.invoice import Invoice
    from domain.papers.invoice_paper import invoice_paper
    from domain.papers.takeoff_paper import takeoff_paper
    from domain.papers.week_paper import week_paper
    from domain.setting_out.forms.roof import build_roof
    from domain.snapshot import from_json
    from domain.takeoff.roof_takeoff import take_off, worked_out
    from domain.takeoff.surveyfile import read_survey_file
    from domain.week import plan_week
    from storage.book import Book
    from storage.week_and_jobs import find_jobs, read_week

    survey = read_survey_file(DEMO_SURVEY.read_text(encoding="utf-8"))
    takeoff = take_off(build_roof(survey.measures), survey.covering, survey.packing)
    book = Book.open(path, lambda: now)
    try:
        jobs = (book.job(line.id) for line in find_jobs(path, ""))
        issued = next(d for job in jobs for d in job.documents if d.kind is DocumentKind.INVOICE)
    finally:
        book.close()
    return [
        week_paper(plan_week(read_week(path, now.date()), now.date())),
        takeoff_paper(worked_out(takeoff)),
        invoice_paper(from_json(Invoice, issued.snapshot)),
    ]
