"""Days as typed and as shown, the right to cancel, bank holidays."""

from datetime import date, time, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.calendar import (
    NATIONS,
    bank_holidays,
    cancellation_ends,
    months_after,
    read_date,
    read_past_date,
    read_ruled_out,
    read_time,
    show_date,
    show_day,
    show_hours,
    show_near,
    show_time,
    show_weekday,
    untold_cancellation_ends,
)
from domain.days.cancellation import right_applies, right_ends
from domain.errors import Refused
from domain.job import CustomerKind, MadeAt
from tests.builders import acceptance, customer

TODAY = date(2026, 6, 24)  # a Wednesday
DATES = st.dates(date(2000, 1, 1), date(2099, 12, 31))


def test_a_day_to_come_is_no_day_of_what_is_done() -> None:
    assert read_past_date("Laid on", "today", TODAY) == TODAY
    assert read_past_date("Laid on", "-9", TODAY) == date(2026, 6, 15)
    with pytest.raises(Refused, match="Give today or an earlier day"):
        read_past_date("Laid on", "tomorrow", TODAY)


HOSTILE = [
    *("soon", "31 Nov", "30/2/2026", "25/13/2026", "0/1/2026", "1/2/3/4", "mo", "x" * 500, "1e3"),
    *("9999-01-01", "1999-12-31", "2100-01-01", "foo 25 Nov", "25 Nov 12345", "+1000", "--3"),
    *("[/] 25 Nov", "٢٥/١١/٢٠٢٦", "25\N{RIGHT-TO-LEFT OVERRIDE} Nov", "\N{HOUSE BUILDING}"),
    *("25 Nov' --", "25\0Nov"),
]
"""Misspelled, absurd, in other digits, with marks that mean something elsewhere."""


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("25 Nov", date(2026, 11, 25)),
        ("25nov", date(2026, 11, 25)),
        ("25th November", date(2026, 11, 25)),
        ("1 sept", date(2026, 9, 1)),
        ("25/11", date(2026, 11, 25)),
        ("25/11/2026", date(2026, 11, 25)),
        ("25-11-26", date(2026, 11, 25)),
        ("25.11.2026", date(2026, 11, 25)),
        ("2026-11-25", date(2026, 11, 25)),
        ("Wed 25 Nov 2026", date(2026, 11, 25)),
        ("Wednesday, 25 November", date(2026, 11, 25)),
        (" TODAY ", TODAY),
        ("yesterday", date(2026, 6, 23)),
        ("tomorrow", date(2026, 6, 25)),
        ("thu", date(2026, 6, 25)),
        ("Wednesday", date(2026, 7, 1)),
        ("tues", date(2026, 6, 30)),
        ("+3", date(2026, 6, 27)),
        ("− 3", date(2026, 6, 21)),
        ("29 Feb 2028", date(2028, 2, 29)),
    ],
)
def test_a_date_is_read_as_it_was_meant(typed: str, meant: date) -> None:
    assert read_date("day", typed, TODAY) == meant


def test_a_date_without_a_year_is_the_nearest() -> None:
    assert read_date("day", "5 Jan", date(2026, 12, 20)) == date(2027, 1, 5)
    assert read_date("day", "28 Dec", date(2027, 1, 3)) == date(2026, 12, 28)
    assert read_date("day", "29 Feb", date(2027, 6, 1)) == date(2028, 2, 29)


@pytest.mark.parametrize("typed", ["", " ", *HOSTILE])
def test_what_is_no_date_is_refused(typed: str) -> None:
    with pytest.raises(Refused) as refused:
        read_date("day", typed, TODAY)
    assert refused.value.field == "day"


def test_a_weekday_that_does_not_fit_its_date_is_refused_with_the_right_one() -> None:
    with pytest.raises(Refused, match="25 Nov 2026 is a Wednesday"):
        read_date("day", "Tue 25 Nov 2026", TODAY)


@given(DATES, DATES)
def test_a_date_as_shown_reads_back(day: date, today: date) -> None:
    assert read_date("day", show_date(day), today) == day
    assert read_date("day", day.isoformat(), today) == day


@given(st.text(max_size=60), DATES)
def test_any_text_is_a_date_or_refused(text: str, today: date) -> None:
    try:
        day = read_date("day", text, today)
    except Refused:
        return
    assert 2000 <= day.year <= 2099


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("9", time(9)),
        ("9.30", time(9, 30)),
        ("0930", time(9, 30)),
        ("14:00", time(14)),
        ("5 pm", time(17)),
        ("5.15PM", time(17, 15)),
        ("02:00", time(2)),
        ("12 am", time(0)),
        ("12pm", time(12)),
        ("noon", time(12)),
    ],
)
def test_a_time_is_read_as_it_was_meant(typed: str, meant: time) -> None:
    assert read_time("Visit at", typed) == meant
    assert read_time("Visit at", show_time(meant)) == meant


@pytest.mark.parametrize(
    "typed", ["", "late", "24:00", "9.60", "13 pm", "0 am", "9:3", "٩", "9" * 50]
)
def test_what_is_no_time_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match=r"such as 9.30, 14:00 or 5 pm"):
        read_time("Visit at", typed)


def test_an_hour_that_may_be_either_is_asked_about() -> None:
    with pytest.raises(Refused, match=r"Give 2 pm, or 02:30 for the morning"):
        read_time("Visit at", "2.30")


def test_days_ruled_out_are_weekdays_and_dates() -> None:
    ruled_out = read_ruled_out("no_work_on", "Mondays, weekends and 3 December 2026; 24/12/26")
    assert ruled_out.weekdays == {0, 5, 6}
    assert ruled_out.dates == {date(2026, 12, 3), date(2026, 12, 24)}
    assert date(2026, 6, 29) in ruled_out
    assert date(2026, 12, 3) in ruled_out
    assert date(2026, 12, 2) not in ruled_out


def test_an_empty_text_rules_out_nothing() -> None:
    assert not any(TODAY + timedelta(n) in read_ruled_out("no_work_on", " ") for n in range(7))


@pytest.mark.parametrize("typed", ["25 Nov", "tomorrow", *HOSTILE])
def test_what_rules_out_no_day_for_certain_is_refused(typed: str) -> None:
    with pytest.raises(Refused) as refused:
        read_ruled_out("no_work_on", typed)
    assert refused.value.field == "no_work_on"


def test_days_are_shown_short_whole_and_as_spoken() -> None:
    day = date(2026, 11, 25)
    assert (show_day(day), show_weekday(day)) == ("25 Nov", "Wed 25")
    assert show_date(day) == "Wed 25 Nov 2026"
    spoken = [show_near(TODAY + timedelta(days=n), TODAY) for n in (-1, 0, 1, 2, 6, 7)]
    assert spoken == ["23 Jun", "today", "tomorrow", "Friday", "Tuesday", "1 Jul"]


@pytest.mark.parametrize(
    ("hours", "shown"),
    [
        ("8", "8"),
        ("8.0", "8"),
        ("6.5", "6½"),
        ("0.25", "¼"),
        ("1.75", "1¾"),
        ("6.4", "6.4"),
        ("0", "0"),
    ],
)
def test_hours_are_shown_in_quarters(hours: str, shown: str) -> None:
    assert show_hours(Decimal(hours)) == shown


@pytest.mark.parametrize(
    ("day", "months", "after"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2027, 12, 15), 12, date(2028, 12, 15)),
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
        (date(2027, 3, 31), -1, date(2027, 2, 28)),
        (date(2027, 1, 5), -1, date(2026, 12, 5)),
    ],
)
def test_months_end_where_the_month_does(day: date, months: int, after: date) -> None:
    assert months_after(day, months) == after


@pytest.mark.parametrize(
    ("agreed", "last"),
    [
        # Consumer Contracts Regulations 2013 reg. 30: quoted. The second by the same rule.
        (date(2026, 11, 25), date(2026, 12, 9)),
        (date(2028, 2, 20), date(2028, 3, 5)),
    ],
)
def test_the_right_to_cancel_ends_14_days_after_the_agreement(agreed: date, last: date) -> None:
    assert cancellation_ends(agreed) == last
    assert right_ends(customer(), acceptance(on=agreed, notice_on=agreed)) == last
    given_before = acceptance(on=agreed, notice_on=agreed - timedelta(days=7))
    assert right_ends(customer(), given_before) == last


def test_a_customer_told_late_has_14_days_from_then_and_never_told_a_year_more() -> None:
    # Consumer Contracts Regulations 2013 reg. 31: quoted ("up to 12 months more").
    agreed = date(2026, 11, 25)
    assert untold_cancellation_ends(agreed) == date(2027, 12, 9)
    late = acceptance(on=agreed, notice_on=date(2027, 1, 4))
    assert right_ends(customer(), late) == date(2027, 1, 18)
    far_too_late = acceptance(on=agreed, notice_on=date(2027, 12, 24))
    assert right_ends(customer(), far_too_late) == date(2027, 12, 9)
    never = acceptance(on=agreed, notice_on=None)
    assert right_ends(customer(), never) == date(2027, 12, 9)


def test_only_a_householder_who_did_not_come_to_the_trader_has_the_right() -> None:
    business = customer(kind=CustomerKind.BUSINESS)
    assert right_applies(customer(), acceptance(made_at=MadeAt.DISTANCE))
    assert right_ends(customer(), acceptance(made_at=MadeAt.PREMISES)) is None
    assert right_ends(business, acceptance()) is None


# GOV.UK bank holidays data for 2026: read.
_BOTH = {(1, 1), (4, 3), (5, 4), (5, 25), (12, 25), (12, 28)}


@pytest.mark.parametrize(
    ("nation", "days"),
    [
        ("England", _BOTH | {(4, 6), (8, 31)}),
        ("Wales", _BOTH | {(4, 6), (8, 31)}),
        ("Scotland", _BOTH | {(1, 2), (6, 15), (8, 3), (11, 30)}),
    ],
)
def test_bank_holidays_are_those_published(nation: str, days: set[tuple[int, int]]) -> None:
    assert set(bank_holidays(nation, 2026)) == {date(2026, month, day) for month, day in days}


def test_a_holiday_at_a_weekend_stands_by_its_substitute_alone() -> None:
    # The same list: 26 December 2026 is a Saturday, its substitute Monday the 28th (read).
    christmas = bank_holidays("England", 2026)
    assert date(2026, 12, 26) not in christmas
    assert christmas[date(2026, 12, 28)] == "Boxing Day (substitute)"


@pytest.mark.parametrize("nation", NATIONS)
def test_every_nation_keeps_new_year(nation: str) -> None:
    assert date(2026, 1, 1) in bank_holidays(nation, 2026)


def test_another_nation_is_refused() -> None:
    with pytest.raises(Refused, match="England, Wales, Scotland, Northern Ireland"):
        bank_holidays("Ruritania", 2026)
