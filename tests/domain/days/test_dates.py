"""Dates as they are typed."""

from contextlib import suppress
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.calendar import WEEKDAYS, show_date
from domain.days.dates import read_date, read_past_date, read_ruled_out, read_until
from domain.errors import Refused

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
        ("12.5.26", date(2026, 5, 12)),
        ("12/5", date(2026, 5, 12)),
        ("12 may", date(2026, 5, 12)),
        ("12/5/2026", date(2026, 5, 12)),
        ("12th of May", date(2026, 5, 12)),
        ("tue", date(2026, 6, 30)),
        ("next tue", date(2026, 6, 30)),
        ("next Fri", date(2026, 7, 3)),
        ("next wed", date(2026, 7, 1)),
        ("weds", date(2026, 7, 1)),
        ("fri", date(2026, 6, 26)),
        ("fri week", date(2026, 7, 3)),
        ("Tuesday week", date(2026, 7, 7)),
    ],
)
def test_a_date_is_read_as_it_was_meant(typed: str, meant: date) -> None:
    assert read_date("day", typed, TODAY) == meant


@pytest.mark.parametrize(
    ("today", "typed", "meant"),
    [
        (date(2026, 6, 22), "tue", date(2026, 6, 23)),
        (date(2026, 6, 22), "next tue", date(2026, 6, 30)),
        (date(2026, 6, 23), "tue", date(2026, 6, 30)),
        (date(2026, 6, 23), "next tue", date(2026, 6, 30)),
        (date(2026, 6, 23), "tue week", date(2026, 7, 7)),
        (date(2026, 6, 28), "mon", date(2026, 6, 29)),
        (date(2026, 6, 28), "next mon", date(2026, 6, 29)),
        (date(2026, 6, 28), "next sun", date(2026, 7, 5)),
    ],
)
def test_next_is_of_next_week_and_a_weekday_alone_is_the_coming_one(
    today: date, typed: str, meant: date
) -> None:
    assert read_date("day", typed, today) == meant


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("tue", date(2026, 6, 23)), ("wed", TODAY), ("thu", date(2026, 6, 18)), ("-1", "yesterday")],
)
def test_a_weekday_of_what_is_done_is_gone_by_or_today(typed: str, meant: date | str) -> None:
    day = read_past_date("Laid on", typed, TODAY)
    assert day == (meant if isinstance(meant, date) else read_date("day", meant, TODAY))


@given(st.dates(date(2000, 2, 1), date(2099, 11, 30)), st.sampled_from(WEEKDAYS))
def test_a_weekday_is_read_within_a_week_and_next_in_the_week_after(today: date, name: str) -> None:
    coming = read_date("day", name, today)
    following = read_date("day", f"next {name}", today)
    assert 1 <= (coming - today).days <= 7
    assert 0 <= (today - read_past_date("day", name, today)).days <= 6
    monday = today - timedelta(days=today.weekday())
    assert 7 <= (following - monday).days <= 13
    assert WEEKDAYS[coming.weekday()] == WEEKDAYS[following.weekday()] == name


@pytest.mark.parametrize(
    ("typed", "remedy"),
    [
        ("31 Nov", "November has 30 days: give one of them."),
        ("31/11", "November has 30 days: give one of them."),
        ("0/1/2026", "January has 31 days: give one of them."),
        ("29.2.27", "February 2027 has 28 days: give one of them."),
        ("30 feb", "February 2026 has 28 days: give one of them."),
        ("29 feb", "29 Feb is in a leap year only: give its year too."),
        ("25/13/2026", "The day comes first, then a month from 1 to 12: 25/11/2026."),
        ("5/25", "The day comes first, then a month from 1 to 12: 25/11/2026."),
        ("1 Jan 1999", "Give a year from 2000 to 2099."),
        ("next 25 Nov", "Give a date such as 25 Nov, 25/11/2026, tomorrow, Thursday or +3."),
    ],
)
def test_a_day_that_is_not_in_the_calendar_is_refused_in_a_sentence(
    typed: str, remedy: str
) -> None:
    with pytest.raises(Refused) as refused:
        read_date("day", typed, TODAY)
    assert str(refused.value) == f"Day: “{typed}” is not valid. {remedy}"


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("10 years", date(2036, 2, 28)),
        ("10 yrs", date(2036, 2, 28)),
        ("ten years", date(2036, 2, 28)),
        ("1 year", date(2027, 2, 28)),
        ("18 mths", date(2027, 8, 28)),
        ("6 weeks", date(2026, 4, 11)),
        ("30 days", date(2026, 3, 30)),
        ("31 Mar 2028", date(2028, 3, 31)),
        ("next tue", date(2026, 6, 30)),
    ],
)
def test_a_last_day_may_be_told_by_how_long_it_is(typed: str, meant: date) -> None:
    assert read_until("until", typed, date(2026, 2, 28), TODAY) == meant


@pytest.mark.parametrize("typed", ["10", "10 furlongs", "ten of years", "900 years", "-1 year"])
def test_what_is_no_last_day_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="Until"):
        read_until("until", typed, TODAY, TODAY)


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


SCRAPS = st.lists(
    st.sampled_from(["next ", "tue", " week", "29", "feb", "/", ".", "-", " ", "+", "99", "yrs"])
).map("".join)


@given(st.one_of(st.text(max_size=60), SCRAPS), DATES)
def test_any_text_is_a_date_or_refused(text: str, today: date) -> None:
    with suppress(Refused):
        assert 2000 <= read_date("day", text, today).year <= 2099
    with suppress(Refused):
        assert read_past_date("day", text, today) <= today
    with suppress(Refused):
        assert 2000 <= read_until("day", text, today, today).year <= 2099


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
