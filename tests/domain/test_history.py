"""What was done, in words, and when it is undone without a question."""

from datetime import datetime, timedelta

import pytest

from domain.changes import Change
from domain.estimate.stock import StockLine
from domain.history import LastSaved, clause_of, in_a_line, of_place, show_moment, show_when
from domain.page_names import PageName
from domain.scope import ListName

EVENING = datetime(2026, 6, 3, 18, 42)


def saved(*touched: PageName | ListName, short: tuple[StockLine, ...] = ()) -> LastSaved:
    return LastSaved(1, 41, EVENING, "survey saved", "Mill Row", touched, short=short)


def test_it_is_told_with_its_job_and_its_time() -> None:
    assert saved().told(EVENING) == "survey of Mill Row saved 18:42"

    next_day = EVENING + timedelta(days=1)
    assert saved().told(next_day) == "survey of Mill Row saved Wed 3 June 18:42"


@pytest.mark.parametrize(
    ("clause", "told"),
    [
        ("materials and hours saved", "materials and hours of Mill Row saved"),
        ("extra deleted", "extra of Mill Row deleted"),
        ("marked as laid", "Mill Row marked as laid"),
        ("reopened", "Mill Row reopened"),
        ("enquiry of Mrs Adeyemi added", "enquiry of Mrs Adeyemi added"),
    ],
)
def test_the_place_stands_where_it_reads_well(clause: str, told: str) -> None:
    assert of_place(clause, "Mill Row") == told
    assert of_place(clause, "") == clause


def test_a_clause_is_what_follows_the_job_as_it_is_named() -> None:
    assert clause_of("0041 12, Mill Row, survey saved", "0041", "12, Mill Row") == "survey saved"
    assert clause_of("0041, survey saved", "0041", "") == "survey saved"
    assert clause_of("0041 Old Row, survey saved", "0041", "Mill Row") == (
        "0041 Old Row, survey saved"
    )


LENGTH = Change("length", "2.20 m", "2.40 m")
COLOUR = Change("colour", "", "black")
FASCIA = Change("fascia", "sound", "")


@pytest.mark.parametrize(
    ("clause", "changes", "line"),
    [
        ("survey saved", (LENGTH, COLOUR), "Survey: length 2.20 → 2.40 m, colour black"),
        (
            "survey saved",
            (FASCIA, COLOUR, LENGTH),
            "Survey: fascia taken out, colour black, and 1 more",
        ),
        ("marked as surveyed", (Change("stage", "enquiry", "survey"),), "Marked as surveyed"),
        ("snag “trim” saved", (Change("snag “trim”", "", "open"),), "Snag “trim” saved: open"),
        ("enquiry of Mrs Adeyemi added", (COLOUR,), "Enquiry of Mrs Adeyemi added"),
    ],
)
def test_a_line_tells_what_changed_with_figures(
    clause: str, changes: tuple[Change, ...], line: str
) -> None:
    assert in_a_line(clause, changes) == line


def test_a_moment_has_its_year_only_if_it_is_another() -> None:
    assert show_moment(EVENING, EVENING) == "Wed 3 June 18:42"
    assert show_moment(EVENING, datetime(2027, 1, 1)) == "Wed 3 June 2026 18:42"
    assert show_when(EVENING, EVENING + timedelta(hours=5)) == "18:42"
