"""The hours booked against those of the quote."""

from decimal import Decimal

import pytest

from domain.checks.stages import missing
from domain.estimate.hours import (
    falls_short,
    hours_for_a_day,
    hours_given,
    hours_quoted,
    hours_words,
)
from domain.job import BookedDay, Stage
from tests import builders


def test_the_hours_of_the_quote_are_those_it_was_priced_with() -> None:
    # derived: the rates times 5.35 m², one layer, 9.29 m of edges and 2.52 m of ridge
    assert hours_quoted(builders.job_at(Stage.BOOKED)) == Decimal("5.75")
    assert hours_quoted(builders.job_at(Stage.SURVEY)) == 0
    unread = builders.job_at(
        Stage.QUOTED, quotes=(builders.sent(options=(builders.option(basis="{}"),)),)
    )
    assert hours_quoted(unread) == 0


@pytest.mark.parametrize(
    ("booked", "quoted", "short"),
    [("9", "10", False), ("8.99", "10", True), ("0", "0", False), ("12", "10", False)],
)
def test_a_tenth_less_is_near_enough(booked: str, quoted: str, short: bool) -> None:
    assert falls_short(Decimal(booked), Decimal(quoted)) is short


def test_the_two_are_said_together() -> None:
    assert hours_words(Decimal("4.5"), Decimal("5.63")) == "4½ hours booked; quote allows 5¾."


@pytest.mark.parametrize(
    ("left", "hours"),
    [("3.63", "4"), ("3.5", "3.5"), ("0.1", "0.5"), ("11", "8"), ("0", "8"), ("-2", "8")],
)
def test_a_new_day_takes_what_is_left_of_the_quotes_hours(left: str, hours: str) -> None:
    assert hours_for_a_day(Decimal(left), Decimal(8)) == Decimal(hours)


def test_the_days_share_the_hours_and_one_without_a_date_takes_none() -> None:
    days = {1: Decimal(10), 2: None, 3: Decimal(10)}
    assert hours_given(Decimal(11), Decimal(8), days) == {1: 8, 2: 3, 3: 3}


def test_a_short_day_takes_no_more_than_it_has_room_for() -> None:
    days = {1: Decimal("6.75"), 2: Decimal(7)}
    assert hours_given(Decimal(11), Decimal(8), days) == {1: Decimal("6.75"), 2: Decimal("4.5")}


def test_the_caution_says_both_figures() -> None:
    few = (BookedDay(builders.LAY_DAY, Decimal(5)),)
    job = builders.ready_for(Stage.BOOKED, days=few)
    (caution,) = missing(builders.situation(job, today=builders.AGREED), Stage.BOOKED)
    assert caution.id == "hours-booked"
    assert caution.remedy.startswith("5 hours booked; quote allows 5¾.")
