"""The booking page: the days recorded, and what is said of a day while it is typed."""

from contextlib import closing
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from textual.widgets import Static

from domain.checks.check import OtherWork, Situation
from domain.days.forecast_line import read_line
from domain.errors import Refused
from domain.job import BookedDay, Booking, CustomerKind, Laying, MadeAt, Stage
from domain.page_names import PageName
from domain.tone import Tone
from domain.trader import Van
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_to_price import NOW, accepted, app_on
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import form_of, said, turn_to, until
from tests.tui.sight import click_on, sees
from tui.job.booking.booking_fields import (
    FIELDS,
    Note,
    day_note,
    days_typed,
    hours_note,
    load_note,
    read_days,
    right_words,
    whole_note,
)
from tui.shell.app import HeadlapApp

EMPTY = {field.id: "" for field in FIELDS}
TODAY = date(2026, 6, 10)
EIGHT = Decimal(8)


def _situation(**acceptance: object) -> Situation:
    """A quote accepted on Monday 8 June: it can be cancelled until Monday 22 June."""
    quote = builders.sent(acceptance=builders.acceptance(**acceptance))
    job = builders.job_at(Stage.QUOTED, quotes=(quote,))
    return builders.situation(replace(job, site=builders.site(ruled_out="Tuesdays")), today=TODAY)


def _note(app: HeadlapApp, row: str) -> str:
    return str(app.screen.query_one(f"#row-{row} > .note", Static).render())


@pytest.mark.long
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_to_buy_and_the_take_off_are_shown_by_key_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.BOOKING)
        if size[0] < 120:  # it has no room in the line of keys, whose end brings all of them
            await pilot.click(offset=(size[0] - 3, size[1] - 1))
            await pilot.press(*"shopping")
            await sees(pilot, "Shopping list  ctrl+l")
            await click_on(pilot, "Show what to buy")
        else:
            await click_on(pilot, "ctrl+l shopping list")
        await sees(pilot, "Materials 0001", "To buy at Osmerton Roofing")
        await pilot.press("escape")
        await sees(pilot, "F10 take-off")
        await pilot.press("ctrl+l")
        await sees(pilot, "Materials 0001")
        await pilot.press("escape")
        await sees(pilot, "F10 take-off")
        await pilot.press("f10")
        await sees(pilot, "Take-off 0001", "Birch Lane")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_days_are_judged_as_they_are_typed_and_booked(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.BOOKING)
        # source: 14 days after 10 June are 24 June, reg. 30; derived.
        assert "Wed 24 Jun 2026" in str(app.screen.query_one("#right", Static).render())
        form = form_of(app)
        form.put("day1", "+16")
        form.put("day2", "thu")
        form.put("hours2", "4½")
        form.put("task2", "lay")
        form.put("in_hand", "yes")
        await until(pilot, lambda: "■ Thu 11 Jun · may still cancel" in _note(app, "day2"))
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Saved" in said(app))
        assert not form.dirty
    job = read_again(path)
    assert [(d.day, d.hours) for d in job.days] == [
        (date(2026, 6, 11), Decimal("4.5")),
        # derived: of the 5.63 hours quoted 1.13 are left, up to the half hour.
        (date(2026, 6, 26), Decimal("1.5")),
    ]
    assert [d.task for d in job.days] == ["lay", "strip, lay"]
    assert job.materials_in_hand


async def test_what_to_mind_is_in_sight_where_the_booking_begins(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.BOOKING)
        await sees(pilot, "▲ reminder  Construction phase plan", "Materials in hand")
        await until(pilot, lambda: form_of(app).has_focus_within)
        await sees(pilot, "▲ reminder  Construction phase plan", "e.g. thu, 25 Nov")
        await sees(pilot, "quote allows", "Task, day 1")


async def test_the_cursor_begins_on_the_day_that_has_the_trouble(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    dry, wet = date(2026, 6, 25), date(2026, 6, 26)
    with closing(Book.open(path, lambda: NOW)) as book:
        days = (BookedDay(dry, Decimal(2), "strip"), BookedDay(wet, Decimal(3), "lay"))
        book.book_days(book.job(1), Booking(days, materials_in_hand=True))
        book.save_forecasts(read_line("forecast", "r", wet))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        app.open_job(1, PageName.BOOKING)
        await sees(pilot, "▲ rain")
        await until(pilot, lambda: app.focused is app.screen.query_one("#field-day2"))


async def test_what_will_not_do_stays_typed_and_nothing_is_booked(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    accepted(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.BOOKING)
        form_of(app).put("day1", "+16")
        form_of(app).put("hours1", "25")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Hours, day 1" in said(app))
        assert app.focused is app.screen.query_one("#field-hours1")
        assert "Fri 26 Jun" in _note(app, "day1")
    assert read_again(path).days == ()


@pytest.mark.parametrize(
    ("day", "words", "tone"),
    [
        ("24 Jun", "Wed 24 Jun", Tone.PLAIN),
        ("22 Jun", "■ Mon 22 Jun · may still cancel", Tone.STOP),
        ("23 Jun", "▲ Tue 23 Jun · does not suit them", Tone.CAUTION),
        ("28 Jun", "▲ Sun 28 Jun · Sunday", Tone.CAUTION),
        # source: Christmas Day is a bank holiday in England; memory.
        ("25 Dec 2026", "▲ Fri 25 Dec 2026 · Christmas Day", Tone.CAUTION),
        ("9 Jun", "■ Tue 9 Jun · may still cancel · does not suit them · gone by", Tone.STOP),
        ("", "", Tone.PLAIN),
        ("soon", "", Tone.PLAIN),
        (NASTY, "", Tone.PLAIN),
    ],
)
def test_a_day_is_told_with_what_is_odd_about_it(day: str, words: str, tone: Tone) -> None:
    note = day_note(EMPTY | {"day2": day, "hours2": NASTY}, 2, _situation())
    assert (note.words, note.tone) == (words, tone)


def test_an_early_day_that_was_asked_for_is_no_stop() -> None:
    asked = _situation(early_request_on=builders.AGREED, knows_right_ends=True)
    note = day_note(EMPTY | {"day1": "22 Jun"}, 1, asked)
    assert (note.words, note.tone) == ("▲ Mon 22 Jun · early, as asked", Tone.CAUTION)


@pytest.mark.parametrize(
    ("forecast", "hours", "words", "tone"),
    [
        (None, "", "6 h · no forecast", Tone.QUIET),
        ("d", "8", "✓ dry 7½–18", Tone.GOOD),
        ("r", "8", "rain", Tone.CAUTION),
        ("d@20", "8", "▲ wind 20", Tone.CAUTION),
        ("d9-16", "8", "▲ dry 9–16", Tone.CAUTION),
        ("d9-16", "16", "▲ too short: 16 h of 10½ h · dry 9–16", Tone.CAUTION),
        ("d", "more", "", Tone.PLAIN),
    ],
)
def test_the_hours_are_held_against_the_forecast(
    forecast: str | None, hours: str, words: str, tone: Tone
) -> None:
    day = builders.LAY_DAY
    known = {} if forecast is None else {day: builders.forecast(day, forecast)}
    situation = replace(_situation(), forecasts=known)
    note = hours_note(EMPTY | {"day1": "24 Jun", "hours1": hours}, 1, situation)
    assert words in note.words
    assert bool(words) is bool(note.words)
    assert note.tone is tone


def test_a_winter_day_is_too_short_for_the_hours() -> None:
    # source: around Christmas Britain has under eight hours of daylight; memory.
    note = hours_note(EMPTY | {"day1": "21 Dec 2026", "hours1": "8"}, 1, _situation())
    assert note.words.startswith("▲ too short: 8 h of 7")


def test_the_right_to_cancel_is_told_with_one_day() -> None:
    told = right_words(_situation().job, TODAY)
    assert "until the end of Mon 22 Jun 2026." in told.words
    open_still = right_words(_situation(materials_on=None).job, TODAY)
    assert "14 days after the last materials if later" in open_still.words
    urgent = right_words(_situation(urgent_why="tree fell on it").job, TODAY)
    assert urgent.words == "No right to cancel: urgent repair."
    untold = right_words(_situation(notice_on=None).job, TODAY)
    # source: reg. 31, 12 months more for a customer who was not told; read.
    assert "22 Jun 2027" in untold.words
    assert untold.tone is Tone.CAUTION


def test_a_right_to_cancel_that_is_over_is_told_with_its_end() -> None:
    over = right_words(_situation().job, date(2026, 6, 23))
    assert over.words == "Their right to cancel ended on Mon 22 Jun 2026."
    done = _situation(early_request_on=date(2026, 6, 8), knows_right_ends=True).job
    laid = replace(done, stage=Stage.LAID, laying=Laying(date(2026, 6, 12)))
    assert right_words(laid, date(2026, 6, 12)).words.endswith("ended on Fri 12 Jun 2026.")
    # source: reg. 36, only at their request and with their word that they know; read.
    unasked = replace(_situation().job, stage=Stage.LAID, laying=laid.laying)
    assert "They can cancel until" in right_words(unasked, date(2026, 6, 12)).words


def test_no_right_and_no_yes_are_told_apart() -> None:
    job = _situation(made_at=MadeAt.PREMISES).job
    assert right_words(job, TODAY).words.startswith("No right to cancel")
    business = replace(_situation().job, customer=builders.customer(kind=CustomerKind.BUSINESS))
    assert right_words(business, TODAY).words.startswith("No right to cancel")
    assert "Not accepted" in right_words(builders.ready_for(Stage.QUOTED), TODAY).words


@pytest.mark.parametrize(
    ("typed", "words", "tone"),
    [
        # The builders' quote was priced with 5.63 hours.
        ({}, "0 hours booked; quote allows 5¾.", Tone.QUIET),
        ({"day1": "24 Jun", "hours1": "5"}, "▲ 5 hours booked; quote allows 5¾.", Tone.CAUTION),
        ({"day1": "24 Jun"}, "6 hours booked; quote allows 5¾.", Tone.QUIET),
        (
            {"day1": "24 Jun", "hours1": "4", "day2": "25 Jun", "day3": "soon"},
            "6 hours booked; quote allows 5¾.",
            Tone.QUIET,
        ),
        (
            {"day1": "24 Jun", "hours1": "much", "day2": "25 Jun", "hours2": "5"},
            "▲ 5 hours booked; quote allows 5¾.",
            Tone.CAUTION,
        ),
    ],
)
def test_the_hours_booked_stand_beside_those_of_the_quote(
    typed: dict[str, str], words: str, tone: Tone
) -> None:
    note = whole_note(EMPTY | typed, _situation())
    assert (note.words, note.tone) == (words, tone)


def test_new_days_take_what_is_left_of_the_quotes_hours() -> None:
    job = _situation().job
    typed = EMPTY | {"day1": "24 Jun", "day2": "25 Jun", "day3": "26 Jun", "hours3": "1"}
    days = read_days(typed, job, builders.trader(hours_a_day=Decimal(3)), TODAY)
    # derived: 5.63 less the hour typed is 4.63: three, then two for the 1.63 left.
    assert [day.hours for day in days] == [3, 2, 1]
    note = hours_note(typed, 2, replace(_situation(), trader=builders.trader(hours_a_day=3)))
    assert note.words == "2 h · no forecast"
    unquoted = replace(job, quotes=())
    assert [day.hours for day in read_days(typed, unquoted, builders.trader(), TODAY)] == [8, 8, 1]


def test_a_winter_day_takes_no_more_hours_than_it_is_long_enough_for() -> None:
    unquoted = replace(_situation().job, quotes=())
    (day,) = read_days(EMPTY | {"day1": "21 Dec 2026"}, unquoted, builders.trader(), TODAY)
    # derived: 7¼ hours inside daylight in the middle of England, less the underlay's half hour.
    assert day.hours == Decimal("6.75")


def test_days_are_read_back_unchanged_and_more_than_four_are_kept() -> None:
    days = tuple(
        BookedDay(date(2026, 6, number), EIGHT, f"strip\nlay {number}") for number in range(20, 26)
    )
    job = builders.job_at(Stage.BOOKED, days=days)
    shown = {key: text.replace("\n", " ") for key, text in days_typed(job).items()}
    assert read_days(EMPTY | shown, job, builders.trader(), TODAY) == days


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"day1": "[/]"}, "day1"),
        ({"day1": "24 Jun", "day3": "24/6/2026"}, "day3"),
        ({"day1": "24 Jun", "hours1": "0"}, "hours1"),
        ({"day1": "24 Jun", "hours1": "9" * 400}, "hours1"),
        ({"hours2": "8"}, "day2"),
        ({"task4": "lay"}, "day4"),
        ({"day1": "24 Jun", "task1": "lay27 nov"}, "task1"),
    ],
)
def test_a_refusal_names_the_field(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_days(EMPTY | typed, _situation().job, builders.trader(), TODAY)
    assert refused.value.field == label


def test_a_load_over_the_payload_is_a_caution_in_words() -> None:
    # By hand: the worked example takes 101 kg (tests of what a roof weighs).
    job = builders.job_at(Stage.QUOTED, quotes=(priced.quote(),))
    situation = Situation(job, builders.trader(van=Van(payload_kg=Decimal(60))), TODAY, {})
    note = load_note(situation)
    assert note.words == "▲ 101 kg to load; van carries 60 kg: 2 trips."
    assert note.tone is Tone.CAUTION
    wide = replace(situation, trader=builders.trader(van=Van(payload_kg=Decimal(700))))
    assert load_note(wide).tone is Tone.QUIET


def test_another_job_on_the_day_is_named_with_its_hours_as_the_day_is_typed() -> None:
    other = OtherWork(date(2026, 6, 26), Decimal("6.5"), "0017", "Mill Row")
    situation = replace(_situation(), others=(other,))
    said = day_note(EMPTY | {"day1": "26 jun"}, 1, situation)
    assert said == Note("▲ Fri 26 Jun · also Mill Row 6½ h", Tone.CAUTION)
    assert "also" not in day_note(EMPTY | {"day1": "25 jun"}, 1, situation).words
