"""A book of an older version: brought up to date as it is opened, and gone on with at once."""

from pathlib import Path

from tests.storage.test_older_books import book_of_version
from tests.tui.books.a_job_at_a_stage import app_on
from tests.tui.hands import Hands
from tui.widgets.line_list import LineList


async def test_the_cursor_is_in_tonight_once_it_is_brought_up_to_date(tmp_path: Path) -> None:
    path = book_of_version(tmp_path / "book.headlap", 1)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.until(lambda: isinstance(app.focused, LineList))
        await hands.comes_to_rest()
        assert isinstance(app.focused, LineList)
