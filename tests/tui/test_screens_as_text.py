"""The main screens of the demo as text at three sizes: what moved on one of them is seen here.

The captures are in ``tests/tui/screens``; ``KEEP_SCREENS=1`` writes them anew, to be looked at.
"""

import os
import shutil
from datetime import datetime
from pathlib import Path

import pytest

from demo_data.kept import open_demo
from domain.page_names import PageName
from storage.week_and_jobs import find_jobs
from tests.tui.hands import Hands, key
from tests.tui.sight import lines
from tui.shell.app import HeadlapApp, make_app

NOW = datetime(2026, 6, 10, 19, 0)
SIZES = [(60, 20), (80, 24), (120, 40)]
KEPT = Path(__file__).parent / "screens"
MAIN = ("jobs", "prices", "trader", "stock", "books")
PAGES = {
    "enquiry": PageName.ENQUIRY,
    "survey": PageName.SURVEY,
    "quoted": PageName.QUOTE,
    "booked": PageName.BOOKING,
    "stripped": PageName.LAYING,
    "laid": PageName.MATERIALS,
    "signed off": PageName.MONEY,
}
"""The page that the newest job of each stage is looked at on."""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo of one evening: the days on the screens do not move."""
    path = tmp_path_factory.mktemp("screens") / "demo.headlap"
    open_demo(path, NOW, None)
    return path


async def _visit(hands: Hands, book: Path) -> dict[str, list[str]]:
    """Every main screen in one walk, each as its lines."""
    app, seen = hands.app, {}

    async def look(name: str) -> None:
        await hands.comes_to_rest()
        seen[name] = lines(app)
        await hands.press("escape")
        await hands.comes_to_rest()

    await hands.comes_to_rest()
    seen["week"] = lines(app)
    for where in MAIN:
        app.action_go(where)
        await look(where)
    app.action_help()
    await look("help")
    newest = {str(job.stage): job.id for job in reversed(find_jobs(book, "")) if not job.ended}
    for stage, page in PAGES.items():
        app.open_job(newest[stage], page)
        await hands.shows(page)
        await look(f"{stage}, {page}")
    app.open_job(newest["signed off"])
    await hands.comes_to_rest()
    await hands.press(key("job", "customer"))
    await look("customer")
    return seen


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_main_screens_stand_as_they_were_kept(
    tmp_path: Path, book: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "demo.headlap"
    shutil.copy(book, path)
    app: HeadlapApp = make_app(path, lambda: NOW)
    async with app.run_test(size=size) as pilot:
        seen = await _visit(Hands(pilot), path)
    told = "".join(f"=== {name}\n{chr(10).join(shown)}\n" for name, shown in seen.items())
    kept = KEPT / f"{size[0]}x{size[1]}.txt"
    if os.environ.get("KEEP_SCREENS"):
        kept.write_text(told, encoding="utf-8")
    assert told.splitlines() == kept.read_text(encoding="utf-8").splitlines()
