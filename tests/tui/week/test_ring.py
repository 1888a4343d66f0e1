"""The call about the weather, made and recorded from its line of Tonight."""

from contextlib import closing
from dataclasses import replace
from datetime import date, datetime, time
from pathlib import Path

import pytest
import zxingcpp
from rich.color import Color
from textual.geometry import Region

from domain.days.forecast_line import read_line
from domain.job import Cover, Job, Stage
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import Clock, Hands, key
from tests.tui.sight import SIZES, cut_off, sees, text
from tests.tui.widgets.codes import read_back
from tui.shell.app import HeadlapApp, make_app
from tui.week.ring_dialog import RingDialog, stands_off
from tui.widgets.square_code import CodeView

MONDAY = datetime.combine(date(2026, 6, 22), time(19))
OPEN, UNDO = key("week", "open"), key("anywhere", "undo")


def _rain_on_wednesday(path: Path) -> Job:
    """A job booked for Wednesday, when it rains; the days after are dry but for Thursday."""
    job = carried_to(path, Stage.BOOKED)
    with closing(Book.open(path, lambda: MONDAY)) as book:
        book.save_forecasts(read_line("forecast", "ddrrdd", MONDAY.date()))
    return job


async def _rings(hands: Hands) -> None:
    await sees(hands.pilot, "Ring: rain on Wednesday")
    await hands.ask(OPEN)
    await sees(hands.pilot, "Wed 24 Jun: rain, 8 h booked", "1  Fri 26 Jun")


def test_a_roof_that_is_off_is_spoken_of_before_its_day_is_moved() -> None:
    laid = builders.week_line(builders.job_at(Stage.LAID))
    assert stands_off(laid) == ()
    off = replace(laid, laid_on=None)
    told = {cover: stands_off(replace(off, cover=cover)) for cover in Cover}
    assert told[Cover.LAID] == ()
    assert "get it sheeted" in told[Cover.OPEN][0]
    assert "tied down" in told[Cover.SHEETED][0]


@pytest.mark.parametrize("size", SIZES)
async def test_a_job_is_moved_by_three_keys_and_back_by_undo(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    before = _rain_on_wednesday(path)
    async with make_app(path, Clock(MONDAY)).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _rings(hands)
        assert await cut_off(pilot) == []
        await hands.press("1", "enter")
        await hands.hears("moved to Fri 26 Jun. F8 to undo.")
        assert hands.pressed == 3
        assert [each.day for each in read_again(path).days] == [date(2026, 6, 26)]
        assert "Ring:" not in text(hands.app)
        await hands.press(UNDO, UNDO)
        await hands.hears("Undone: Birch Lane moved to Fri 26 Jun")
        await _rings(hands)
        await hands.press("2", "enter")
        await hands.hears("moved to Mon 29 Jun")
    assert before.days != read_again(path).days


async def test_enter_alone_moves_nobody(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    before = _rain_on_wednesday(path)
    async with make_app(path, Clock(MONDAY)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _rings(hands)
        await hands.press("enter", "enter")
        await hands.hears("Choose the day first, by its digit or ↓.")
        assert read_again(path).days == before.days
        await hands.press("down", "enter")
        await hands.hears("moved to Fri 26 Jun")


async def test_a_day_that_stays_is_rung_about_no_more(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    before = _rain_on_wednesday(path)
    async with make_app(path, Clock(MONDAY)).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _rings(hands)
        await hands.press(key("ring", "stays"))
        await hands.hears("rung, stays on Wed 24 Jun. F8 to undo.")
        await hands.until(lambda: "Ring:" not in text(hands.app))
    after = read_again(path)
    assert (after.days, [each.day for each in after.rung]) == (before.days, [date(2026, 6, 24)])


async def test_a_call_nobody_answered_is_back_tomorrow(tmp_path: Path) -> None:
    path, clock = tmp_path / "book.headlap", Clock(MONDAY)
    _rain_on_wednesday(path)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _rings(hands)
        await hands.press(key("ring", "no_answer"))
        await hands.hears("no answer. Back tomorrow, Tue 23 Jun. F8 to undo.")
        await hands.until(lambda: "Ring:" not in text(hands.app))
    clock.now = MONDAY.replace(day=23)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Ring: rain tomorrow")


def _drawn(app: HeadlapApp) -> tuple[Region, list[str]]:
    """Where the code stands, and its lines as they are on the screen."""
    region = app.screen.query_one(CodeView).region
    strips = app.screen._compositor.render_strips()[region.y : region.bottom]
    cut = [strip.crop(region.x, region.right) for strip in strips]
    colours = {(s.style.color, s.style.bgcolor) for strip in cut for s in strip if s.style}
    assert colours == {(Color.parse("#000000"), Color.parse("#ffffff"))}
    return region, [strip.text for strip in cut]


@pytest.mark.parametrize("size", SIZES)
async def test_the_message_is_copied_and_shown_as_a_code_that_a_decoder_reads(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    _rain_on_wednesday(path)
    async with make_app(path, Clock(MONDAY)).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _rings(hands)
        await hands.press("down", "down", key("ring", "copy"))
        await hands.hears("Would Mon 29 Jun suit instead?")
        await hands.hears("Your terminal may have copied it.")
        assert hands.app.clipboard.startswith("Hello Mrs Adeyemi, rain is forecast for Wed 24 Jun")
        for _ in range(2):  # in either colours
            await hands.ask(key("ring", "code"))
            await hands.until(lambda: bool(hands.app.screen.query(CodeView)))
            await hands.is_drawn()
            region, drawn = _drawn(hands.app)
            assert hands.app.screen.region.contains_region(region)
            assert await cut_off(pilot) == []
            (read,) = zxingcpp.read_barcodes(read_back(drawn))
            form, number, words = read.text.split(":", 2)
            assert (form, number) == ("SMSTO", "+441632960117")
            assert "Would Mon 29 Jun suit instead?" in words
            is_whole = words == hands.app.clipboard
            assert is_whole is (size[1] == 40)
            assert ("Shortened to fit this window." in text(hands.app)) is not is_whole
            await hands.press("escape")
            await hands.until(lambda: isinstance(hands.app.screen, RingDialog))
            await hands.press(key("anywhere", "switch_colours"))
