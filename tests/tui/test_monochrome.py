"""Without colour nothing is lost: every status has a word and a sign of its own."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from domain.coverings.materials import Material
from domain.job import Cover, Ending, Extra, ExtraState, Job, Means, Snag, Stage
from domain.page_names import PageName
from tests import builders, priced
from tests.storage.books import open_book, settle
from tests.tui.books.a_job_at_a_stage import TODAY, app_on
from tests.tui.books.written_straight import put_down
from tests.tui.hands import Hands, key
from tests.tui.sight import lines, place_of, sees, text
from tui.lists.jobs_screen import JobsScreen
from tui.lists.prices_screen import PricesScreen
from tui.shell.app import HeadlapApp

ROOFS = {
    Stage.ENQUIRY: "░▒░▒░",
    Stage.SURVEY: "░▒░▒░",
    Stage.QUOTED: "░▒░▒░",
    Stage.BOOKED: "░▒░▒░",
    Stage.STRIPPED: "═════",
    Stage.LAID: "▆▆▆▆▆",
    Stage.SIGNED_OFF: "▟███▙",
}
EXTRAS = tuple(
    Extra("boards", Decimal(2), "m", 28_00, Decimal(0), state, "Mrs Adeyemi", TODAY, Means.TEXT)
    for state in ExtraState
)
SNAGS = (Snag("drip trim loose"), Snag("a nail proud", done_on=TODAY))


def _jobs() -> Iterator[Job]:
    """A job of every stage and every ending; the last is the one that is looked at closely."""
    for stage in list(Stage)[:-1]:
        yield builders.job_at(stage, documents=())
    for ending in Ending:
        yield builders.job_at(Stage.QUOTED, ended=ending, ended_why="too dear")
    done = builders.job_at(Stage.STRIPPED, stripping=builders.stripping(cover=Cover.OPEN))
    yield replace(done, extras=EXTRAS, snags=SNAGS, documents=(builders.invoice(),))


def _settle(path: Path) -> list[int]:
    with closing(open_book(path)) as book:
        settle(book)
        for days, net in ((-1, 7_05), (9, 7_20)):
            since = TODAY + timedelta(days=days)
            book.set_price(replace(priced.price(Material.SHINGLE_NAILS, net, "900"), since=since))
        other = replace(priced.PRICES[2], merchant="Ek & Sons", since=TODAY)
        book.set_price(replace(other, since=priced.PRICED - timedelta(days=1)))
    return put_down(path, list(_jobs()))


def _is_grey(app: HeadlapApp) -> bool:
    """Tell whether every colour on the screen is a shade of grey."""
    styles = (
        segment.style for strip in app.screen._compositor.render_strips() for segment in strip
    )
    colours = [c for style in styles if style for c in (style.color, style.bgcolor) if c]
    shades = {colour.get_truecolor() for colour in colours}
    return len(shades) > 1 and all(len(set(shade)) == 1 for shade in shades)


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("NO_COLOR", "1")
    return tmp_path / "book.headlap"


async def test_every_status_has_a_word_and_a_sign(book: Path) -> None:
    jobs = _settle(book)
    laid, last = jobs[Stage.LAID.rank], jobs[-1]
    app = app_on(book)
    async with app.run_test(size=(120, 40)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        assert _is_grey(app)
        _look_at_tonight(app)
        await hands.press(key("anywhere", "go('jobs')"))
        await hands.until(lambda: isinstance(app.screen, JobsScreen))
        await sees(pilot, "called off 1")
        assert _is_grey(app)
        _look_at_the_jobs(app)
        await hands.press(key("jobs", "back"), key("anywhere", "go('prices')"))
        await hands.until(lambda: isinstance(app.screen, PricesScreen))
        await sees(pilot, "bitumen mastic")
        assert _is_grey(app)
        _look_at_the_prices(app)
        await hands.press(key("prices", "back"))
        app.open_job(last, PageName.STRIP)
        await hands.shows(PageName.STRIP)
        await sees(pilot, "▲ to agree", "✓ agreed", "– not charged", "■ 12 stops", "▲ reminder")
        assert _is_grey(app)
        app.open_job(last, PageName.SIGN_OFF)
        await sees(pilot, "▲ open", "✓ fixed Wed 24 Jun 2026", "▸signed off")
        await hands.turn_to(PageName.MONEY)
        await sees(pilot, "£486.00", "▸money")
        app.open_job(laid, PageName.SIGN_OFF)
        await sees(pilot, "■ stop", "▲ caution", "▸signed off")
        assert _is_grey(app)


def _look_at_tonight(app: HeadlapApp) -> None:
    """Each line begins with a sign, then says what to do."""
    first = place_of(app, "Tonight").y + 2
    rows = [line[2:40] for line in lines(app)[first:] if line[2:3].strip()]
    tonight = [row for row in rows if row[0] in "■£ " and row[1:3] == "  "]
    assert {row[0] for row in tonight} >= {"■", "£"}
    assert all(row[3].isupper() for row in tonight)


def _look_at_the_jobs(app: HeadlapApp) -> None:
    """Each row has the roof as it stands and the stage's word; the chosen group has a mark."""
    rows = [line for line in lines(app) if line[2:6].isdigit()]
    for stage in list(Stage)[:-1]:
        assert any(f"{ROOFS[stage]} {stage} " in row for row in rows)
    for ending in Ending:
        assert any(f"{ROOFS[Stage.QUOTED]} {ending} " in row for row in rows)
    assert "▸all " in text(app)


def _look_at_the_prices(app: HeadlapApp) -> None:
    """Each sign before a price is told in the heading."""
    heading, *below = lines(app)
    told = {"▸": "next quote", "·": "now", "+": "future", "–": "old"}
    assert all(f"{sign} {words}" in heading for sign, words in told.items())
    assert {line[2] for line in below if line.endswith("2026")} == set(told)
