"""What is texted about the weather, whole and short."""

from dataclasses import replace
from datetime import timedelta

from domain.week.ring_text import ring_text
from domain.week.trouble import troubles_of
from tests.builders import LAY_DAY, booked_day
from tests.domain.week.lines import BOOKED
from tests.domain.week.test_ringing import TODAY, data, offered


def test_it_says_what_is_forecast_and_asks_for_the_other_day() -> None:
    wrong = troubles_of(data("ddwd"), BOOKED, TODAY)
    told = ring_text(BOOKED, wrong, offered("ddwd")[0], "Jo Hale")
    assert told.full == (
        "Hello Mrs Adeyemi, strong wind is forecast for Wed 24 Jun, so we cannot do your roof "
        "then. Would Thu 25 Jun suit instead? Jo Hale"
    )
    assert told.brief == "Strong wind is forecast for Wed 24 Jun. Would Thu 25 Jun suit instead?"


def test_without_another_day_it_promises_to_be_in_touch() -> None:
    days = (booked_day(), booked_day(day=LAY_DAY + timedelta(days=1), id=2))
    line = replace(BOOKED, days=days)
    told = ring_text(line, troubles_of(data("ddrr", line), line, TODAY), None, "")
    assert told.brief == (
        "Rain is forecast for Wed 24 Jun and Thu 25 Jun. We will be in touch about another day."
    )
    assert told.full.endswith("another day.")
