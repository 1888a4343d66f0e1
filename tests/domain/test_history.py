"""What was done, in words, and when it is undone without a question."""

from datetime import datetime, timedelta
from decimal import Decimal

import pytest

from domain.coverings.materials import Material
from domain.estimate.stock import StockLine
from domain.history import LastSaved, ListName, clause_of, of_place, show_moment, show_when
from domain.page_names import PageName

EVENING = datetime(2026, 6, 3, 18, 42)


def saved(*touched: PageName | ListName, short: tuple[StockLine, ...] = ()) -> LastSaved:
    return LastSaved(1, 41, EVENING, "survey saved", "Mill Row", touched, short=short)


def test_it_is_told_with_its_job_and_its_time() -> None:
    assert saved().told(EVENING) == "survey of Mill Row saved 18:42"
    assert saved().told_here(EVENING) == "survey saved 18:42"
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


def test_only_what_is_recent_and_of_one_page_is_undone_unasked() -> None:
    ten = EVENING + timedelta(minutes=10)
    assert saved(PageName.SURVEY).is_undone_unasked(ten)
    assert saved().is_undone_unasked(ten)
    assert not saved(PageName.SURVEY).is_undone_unasked(ten + timedelta(seconds=1))
    assert not saved(PageName.SURVEY, PageName.QUOTE).is_undone_unasked(EVENING)
    short = (StockLine(Material.MASTIC, "", Decimal(1)),)
    assert not saved(ListName.STOCK, short=short).is_undone_unasked(EVENING)


def test_a_moment_has_its_year_only_if_it_is_another() -> None:
    assert show_moment(EVENING, EVENING) == "Wed 3 June 18:42"
    assert show_moment(EVENING, datetime(2027, 1, 1)) == "Wed 3 June 2026 18:42"
    assert show_when(EVENING, EVENING + timedelta(hours=5)) == "18:42"
