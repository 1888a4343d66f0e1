"""A job as a line of the list of all jobs."""

from datetime import date

import pytest

from domain.job import Stage
from storage.week_and_jobs import JobLine
from tui.frame.theme import EVENING
from tui.lists.job_line import job_line

TODAY = date(2026, 11, 28)


def _line(*days: date, place: str = "Birch Lane", customer: str = "Mr Ek") -> str:
    job = JobLine(1, "0001", place, customer, Stage.ENQUIRY, None, days, None, 0)
    return job_line(job, 80, TODAY, EVENING).plain


@pytest.mark.parametrize(
    ("days", "shown"),
    [
        ((date(2026, 11, 25), date(2026, 11, 28), date(2026, 12, 1)), " 28 Nov "),
        ((date(2026, 11, 20), date(2026, 11, 25)), " was 25 Nov "),
        ((date(2027, 1, 5),), "  5 Jan "),
        ((date(2028, 1, 5),), " Jan 2028 "),
        ((date(2025, 9, 30),), " was Sep 2025 "),
        ((), "Mr Ek           "),
    ],
)
def test_the_next_day_stands_in_the_list_or_the_last_with_its_year_where_it_is_far(
    days: tuple[date, ...], shown: str
) -> None:
    assert shown in _line(*days)
    assert len(_line(*days)) == len(_line())


def test_what_is_not_known_of_a_job_is_said() -> None:
    unknown = _line(place=" ", customer="")
    assert "no place yet" in unknown
    assert "no name yet" in unknown
    assert len(unknown) == len(_line())
