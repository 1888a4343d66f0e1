"""Who is rung about the weather, and which days there are instead."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.calendar import bank_holidays
from domain.days.dates import read_ruled_out
from domain.days.forecast_line import read_line
from domain.days.weather import Verdict, window
from domain.job import BookedDay, Rung
from domain.week import WeekData, WeekLine
from domain.week.ringing import DayOffered, days_to_move, next_days
from domain.week.trouble import troubles_of
from tests.builders import LAY_DAY, booked_day, forecast, trader
from tests.domain.week.lines import BOOKED, words

TODAY = LAY_DAY - timedelta(days=2)  # a Monday, the last day of the right to cancel
SAID = Rung(LAY_DAY, TODAY, "r")


def data(typed: str, *lines: WeekLine) -> WeekData:
    """The week by a forecast from today on."""
    return WeekData(lines or (BOOKED,), read_line("forecast", typed, TODAY), trader())


def offered(typed: str, line: WeekLine = BOOKED, *others: WeekLine) -> tuple[DayOffered, ...]:
    told = data(typed, line, *others)
    return next_days(told, line, days_to_move(line, TODAY, {LAY_DAY}), TODAY)


def first_days(typed: str, line: WeekLine = BOOKED, *others: WeekLine) -> list[date]:
    return [each.days[0].day for each in offered(typed, line, *others) if each.is_forecast]


def on(day: int) -> date:
    return date(2026, 6, day)


def rings(line: WeekLine, typed: str = "r") -> list[str]:
    told = words(line, today=TODAY, forecasts=(forecast(typed=typed),))
    return [each for each in told if each.startswith("Ring")]


def test_a_job_is_rung_about_once_and_again_when_the_forecast_changes() -> None:
    asked = ["Ring: rain on Wednesday"]
    assert rings(BOOKED) == asked
    stays = replace(BOOKED, rung=(SAID,))
    assert rings(stays) == []
    assert rings(stays, "r9") == asked


def test_what_is_wrong_is_every_day_of_the_job_and_of_no_other() -> None:
    two = replace(BOOKED, days=(booked_day(), booked_day(day=on(26), id=2)))
    other = replace(BOOKED, job_id=2, days=(booked_day(day=on(25), id=3),))
    told = data("ddrrr", two, other)
    assert [trouble.day for trouble in troubles_of(told, two, TODAY)] == [on(24), on(26)]


def test_the_next_dry_days_come_first_then_those_without_a_forecast() -> None:
    found = offered("ddrdr")
    days = [(each.days[0].day, each.is_forecast) for each in found]
    assert days[:3] == [(on(25), True), (on(29), False), (on(30), False)]


def test_a_day_off_a_bank_holiday_and_one_ruled_out_are_not_offered() -> None:
    august = replace(BOOKED, days=(booked_day(day=date(2026, 8, 28)),), ruled_out="Tuesdays")
    today = date(2026, 8, 27)
    told = WeekData((august,), read_line("forecast", "rr 9d", today), trader())
    found = next_days(told, august, august.days, today)
    assert found[0].days[0].day == date(2026, 9, 2)  # Monday 31 August is a bank holiday


def test_two_days_move_by_as_much_and_none_is_left_sheeted_in_too_much_wind() -> None:
    two = replace(BOOKED, days=(booked_day(task="strip"), booked_day(day=on(26), id=2, task="lay")))
    first = offered("dd rrdwd dddddd", two)[0]  # Friday 26th to Sunday 28th: dry, wind, dry
    assert [each.day for each in first.days] == [on(29), date(2026, 7, 1)]
    gaps = {each.days[1].day - each.days[0].day for each in offered("14d", two)}
    assert gaps == {timedelta(days=2)}


def test_a_day_in_the_time_to_cancel_needs_the_request() -> None:
    late = replace(BOOKED, notice_on=on(15), early_request_on=None)  # may cancel until the 29th
    assert first_days("10d", late)[0] == on(30)
    asked = replace(late, early_request_on=on(15), knows_right_ends=True)
    assert first_days("10d", asked)[0] == on(25)


@pytest.mark.parametrize(("hours", "first"), [("2", on(25)), ("4", on(26))])
def test_another_job_leaves_room_or_does_not(hours: str, first: date) -> None:
    line = replace(BOOKED, days=(booked_day(hours=Decimal(5)),))
    other = replace(BOOKED, job_id=2, days=(booked_day(day=on(25), hours=Decimal(hours), id=2),))
    assert first_days("10d", line, other)[0] == first


def test_nothing_is_offered_for_a_job_without_a_day_ahead() -> None:
    assert offered("10d", replace(BOOKED, days=())) == ()


SPANS = st.lists(st.integers(0, 4), min_size=1, max_size=3, unique=True).map(sorted)


@given(
    typed=st.text("drcw?", min_size=1, max_size=14),
    spans=SPANS,
    hours=st.integers(1, 9),
    beside=st.lists(st.tuples(st.integers(3, 20), st.integers(1, 9)), max_size=4),
    ruled_out=st.sampled_from(["", "Mondays", "weekends, Thursdays", "30 June 2026"]),
    weekdays=st.frozensets(st.integers(0, 6), min_size=1),
)
def test_what_is_offered_is_open_to_the_job_whatever_the_week(
    typed: str,
    spans: list[int],
    hours: int,
    beside: list[tuple[int, int]],
    ruled_out: str,
    weekdays: frozenset[int],
) -> None:
    days = tuple(BookedDay(LAY_DAY + timedelta(days=n), Decimal(hours), id=n) for n in spans)
    line = replace(BOOKED, days=days, ruled_out=ruled_out)
    others = tuple(
        replace(
            BOOKED,
            job_id=n,
            days=(BookedDay(TODAY + timedelta(days=ahead), Decimal(taken), id=100 + n),),
        )
        for n, (ahead, taken) in enumerate(beside, start=2)
    )
    told = replace(data(typed, line, *others), trader=trader(working_days=weekdays))
    forecasts = {each.day: each for each in told.forecasts}
    found = next_days(told, line, days, TODAY)
    assert found == tuple(sorted(found, key=lambda each: (not each.is_forecast, each.by)))
    for each in found:
        moved = [booked.day - timedelta(days=each.by) for booked in each.days]
        assert moved == [booked.day for booked in days]
        for booked in each.days:
            day = booked.day
            seen = window(day, forecasts.get(day), told.trader)
            taken = sum(b.hours for other in others for b in other.days if b.day == day)
            assert day > LAY_DAY
            assert day.weekday() in weekdays
            assert day not in bank_holidays("England", day.year)
            assert day not in read_ruled_out("ruled_out", ruled_out)
            assert seen.verdict is not Verdict.POOR
            assert booked.hours + taken < seen.hours
            assert not taken or booked.hours + taken <= told.trader.hours_a_day
