"""A job as a line of the list of all jobs."""

from datetime import date

import pytest

from domain.job import Stage
from storage.week_and_jobs import JobLine
from tui.frame.theme import EVENING
from tui.lists.job_line import job_line

TODAY = date(2026, 11, 28)


def _line(day: date | None = None, place: str = "Birch Lane", customer: str = "Mr Ek") -> str:
    job = JobLine(1, "0001", place, customer, Stage.ENQUIRY, None, day, None, 0)
    return job_line(job, 80, TODAY, EVENING).plain


@pytest.mark.parametrize(
    ("day", "shown"),
    [
        (date(2026, 11, 25), "25 Nov "),
        (date(2027, 1, 5), "  5 Jan "),
        (date(2028, 1, 5), " Jan 2028 "),
        (date(2025, 9, 30), " Sep 2025 "),
        (None, "Mr Ek           "),
    ],
)
def test_a_day_that_may_be_taken_for_a_nearer_one_has_its_year(
    day: date | None, shown: str
) -> None:
    assert shown in _line(day)
    assert len(_line(day)) == len(_line())


def test_what_is_not_known_of_a_job_is_said() -> None:
    unknown = _line(place=" ", customer="")
    assert "no place yet" in unknown
    assert "no name yet" in unknown
    assert len(unknown) == len(_line())
