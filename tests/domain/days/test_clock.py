"""Times of day as they are typed."""

from contextlib import suppress
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.days.clock import read_time, say_time, show_time
from domain.errors import Refused


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
        ("half 9", time(9, 30)),
        ("half past 9", time(9, 30)),
        ("half nine", time(9, 30)),
        ("quarter to 9", time(8, 45)),
        ("quarter past nine", time(9, 15)),
        ("10 to 9", time(8, 50)),
        ("twenty past 9", time(9, 20)),
        ("quarter to 1", time(12, 45)),
        ("quarter to 1 am", time(0, 45)),
        ("half 12", time(12, 30)),
        ("half 2 pm", time(14, 30)),
        ("9am", time(9)),
        ("9.30 a.m.", time(9, 30)),
        ("9 o'clock", time(9)),
        ("930", time(9, 30)),
        ("18:00", time(18)),
    ],
)
def test_a_time_is_read_as_it_was_meant(typed: str, meant: time) -> None:
    assert read_time("Visit at", typed) == meant
    assert read_time("Visit at", show_time(meant)) == meant


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "late",
        "24:00",
        "9.60",
        "13 pm",
        "0 am",
        "9:3",
        "٩",
        "9" * 50,
        "half",
        "half 14",
        "0 to 9",
        "60 past 9",
    ],
)
def test_what_is_no_time_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match=r"such as 9.30, half 9, 14:00 or 5 pm"):
        read_time("Visit at", typed)


@pytest.mark.parametrize(
    ("typed", "remedy"),
    [
        ("2.30", "Give 2.30 pm, or 02:30 for the morning."),
        ("half 2", "Give 2.30 pm, or 02:30 for the morning."),
        ("quarter to 7", "Give 6.45 pm, or 06:45 for the morning."),
        ("2", "Give 2 pm, or 02:00 for the morning."),
    ],
)
def test_an_hour_that_may_be_either_is_asked_about(typed: str, remedy: str) -> None:
    with pytest.raises(Refused) as refused:
        read_time("visit_at", typed)
    assert str(refused.value) == f"Visit at: “{typed}” is not valid. {remedy}"


@pytest.mark.parametrize(
    ("typed", "meant", "said"),
    [
        ("half 2", time(14, 30), "half past 2 pm"),
        ("2.30", time(14, 30), "half past 2 pm"),
        ("quarter to 6", time(17, 45), "quarter to 6 pm"),
        ("6", time(18), "6 pm"),
        ("quarter to 7", time(18, 45), "quarter to 7 pm"),
        ("7", time(7), "7 am"),
        ("06:10", time(6, 10), "6.10 am"),
        ("2 am", time(2), "2 am"),
        ("noon", time(12), "noon"),
        ("quarter to 1", time(12, 45), "quarter to 1 pm"),
        ("11.45", time(11, 45), "quarter to 12 am"),
    ],
)
def test_nobody_is_visited_at_night(typed: str, meant: time, said: str) -> None:
    assert read_time("visit_at", typed, by_day=True) == meant
    assert say_time(meant) == said


@given(st.times())
def test_a_time_as_shown_reads_back_to_the_minute(moment: time) -> None:
    assert read_time("Visit at", show_time(moment)) == moment.replace(second=0, microsecond=0)


SCRAPS = st.lists(
    st.sampled_from(["half", "quarter", "past", "to", " ", "9", "12", "30", ":", ".", "pm", "ten"])
).map("".join)


@given(st.one_of(st.text(max_size=50), SCRAPS))
def test_any_text_is_a_time_or_refused(text: str) -> None:
    with suppress(Refused):
        assert isinstance(read_time("Visit at", text), time)
