"""Day or evening: the colours chosen last are there at the next start."""

from pathlib import Path

import pytest

from domain.job import Stage
from storage.chosen_colours import keep_colours
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key


async def test_the_colours_chosen_are_kept_for_the_next_start(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    assert app.theme == "evening"
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("anywhere", "switch_colours"))
        await hands.until(lambda: app.theme == "day")
    assert app_on(path).theme == "day"


@pytest.mark.parametrize("written", ["", "midnight", "\udcff"])
def test_colours_that_are_none_of_ours_are_those_of_the_evening(
    tmp_path: Path, written: str
) -> None:
    path = tmp_path / "book.headlap"
    keep_colours(path, "day")
    (kept,) = tmp_path.iterdir()
    kept.write_bytes(written.encode("utf-8", "surrogateescape"))
    assert app_on(path).theme == "evening"
