"""What is said of tomorrow, and of the money that is due, once nothing is left."""

from dataclasses import replace
from datetime import timedelta

from domain.job import Stage
from domain.week import Bill, WeekData
from domain.week.tomorrow import tomorrow
from tests import builders

EVENING = builders.LAY_DAY - timedelta(days=1)


def _said(data: WeekData) -> list[str]:
    return list(tomorrow(data, EVENING, "t"))


def test_the_work_its_start_and_its_weather_are_said() -> None:
    line = builders.week_line(builders.ready_for(Stage.STRIPPED))
    data = WeekData((line,), (builders.forecast(),), builders.trader())
    work, weather = _said(data)
    assert work.startswith("Tomorrow, Wed 24 Jun 2026: strip, lay at ")
    assert work.endswith(" h, from 07:30.")
    assert weather.startswith("Weather: dry")
    assert (
        _said(replace(data, forecasts=()))[1]
        == "Weather: no forecast yet. t saves site sheet and load list."
    )


def test_a_free_day_says_so_and_what_is_due_within_a_week_is_summed() -> None:
    bills = tuple(
        Bill(n, f"INV-{n}", EVENING, EVENING + timedelta(days=days), 100_00, 40_00, deposit=False)
        for n, days in enumerate((-1, 0, 6, 7))
    )
    line = builders.week_line(builders.ready_for(Stage.SURVEY), bills=bills, days=())
    assert _said(WeekData((line,), (), builders.trader())) == [
        "Tomorrow, Wed 24 Jun 2026: nothing is booked.",
        "Due to you in the next seven days: £80.00.",
    ]
