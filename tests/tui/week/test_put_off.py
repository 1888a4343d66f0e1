"""Not tonight: a line comes back on its day; a stop does not wait."""

from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from domain.job import Cover, Job, Stage
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import NOW, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.shell.app import make_app

LATER = key("week", "put_off")


@pytest.mark.parametrize("size", SIZES)
async def test_a_line_is_put_off_until_tomorrow_and_comes_back(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    async with app_on(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        await hands.ask(LATER)
        await sees(pilot, "Not tonight: Send the invoice", "Thu 25 Jun 2026")
        assert await cut_off(pilot) == []
        await hands.press(key("dialog", "save"))
        await hands.hears("Back on Thu 25 Jun 2026. F8 to undo.")
        await sees(pilot, "Nothing left tonight.")
        assert hands.pressed == 2
        await hands.press("f8", "f8")
        await hands.hears("Undone: Birch Lane “issue the invoice” put off until Thu 25 Jun 2026.")
        await sees(pilot, "Send the invoice")
        await click_on(pilot, "l later")
        await sees(pilot, "Back on")
        await hands.press(key("dialog", "save"))
        await sees(pilot, "Nothing left tonight.")
    tomorrow = NOW + timedelta(days=1)
    async with make_app(path, lambda: tomorrow).run_test(size=size) as pilot:
        await sees(pilot, "Send the invoice")


async def test_a_day_that_is_not_ahead_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Send the invoice")
        await hands.ask(LATER)
        await hands.type_in("today")
        await hands.press(key("dialog", "save"), key("dialog", "save"))
        await hands.hears("Give a day after today.")


def _left_open(book: Book, job: Job) -> Job:
    return book.record_stripping(job, builders.stripping(cover=Cover.OPEN))


async def test_a_stop_does_not_wait(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.STRIPPED)
    by_another_hand(path, _left_open)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Sheet it: roof left open")
        await hands.press(LATER)
        await hands.hears("This cannot be put off: rain gets into an open roof tonight.")
        assert "Sheet it" in text(hands.app)
    with closing(Book.open(path, lambda: NOW)) as book:
        assert "put off" not in " ".join(entry.words for entry in book.history(1))
