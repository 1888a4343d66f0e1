"""The forecast of the coming days, typed in one line."""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from domain.days.forecast import Forecast, Sky
from domain.days.forecast_line import MOST_DAYS, look_at_line, read_line, show_line, show_token
from domain.errors import Refused

TODAY = date(2026, 11, 25)


def hours(*spells: tuple[int, int]) -> frozenset[int]:
    return frozenset(hour for first, last in spells for hour in range(first, last))


def skies(line: str) -> str:
    """The days a line gives, a letter each; a full stop for one that stays."""
    return "".join(
        each.sky.value[0] if each else "." for each in look_at_line("f", line, TODAY).forecasts
    )


@pytest.mark.parametrize(
    ("line", "days"),
    [
        ("d", "d"),
        ("ddrrwc?", "ddrrwcn"),
        ("D d R", "ddr"),
        ("3d", "ddd"),
        ("3d2r", "dddrr"),
        ("d3d", "dddd"),
        ("2-d", "..d"),
        ("--r", "..r"),
        ("3r11 d", "rrrd"),
        ("dr11", "dr"),
        ("2d9-12,14-17 r", "ddr"),
        ("d/3 c @9".replace(" @9", "@9"), "dc"),
        ("14d", "d" * 14),
        ("dry,rain,windy Cold wet", "drwcr"),
        ("dry rain11, 3d, cold/1 r", "drdddcr"),
        # The 25th is a Wednesday.
        ("wed d mon r", "d....r"),
        ("dry mon: dry; tue rain", "d....dr"),
        ("thu dry thu rain", ".d......r"),
        ("d9-12,14-17 monday d9-12, wind", "d....dw"),
    ],
)
def test_a_letter_is_a_day_and_a_number_before_it_so_many(line: str, days: str) -> None:
    assert look_at_line("f", line, TODAY).refused is None
    assert skies(line) == days


@pytest.mark.parametrize(
    ("token", "says"),
    [
        ("d", {}),
        ("d9-12,14-17", {"dry_hours": hours((9, 12), (14, 17))}),
        ("d0-24", {"dry_hours": hours((0, 24))}),
        ("r11", {"rain_from": 11}),
        ("d/3", {"low_c": Decimal(3)}),
        ("d/-2.5", {"low_c": Decimal("-2.5")}),
        ("d/−2", {"low_c": Decimal(-2)}),
        ("?@14g25", {"wind_mph": Decimal(14), "gust_mph": Decimal(25)}),
        ("wg40", {"gust_mph": Decimal(40)}),
        (
            "d11-16/3@14g25",
            {
                "dry_hours": hours((11, 16)),
                "low_c": Decimal(3),
                "wind_mph": Decimal(14),
                "gust_mph": Decimal(25),
            },
        ),
        ("r11g25/7", {"rain_from": 11, "gust_mph": Decimal(25), "low_c": Decimal(7)}),
    ],
)
def test_more_is_said_behind_the_letter(token: str, says: dict[str, Any]) -> None:
    (found,) = read_line("f", token, TODAY)
    letters = {"d": Sky.DRY, "r": Sky.RAIN, "w": Sky.WIND, "?": Sky.UNKNOWN}
    assert found == Forecast(TODAY, letters[token[0]], **says)


def test_the_line_begins_today_and_leaves_days_as_they_were() -> None:
    found = read_line("f", "d-r 2-w", TODAY)
    assert [(each.day - TODAY).days for each in found] == [0, 2, 5]


@pytest.mark.parametrize(
    ("line", "named", "would_do"),
    [
        ("", "", "a letter a day"),
        ("ddx", "x", "d dry, r rain"),
        ("dd 9", "9", "d dry, r rain"),
        ("d9", "d9", "such as d9-12,14-17"),
        ("d9-", "d9-", "such as d9-12,14-17"),
        ("d12-9", "d12-9", "in their order"),
        ("d9-25", "d9-25", "in their order"),
        ("d9-12,11-14", "d9-12,11-14", "in their order"),
        ("d9-12r", "d9-12r", "a space before the next day"),
        ("r0", "r0", "1 to 23"),
        ("r24", "r24", "1 to 23"),
        ("r2d", "r2d", "r 2d, or r2 d"),
        ("d/", "d/", "the lowest temperature"),
        ("d/99", "d/99", "-30 to 40"),
        ("d/3/4", "d/3/4", "once"),
        ("c@", "c@", "average wind"),
        ("wg999", "wg999", "gusts"),
        ("d@14d", "d@14d", "a space before the next day"),
        ("0d", "0d", "from 1 to 14"),
        ("15d", "15d", "from 1 to 14"),
        ("9d9d", "9d", "14 days at most"),
        ("-/3", "/3", "- as it was"),
        ("dry sunny", "sunny", "or a weekday"),
        ("dr fri", "fri", "such as fri dry"),
        ("9d wed d", "wed", "14 days at most"),
    ],
)
def test_what_cannot_be_read_is_named_with_what_would_do(
    line: str, named: str, would_do: str
) -> None:
    with pytest.raises(Refused) as refused:
        read_line("f", line, TODAY)
    assert refused.value.value == (f"“{named}”" if named else "")
    assert would_do in refused.value.remedy


def test_the_days_before_a_slip_are_read() -> None:
    read = look_at_line("f", "dr x d", TODAY)
    assert [each and each.sky for each in read.forecasts] == [Sky.DRY, Sky.RAIN]
    assert read.refused is not None


figures = {
    "low_c": st.none() | st.decimals(-30, 40, places=1),
    "wind_mph": st.none() | st.decimals(0, 150, places=1),
    "gust_mph": st.none() | st.decimals(0, 150, places=1),
}
told = (
    st.builds(Forecast, st.just(TODAY), st.sampled_from(Sky), **figures)
    | st.builds(
        Forecast,
        st.just(TODAY),
        st.just(Sky.DRY),
        dry_hours=st.frozensets(st.integers(0, 23)),
        **figures,
    )
    | st.builds(
        Forecast, st.just(TODAY), st.just(Sky.RAIN), rain_from=st.integers(1, 23), **figures
    )
)


@given(st.dictionaries(st.integers(0, MOST_DAYS - 1), told, min_size=1))
def test_a_line_that_is_shown_is_read_as_the_same(known: dict[int, Forecast]) -> None:
    days = {TODAY + timedelta(days=n): each for n, each in known.items()}
    days = {
        day: Forecast(day, e.sky, e.dry_hours, e.rain_from, e.low_c, e.wind_mph, e.gust_mph)
        for day, e in days.items()
    }
    assert {each.day: each for each in read_line("f", show_line(days, TODAY), TODAY)} == days


@given(st.text(st.sampled_from("drcw?-g/@,.0123456789 x"), max_size=24) | st.text(max_size=12))
@example("d" * 20_000)
@example("9" * 5_000 + "d")
@example("d/" + "9" * 5_000)
def test_any_text_is_read_or_refused_by_its_token(text: str) -> None:
    refused: Refused | None
    try:
        found = read_line("f", text, TODAY)
    except Refused as error:
        refused = error
    else:
        refused = None
        assert len(found) <= MOST_DAYS
        for each in found:
            (again,) = read_line("f", show_token(each), each.day)
            assert again == each
    if refused is not None:
        assert refused.remedy
        assert bool(refused.value) == bool(text.strip())
