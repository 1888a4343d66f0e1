"""The job of a line of Tonight, opened where it is settled; then the list comes back."""

from datetime import date
from pathlib import Path

from domain.page_names import PageName
from domain.week import Task, TaskKind, plan_week
from storage.week_and_jobs import read_week
from tui.frame.screen import BaseScreen

_GOES_ON = frozenset({TaskKind.SURVEY, TaskKind.QUOTE})
"""Kinds after which one stays with the job: what was measured is priced, and then read."""


def open_job_of(screen: BaseScreen, task: Task, job_id: int, page: PageName | None = None) -> None:
    """Open the job of a task where it is done, or at a page; back to the list once it is."""
    screen.undo_of = job_id
    path, today = screen.open_book.path, screen.open_book.today
    goes_on = task.kind in _GOES_ON
    settled = None if goes_on else lambda: is_settled(path, today, task)
    field = task.field if page is None else ""
    screen.program.open_job(job_id, page or task.page, field, settled)


def is_settled(path: Path, today: date, task: Task) -> bool:
    """Whether a task no longer stands in the Tonight of a book."""
    left = plan_week(read_week(path, today), today).tonight
    named = task.kind, task.job_id, task.words
    return all((each.kind, each.job_id, each.words) != named for each in left)
