"""Jobs at every stage as the week reads them, and what Tonight says of them."""

from dataclasses import replace
from datetime import date, timedelta

from domain.job import OldCovering, OldKind, Stage, Suspicion
from domain.trader import Trader
from domain.week import (
    Delivery,
    Forecast,
    Task,
    WeekData,
    WeekLine,
    plan_week,
)
from tests.builders import (
    forecast,
    job_at,
    survey,
    trader,
    week_line,
)

MONDAY = date(2026, 6, 22)
ENQUIRY = week_line(job_at(Stage.SURVEY, survey=None))
SURVEYED = replace(ENQUIRY, old_covering=survey().old, survey_answered=True)
DOUBTFUL = OldCovering(OldKind.CEMENT_SHEET, 1, Suspicion.BEFORE)
UNTESTED = replace(SURVEYED, old_covering=DOUBTFUL)
QUOTED = week_line(job_at(Stage.QUOTED))
BOOKED = week_line(job_at(Stage.BOOKED))
STRIPPED = week_line(job_at(Stage.STRIPPED))
LAID = week_line(job_at(Stage.LAID))
BILLED = week_line(job_at(Stage.SIGNED_OFF))
FOUL = (forecast(typed="r"),)


def tonight(
    *lines: WeekLine,
    today: date,
    forecasts: tuple[Forecast, ...] = (),
    by: Trader | None = None,
    deliveries: tuple[Delivery, ...] = (),
) -> tuple[Task, ...]:
    data = WeekData(lines, forecasts, by or trader(), deliveries=deliveries)
    return plan_week(data, today).tonight


def words(*lines: WeekLine, today: date, forecasts: tuple[Forecast, ...] = ()) -> list[str]:
    return [task.words for task in tonight(*lines, today=today, forecasts=forecasts)]


def days_on(day: date, count: int) -> date:
    return day + timedelta(days=count)
