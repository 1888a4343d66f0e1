"""The laying page and the weather of the day."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.checks.before_laid import LAYING_TICKS
from domain.errors import Refused
from domain.job import Laying, Stage
from domain.page_names import PageName
from domain.trader import WeatherLimits
from tests import builders
from tests.storage.books import opened
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.job.laying.laying_page import FIELDS, laying_typed, read_laying, weather_notes

EMPTY = {field.id: "" for field in FIELDS}
RIDGE, CLEAR = LAYING_TICKS["ridge"], LAYING_TICKS["clear"]


@pytest.mark.parametrize("size", SIZES)
async def test_the_checks_are_ticked_by_keys_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+t tick all")
        await hands.write({"Temperature": "4", "Wind": "8 mph", "Deck dry": "no"})
        await sees(pilot, "▲ should be above 5 °C")
        assert await cut_off(pilot) == []
        await hands.save("Saved: the laying.")
        hands.form.focus_first()
        await pilot.pause()
        await hands.write({"Laid on": "yesterday", RIDGE: "no", CLEAR: "no"})
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved: the laying.")
        assert await cut_off(pilot) == []
    assert read_again(path).laying == Laying(
        on=TODAY - timedelta(days=1),
        ticks=frozenset(LAYING_TICKS) - {"ridge", "clear"},
        temperature_c=Decimal(4),
        wind_mph=Decimal(8),
        deck_dry=False,
    )


@pytest.mark.parametrize("size", SIZES)
async def test_the_weather_to_lay_in_stands_there_by_the_traders_own_limits(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    with opened(path) as book:
        limits = WeatherLimits(lay_mph=Decimal(13))
        book.save_trader(replace(book.trader(), limits=limits))
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await hands.write({"Temperature": "9"})
        # source: gusts half as much again; common practice.
        await hands.until(
            lambda: (
                "Lay in average winds under 13 mph, gusts under 20 mph"
                in " ".join(text(app).split())
            )
        )
        assert await cut_off(pilot) == []


async def test_a_box_is_ticked_where_it_is_clicked(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    app = app_on(path)
    async with app.run_test(size=(120, 40)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await click_on(pilot, "○ yes")
        assert hands.form.dirty
        await hands.press("ctrl+s")
        await hands.hears("Saved: the laying.")
    laying = read_again(path).laying
    assert laying is not None
    assert laying.ticks == {next(iter(LAYING_TICKS))}


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"on": "31 Feb"}, "on"),
        ({"on": NASTY}, "on"),
        ({"on": "today", "temperature": "warm"}, "temperature"),
        ({"on": "today", "temperature": "9" * 60}, "temperature"),
        ({"on": "today", "temperature": "1e9"}, "temperature"),
        ({"on": "today", "wind": "-8"}, "wind"),
        ({"on": "today", "wind": NASTY}, "wind"),
        ({"on": "today", "wind": "9999999 mph"}, "wind"),
    ],
)
def test_a_refusal_names_the_field(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_laying(EMPTY | typed, TODAY)
    assert refused.value.field == label


def test_a_laying_is_read_back_unchanged() -> None:
    frosty = builders.laying(temperature_c=Decimal("-2.5"), wind_mph=None, deck_dry=None)
    for laying in (builders.laying(), frosty, Laying(on=date(2026, 6, 24))):
        assert read_laying(EMPTY | laying_typed(laying, TODAY), TODAY) == laying


@pytest.mark.parametrize(
    ("temperature", "wind", "warned"),
    [
        # source: above 5 °C and under 17 mph to lay; common practice.
        ("5", "17", {"temperature", "wind"}),
        ("5.1", "16.9", set()),
        ("-20", "0", {"temperature"}),
        ("41 F", "28 km/h", {"temperature", "wind"}),  # 5 °C exactly; 17.4 mph
        ("", "", set()),
        ("warm", NASTY, set()),
    ],
)
def test_the_weather_is_held_against_the_limits(
    temperature: str, wind: str, warned: set[str]
) -> None:
    typed = EMPTY | {"temperature": temperature, "wind": wind}
    notes = weather_notes(typed, WeatherLimits())
    assert {field for field, words in notes.items() if words} == warned
