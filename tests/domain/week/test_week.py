"""The seven days and the figures."""

import subprocess
import sys
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from domain.job import BookedDay, Cover, Ending, Stage
from domain.trader import Trader
from domain.week import (
    DayView,
    Forecast,
    PictureState,
    Verdict,
    Week,
    WeekData,
    WeekLine,
    monday_of,
    picture_of,
    plan_week,
    with_holidays,
)
from tests.builders import (
    AGREED,
    DUE,
    LAY_DAY,
    RECEIVED,
    SENT,
    SIGNED,
    VALID_UNTIL,
    VISIT,
    forecast,
    job_at,
    payment,
    trader,
    week_line,
)

MONDAY = date(2026, 6, 22)
BOOKED = week_line(job_at(Stage.BOOKED))


def plan(
    *lines: WeekLine,
    today: date = MONDAY,
    forecasts: tuple[Forecast, ...] = (),
    by: Trader | None = None,
    weeks_on: int = 0,
) -> Week:
    return plan_week(WeekData(lines, forecasts, by or trader()), today, weeks_on)


def wednesday(
    *lines: WeekLine, today: date = MONDAY, forecasts: tuple[Forecast, ...] = ()
) -> DayView:
    """The day the jobs of the builders are booked for."""
    weeks = [plan(*lines, today=today, forecasts=forecasts, weeks_on=n) for n in (-1, 0)]
    return next(day for week in weeks for day in week.days if day.day == LAY_DAY)


@pytest.mark.parametrize(
    ("today", "first"),
    [(n, 0) for n in range(3)] + [(n, n) for n in range(3, 7)],
)
def test_the_week_is_shown_from_monday_and_from_thursday_on_from_today(
    today: int, first: int
) -> None:
    week = plan(today=MONDAY + timedelta(days=today))
    assert week.first == MONDAY + timedelta(days=first)
    assert week.last == week.first + timedelta(days=6)
    shown = [MONDAY + timedelta(days=first + n) for n in range(7)]
    assert [day.day for day in week.days] == shown
    assert [day.day for day in week.days if day.is_today] == [MONDAY + timedelta(days=today)]
    assert [day.is_past for day in week.days] == [n < today for n in range(first, first + 7)]


@pytest.mark.parametrize("today", [MONDAY, SIGNED])
def test_no_day_is_left_out_from_one_week_to_the_next(today: date) -> None:
    weeks = [plan(today=today, weeks_on=n) for n in (-1, 0, 1)]
    days = [day.day for week in weeks for day in week.days]
    assert days == [days[0] + timedelta(days=n) for n in range(21)]


def test_another_week_can_be_shown() -> None:
    week = plan(BOOKED, today=RECEIVED, weeks_on=3)
    assert week.first == MONDAY
    assert not any(day.is_today or day.is_past for day in week.days)
    assert [entry.ref for entry in week.days[2].entries] == ["0421"]


def test_a_day_shows_what_is_booked_with_its_hours() -> None:
    day = wednesday(BOOKED)
    (entry,) = day.entries
    assert (entry.job_id, entry.place, entry.task) == (1, "Birch Lane", "strip, lay")
    assert (entry.stage, entry.picture) == (Stage.BOOKED, PictureState.OLD)
    assert (day.hours_booked, day.hours_free) == (Decimal(8), Decimal(0))
    assert day.hours_words == "8 h"


def test_a_day_shows_the_visits_without_hours() -> None:
    visit = week_line(job_at(Stage.SURVEY))
    days = plan(visit, today=RECEIVED).days
    assert [entry.task for entry in days[2].entries] == ["visit"]
    assert days[2].day == VISIT
    assert days[2].hours_words == "8 h free"


def tasks(line: WeekLine, today: date) -> dict[int, str]:
    """What the week shows of a job, by the day of the month, with the hours where there are any."""
    weeks = [plan(line, today=today, weeks_on=n) for n in (-1, 0)]
    return {
        day.day.day: " ".join([entry.task, *([f"{entry.hours}"] if entry.hours else [])])
        for week in weeks
        for day in week.days
        for entry in day.entries
    }


def test_a_day_that_went_otherwise_is_shown_as_it_was_recorded() -> None:
    two_days = (BookedDay(days_on(-1), Decimal(8), "strip"), BookedDay(LAY_DAY, Decimal(6), "lay"))
    line = replace(BOOKED, days=two_days)
    assert tasks(line, SIGNED) == {23: "strip 8", 24: "lay 6"}  # nothing is recorded yet
    rained_off = replace(line, stripped_on=LAY_DAY, cover=Cover.SHEETED)
    assert tasks(rained_off, SIGNED) == {24: "lay 6"}
    assert tasks(replace(rained_off, laid_on=SIGNED), SIGNED) == {24: "lay 6", 25: "lay"}
    early = replace(BOOKED, stripped_on=MONDAY, laid_on=MONDAY, cover=Cover.LAID)
    assert tasks(early, SIGNED) == {22: "strip, lay"}
    long = replace(line, stripped_on=days_on(-1), laid_on=SIGNED)
    assert tasks(long, days_on(2)) == {23: "strip 8", 24: "lay 6", 25: "lay"}


def test_a_booked_day_after_the_roof_is_laid_takes_no_hours() -> None:
    spare = BookedDay(days_on(2), Decimal(6), "lay")
    line = replace(BOOKED, days=(*BOOKED.days, spare), stripped_on=LAY_DAY, laid_on=LAY_DAY)
    assert tasks(line, SIGNED) == {24: "strip, lay 8", 26: "lay"}
    assert plan(line, today=SIGNED).days[4].hours_words == "8 h free"


def test_a_day_that_is_past_is_not_free() -> None:
    words = [day.hours_words for day in plan(today=LAY_DAY).days]
    assert words == ["", "", "8 h free", "8 h free", "8 h free", "", ""]  # a weekend off


def days_on(count: int) -> date:
    return LAY_DAY + timedelta(days=count)


def test_a_day_is_over_its_hours_until_it_is_past() -> None:
    two = (BOOKED, replace(BOOKED, job_id=2))
    assert wednesday(*two).hours_over == 8
    assert wednesday(*two, today=LAY_DAY).hours_over == 8
    gone = wednesday(*two, today=SIGNED)
    assert (gone.hours_over, gone.hours_words) == (Decimal(0), "16 h")


def test_a_bank_holiday_is_not_free_once_it_is_known() -> None:
    # Monday 31 August 2026 is a bank holiday in England, not in Scotland (test_calendar).
    monday = date(2026, 8, 31)
    data = WeekData((replace(BOOKED, days=(BookedDay(monday, Decimal(6)),)),), (), trader())
    assert plan_week(data, monday).days[0].hours_free == 2
    (booked, tuesday) = plan_week(with_holidays(data, monday), monday).days[:2]
    assert (booked.hours_free, booked.hours_words) == (Decimal(0), "6 h")
    assert tuesday.hours_words == "8 h free"
    nothing = with_holidays(replace(data, lines=()), monday)
    assert plan_week(nothing, monday).days[0].hours_words == "holiday"
    assert plan_week(nothing, monday + timedelta(days=1)).days[0].hours_words == ""
    north = with_holidays(replace(nothing, trader=trader(nation="Scotland")), monday)
    assert plan_week(north, monday).days[0].hours_words == "8 h free"


def test_the_holidays_of_two_years_are_known_where_the_days_lie_in_both() -> None:
    known = with_holidays(WeekData((), (), trader()), date(2026, 12, 28)).holidays
    assert {date(2026, 12, 25), date(2027, 1, 1)} <= known


def test_an_ended_job_keeps_no_day() -> None:
    assert wednesday(replace(BOOKED, ended=Ending.CALLED_OFF)).entries == ()


@pytest.mark.parametrize(
    ("booked", "free", "words"),
    [
        ("6.5", "1.5", "6½ of 8 h"),
        ("8", "0", "8 h"),
        ("9", "0", "▲ 9 of 8 h"),
        ("9.5", "0", "▲ 9½ of 8 h"),
        ("0", "8", "8 h free"),
    ],
)
def test_hours_are_said_out_of_the_day(booked: str, free: str, words: str) -> None:
    day = wednesday(replace(BOOKED, days=(BookedDay(LAY_DAY, Decimal(booked)),)))
    assert (day.hours_free, day.hours_words) == (Decimal(free), words)


def test_a_day_off_has_no_free_hours() -> None:
    saturday = plan().days[5]
    assert (saturday.hours_free, saturday.hours_words) == (Decimal(0), "")
    busy = plan(by=trader(working_days=frozenset({5}), hours_a_day=Decimal(6))).days
    assert [day.hours_free for day in busy] == [0, 0, 0, 0, 0, 6, 0]


def test_a_day_shows_its_weather() -> None:
    day = wednesday(forecasts=(forecast(typed="r11"),))
    assert (day.weather, day.verdict, day.against) == ("dry 7½–11", Verdict.GOOD, "")
    assert wednesday().verdict is Verdict.UNKNOWN


def test_a_day_is_at_risk_while_its_work_lies_ahead() -> None:
    foul = (forecast(typed="r"),)
    assert wednesday(BOOKED, forecasts=foul).against
    assert wednesday(BOOKED, forecasts=foul, today=LAY_DAY).against
    assert not wednesday(BOOKED, forecasts=foul, today=SIGNED).against
    laid = week_line(job_at(Stage.LAID))
    assert not wednesday(laid, forecasts=foul, today=LAY_DAY).against
    recorded = replace(BOOKED, stripped_on=LAY_DAY, cover=Cover.SHEETED)
    assert not wednesday(recorded, forecasts=foul, today=LAY_DAY).against


def test_all_the_work_of_a_day_must_fit_its_window() -> None:
    short = (forecast(typed="d8-13"),)
    half = replace(BOOKED, days=(BookedDay(LAY_DAY, Decimal(4)),))
    assert not wednesday(half, forecasts=short).against
    assert wednesday(half, replace(half, job_id=2), forecasts=short).against


def test_a_day_too_short_for_its_work_says_by_how_much_and_rings_nobody() -> None:
    midwinter = date(2026, 12, 21)
    line = replace(BOOKED, days=(BookedDay(midwinter, Decimal(8)),))
    for forecasts in ((), (forecast(midwinter, "d"),)):
        week = plan(line, today=midwinter, forecasts=forecasts)
        monday = week.days[0]
        assert monday.against == "too short: 8 h of 7¼ h"
        assert monday.weather_words == "▲ too short: 8 h of 7¼ h"
        assert monday.hours_words == "8 of 7¼ h"
        assert monday.hours_free == 0
        assert not [task.words for task in week.tonight if "Ring" in task.words]


def test_free_hours_are_those_inside_the_window() -> None:
    told = (forecast(MONDAY, "d9-15"), forecast(MONDAY + timedelta(days=1), "r"))
    days = plan(forecasts=told).days
    assert [day.hours_free for day in days[:3]] == [6, 0, 8]
    assert [day.hours_words for day in days[:3]] == ["6 h free", "", "8 h free"]
    half = replace(BOOKED, days=(BookedDay(MONDAY, Decimal(4)),))
    assert plan(half, forecasts=told).days[0].hours_words == "4 of 6 h"


@pytest.mark.parametrize(
    ("stage", "cover", "picture"),
    [
        (Stage.ENQUIRY, None, PictureState.OLD),
        (Stage.BOOKED, None, PictureState.OLD),
        (Stage.BOOKED, Cover.OPEN, PictureState.BARE),
        (Stage.STRIPPED, Cover.SHEETED, PictureState.SHEETED),
        (Stage.STRIPPED, Cover.LAID, PictureState.LAID),
        (Stage.LAID, Cover.SHEETED, PictureState.LAID),
        (Stage.SIGNED_OFF, Cover.LAID, PictureState.CLOSED),
    ],
)
def test_the_picture_is_the_roof_as_it_stands(
    stage: Stage, cover: Cover | None, picture: PictureState
) -> None:
    assert picture_of(stage, cover) is picture


def test_figures_are_those_of_the_days_shown() -> None:
    line = week_line(job_at(Stage.SIGNED_OFF, payments=(payment(pence=200_00),)))
    bill = replace(line.bills[0], owed=286_00)
    line = replace(line, bills=(bill,))

    def of(day: date) -> tuple[int | Decimal, ...]:
        f = plan(line, today=monday_of(day)).figures
        return f.quoted, f.accepted, f.invoiced, f.paid, f.hours

    assert of(SENT) == (486_00, 0, 0, 0, 0)
    assert of(AGREED) == (0, 486_00, 0, 0, 0)
    assert of(SIGNED) == (0, 0, 486_00, 0, 8)
    assert of(DUE) == (0, 0, 0, 200_00, 0)


def test_a_week_to_come_has_figures_of_its_own() -> None:
    ahead = replace(BOOKED, days=(*BOOKED.days, BookedDay(SIGNED, Decimal(5), "lay")))
    owing = replace(week_line(job_at(Stage.SIGNED_OFF)), job_id=2, days=())
    called_off = replace(BOOKED, ended=Ending.CALLED_OFF)
    weeks = [
        plan(ahead, owing, called_off, today=AGREED + timedelta(days=3), weeks_on=n).figures
        for n in range(-1, 5)
    ]
    assert [f.lie_ahead for f in weeks] == [False, *[True] * 5]  # today is a Saturday
    # Two days are one job: it counts where its last day is. The invoice is due on Thursday 9 July.
    assert [f.booked for f in weeks] == [0, 0, 0, 486_00, 0, 0]
    assert [f.hours_booked for f in weeks] == [0, 0, 8, 5, 0, 0]
    assert [f.to_come_in for f in weeks] == [0, 0, 0, 0, 0, 486_00]


def test_from_thursday_on_the_figures_leave_out_the_days_that_are_not_shown() -> None:
    line = week_line(job_at(Stage.BOOKED))
    until_wednesday = plan(line, today=monday_of(AGREED) + timedelta(days=2)).figures
    assert (until_wednesday.accepted, until_wednesday.lie_ahead) == (486_00, False)
    on_thursday = plan(line, today=monday_of(AGREED) + timedelta(days=3)).figures
    assert (on_thursday.accepted, on_thursday.lie_ahead) == (0, True)


def test_what_is_owed_is_that_of_today_whatever_week_is_shown() -> None:
    line = week_line(job_at(Stage.SIGNED_OFF))
    on_time = plan(line, today=DUE, weeks_on=-3).figures
    assert (on_time.owed, on_time.late) == (486_00, 0)
    late = plan(line, today=DUE + timedelta(days=1), weeks_on=-3).figures
    assert (late.owed, late.late) == (486_00, 486_00)


def test_an_empty_book_has_a_week_too() -> None:
    week = plan(today=VALID_UNTIL, by=Trader())
    assert [task.words for task in week.tonight] == ["Choose a backup folder"]
    assert week.figures.owed == 0


def test_the_week_loads_nothing_heavy() -> None:
    script = (
        "import sys, datetime\n"
        "from domain.trader import Trader\n"
        "from domain.week import Forecast, WeekData, plan_week\n"
        "day = datetime.date(2026, 6, 24)\n"
        "plan_week(WeekData((), (Forecast(day, 9, 16),), Trader()), day)\n"
        "print(*{'pint', 'holidays', 'highspy', 'numpy', 'sqlmodel', 'textual'} & set(sys.modules))"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == ""
