"""A cut plan that takes long: the survey says how far it is, and whoever waits no more stops it."""

import threading
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from domain.cutting.plan import Watch
from domain.estimate.supplies import PricesAndStock
from domain.page_names import PageName
from domain.trader import Trader
from tests import builders
from tests.tui.books.an_enquiry import app_on, book_at
from tests.tui.hands import form_of, turn_to, until
from tui.job.survey.takeoff_as_typed import Figure, TakeoffAsTyped, work_out
from tui.job.survey.takeoff_beside import TakeoffBeside
from tui.shell.app import HeadlapApp


class SlowFor:
    """Counts for ever while the length is as recorded; anything else as ever."""

    def __init__(self) -> None:
        self.stopped = threading.Event()

    def __call__(
        self,
        values: Mapping[str, str],
        sources: PricesAndStock,
        trader: Trader,
        watch: Watch,
        *others: Any,
    ) -> TakeoffAsTyped:
        if values["length"] != "2400 mm":
            return work_out(values, sources, trader, watch, *others)
        while watch(214, 208):
            threading.Event().wait(0.001)
        self.stopped.set()
        return TakeoffAsTyped((Figure("Packs", "of what nobody waits for"),))


def _words(view: TakeoffBeside) -> str:
    """What stands there, however the lines fall."""
    return " ".join(str(view.render()).split())


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch) -> SlowFor:
    slow = SlowFor()
    monkeypatch.setattr("tui.job.survey.survey_page.work_out", slow)
    return slow


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_is_typed_anew_stops_the_count_and_wins(
    tmp_path: Path, slow: SlowFor, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        view = app.screen.query_one(TakeoffBeside)
        await until(pilot, lambda: "214 so far, 208 at least" in _words(view))
        form_of(app).put("length", "3 m")
        await until(pilot, lambda: slow.stopped.is_set() and not view.behind)
        assert {f.label: f.words for f in view.figures}["Eaves"] == "3,120 mm"
        assert "so far" not in _words(view)


async def test_leaving_the_survey_stops_the_count(tmp_path: Path, slow: SlowFor) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        view = app.screen.query_one(TakeoffBeside)
        await until(pilot, lambda: view.counting is not None)
        await pilot.press("escape")
        await until(pilot, slow.stopped.is_set)
        assert not view.is_attached
