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
    picture_of,
    plan_week,
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
    monday: date | None = None,
) -> Week:
    return plan_week(WeekData(lines, forecasts, by or trader()), today, monday)


def wednesday(
    *lines: WeekLine, today: date = MONDAY, forecasts: tuple[Forecast, ...] = ()
) -> DayView:
    """The day the jobs of the builders are booked for."""
    return plan(*lines, today=today, forecasts=forecasts).days[2]


def test_the_week_is_that_of_today_from_monday_to_sunday() -> None:
    for today in (MONDAY, LAY_DAY, MONDAY + timedelta(days=6)):
        week = plan(today=today)
        assert [day.day for day in week.days] == [MONDAY + timedelta(days=n) for n in range(7)]
        assert [day.day for day in week.days if day.is_today] == [today]
        assert [day.is_past for day in week.days] == [day.day < today for day in week.days]


def test_another_week_can_be_shown() -> None:
    week = plan(BOOKED, today=RECEIVED, monday=MONDAY)
    assert week.monday == MONDAY
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
    week = plan(line, today=today)
    return {
        day.day.day: " ".join([entry.task, *([f"{entry.hours}"] if entry.hours else [])])
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
    words = [day.hours_words for day in plan(today=SIGNED).days]
    assert words == [
        "",
        "",
        "",
        "8 h free",
        "8 h free",
        "",
        "",
    ]  # from a Thursday on; a weekend off


def days_on(count: int) -> date:
    return LAY_DAY + timedelta(days=count)


def test_an_ended_job_keeps_no_day() -> None:
    assert wednesday(replace(BOOKED, ended=Ending.CALLED_OFF)).entries == ()


@pytest.mark.parametrize(
    ("booked", "free", "words"),
    [("6.5", "1.5", "6½ of 8 h"), ("9", "0", "9 h"), ("0", "8", "8 h free")],
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
        assert monday.against == "too short: 8 h of 7¼"
        assert monday.weather_words == "▲ too short: 8 h of 7¼"
        assert monday.hours_words == "8 h of 7¼"
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


def test_figures_are_those_of_the_shown_week() -> None:
    line = week_line(job_at(Stage.SIGNED_OFF, payments=(payment(pence=200_00),)))
    bill = replace(line.bills[0], owed=286_00)
    line = replace(line, bills=(bill,))

    def of(day: date) -> tuple[int | Decimal, ...]:
        f = plan(line, today=day).figures
        return f.quoted, f.accepted, f.invoiced, f.paid, f.hours

    assert of(SENT) == (486_00, 0, 0, 0, 0)
    assert of(AGREED) == (0, 486_00, 0, 0, 0)
    assert of(SIGNED) == (0, 0, 486_00, 0, 8)
    assert of(DUE) == (0, 0, 0, 200_00, 0)


def test_what_is_owed_is_that_of_today_whatever_week_is_shown() -> None:
    line = week_line(job_at(Stage.SIGNED_OFF))
    on_time = plan(line, today=DUE, monday=RECEIVED).figures
    assert (on_time.owed, on_time.late) == (486_00, 0)
    late = plan(line, today=DUE + timedelta(days=1), monday=RECEIVED).figures
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
