"""Compare coverings, and the key that takes one."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from textual.pilot import Pilot

from domain.job import Stage
from domain.page_names import PageName
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.books.an_enquiry import read_again
from tests.tui.hands import form_of, hears, turn_to, until
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.job.coverings.covering_columns import CoveringColumns
from tui.job.coverings.coverings_screen import CoveringsScreen
from tui.lists.prices_screen import PricesScreen
from tui.shell.app import HeadlapApp


async def _compare(pilot: Pilot[None], app: HeadlapApp) -> CoveringColumns:
    await turn_to(pilot, app, PageName.QUOTE)
    await pilot.press("ctrl+l")
    await until(pilot, lambda: isinstance(app.screen, CoveringsScreen))
    columns = app.screen.query_one(CoveringColumns)
    await until(pilot, lambda: bool(columns.groups))
    return columns


@pytest.mark.parametrize("size", SIZES)
async def test_the_coverings_stand_side_by_side_whole(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        columns = await _compare(pilot, app)
        assert columns.names == ("square butt", "hexagonal", "felt")
        await sees(pilot, "On the van", "Hours", "Your margin", "They pay")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize("size", SIZES)
async def test_a_covering_without_a_price_is_shown_with_all_but_its_money(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    with closing(sqlite3.connect(path)) as book, book:
        book.execute("DELETE FROM price WHERE material = 'hexagonal'")
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        columns = await _compare(pilot, app)
        takes, money = columns.groups
        told = {row.label: row.cells[1] for row in takes}
        assert all(told[label] for label in ("Covering", "Underlay", "On the van", "Hours"))
        assert [row.cells[1] for row in money if row.counts] == ["no price yet"]
        await sees(pilot, "No price for hexagonal shingles yet: add it in Prices.")
        assert await cut_off(pilot) == []
        await pilot.press("2")
        await hears(pilot, app, "Chosen: hexagonal. No price for")
        await pilot.press("f4")
        await until(pilot, lambda: isinstance(app.screen, PricesScreen))


@pytest.mark.parametrize("by", ["key", "mouse"])
async def test_one_key_or_a_click_takes_a_covering(tmp_path: Path, by: str) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        columns = await _compare(pilot, app)
        assert columns.chosen == 0
        if by == "key":
            await pilot.press("2")
        else:
            await click_on(pilot, "hexagonal")
        await hears(pilot, app, "Chosen: hexagonal.")
        await until(pilot, lambda: columns.chosen == 1)
        await pilot.press("2")
        await hears(pilot, app, "It is in hexagonal already.")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.covering is not None
    assert survey.covering.key == "hexagonal"


async def test_typing_that_is_not_saved_is_not_left_out_of_the_comparison(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.QUOTED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.SURVEY)
        form_of(app).put("length", "3 m")
        await pilot.press("ctrl+l")
        await hears(pilot, app, "Save what you typed first: ctrl+s.")
        await pilot.press("ctrl+s")
        await hears(pilot, app, "Saved: the survey.")
        await pilot.press("ctrl+l")
        await until(pilot, lambda: isinstance(app.screen, CoveringsScreen))
