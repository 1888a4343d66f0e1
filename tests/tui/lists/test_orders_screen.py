"""The order list: from the line of Tonight to ordered, to here, and back by undo."""

from datetime import datetime, time, timedelta
from pathlib import Path

import pytest

from tests import builders
from tests.storage.books import opened, settle
from tests.storage.test_orders import to_supply as booked_without
from tests.tui.books.a_job_at_a_stage import by_another_hand
from tests.tui.books.materials_to_order import app_at, to_supply
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, cut_off, sees
from tui.shell.app import make_app

SAVE = key("dialog", "save")


@pytest.mark.parametrize("size", SIZES)
async def test_ordered_from_the_line_in_four_keys_then_here_and_in_hand(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = to_supply(tmp_path)
    async with app_at(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Order for Wednesday")
        await hands.press("enter")
        await sees(pilot, "To order, needed on Wed 24 Jun 2026.", "packs")
        assert await cut_off(pilot) == []
        await hands.ask(key("orders", "all_ordered"))
        await sees(pilot, "Comes on", "Tue 23 Jun 2026")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Ordered, to come on Tue 23 Jun 2026. F8 to undo.")
        await sees(pilot, "Nothing left tonight.")
        assert hands.pressed == 3
    async with app_at(path, 1).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Has it come?")
        await hands.press("enter")
        await sees(pilot, "Ordered, to come today.")
        await hands.ask(key("orders", "part"))
        await sees(pilot, "What is here?")
        await hands.type_in("1")
        await hands.press(SAVE)
        await hands.hears("Here: it is in stock. F8 to undo.")
        await sees(pilot, "Part delivered", "1 here")
        await hands.press(key("orders", "here"))
        await sees(pilot, "Nothing left tonight.")
    assert by_another_hand(path, lambda _, job: job).materials_in_hand


async def test_undo_in_the_list_puts_the_order_back(tmp_path: Path) -> None:
    path = to_supply(tmp_path)
    async with app_at(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("week", "orders"))
        await sees(pilot, "To order")
        await hands.press("enter", SAVE)
        await hands.hears("Ordered, to come on Tue 23 Jun 2026. F8 to undo.")
        await hands.press("f8", "f8")
        await hands.hears("Undone: order")


async def test_from_ones_own_book_all_of_it_lies_among_ones_documents(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, documents = to_supply(tmp_path), tmp_path / "Documents"
    monkeypatch.setattr("storage.saved_papers.book_path", lambda _: path)
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: documents)
    async with app_at(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("week", "orders"))
        await sees(pilot, "To order")
        await hands.press(key("orders", "spreadsheet"))
        await hands.hears("Saved as")
        await hands.press(key("orders", "copy"))
        await hands.hears("Also saved as")
        await hands.press(key("orders", "paper"))
        await sees(pilot, "Deliver to")
        await hands.press(key("paper", "print"))
        await hands.hears(".pdf")
        await hands.press("escape", key("anywhere", "go('books')"))
        await sees(pilot, "quarter 1 of")
        await hands.press(key("books", "spreadsheet"))
        await hands.hears(".csv")
    kept = sorted(each.suffix for each in (documents / "Headlap").iterdir())
    assert kept == [".csv", ".csv", ".pdf", ".txt"]
    assert not (tmp_path / "papers").exists()


async def test_the_list_is_a_paper_without_prices_a_text_and_a_spreadsheet(tmp_path: Path) -> None:
    path = to_supply(tmp_path)
    async with app_at(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("week", "orders"))
        await sees(pilot, "To order")
        await hands.press(key("orders", "spreadsheet"))
        await hands.hears("Saved as")
        await hands.press(key("orders", "copy"))
        await hands.hears("Also saved as")
        await hands.press(key("orders", "paper"))
        await sees(pilot, "Deliver to")
    (table,) = (tmp_path / "papers").glob("*.csv")
    assert "packs,of,item" in table.read_text("utf-8-sig")
    (text,) = (tmp_path / "papers").glob("*.txt")
    assert "£" not in text.read_text()
    assert builders.site().place in table.read_text("utf-8-sig")


async def test_an_order_on_its_way_is_moved_asked_after_and_cancelled(tmp_path: Path) -> None:
    path = to_supply(tmp_path)
    async with app_at(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("week", "orders"))
        await sees(pilot, "To order")
        await hands.ask(key("orders", "telephone"))
        await hands.write({"Telephone": "01632960118"})
        await hands.press(SAVE)
        await hands.hears("Saved: telephone of")
        await sees(pilot, "01632 960118.")
        await hands.press(key("orders", "cancel"))
        await hands.hears("This is not ordered yet.")
        await hands.ask(key("orders", "open"))
        await sees(pilot, "my own address", f"First needed at {builders.site().place}")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Ordered, to come on Tue 23 Jun 2026. F8 to undo.")
        await sees(pilot, "Ordered, to come tomorrow.", "960118.")
        await hands.ask(key("orders", "other_day"))
        await hands.write({"Comes on": "fri"})
        await hands.press(SAVE)
        await hands.hears("Comes on Fri 26 Jun 2026. F8 to undo.")
        await hands.press(key("orders", "paper"))
        await sees(pilot, "Ordered on", "Fri 26 Jun 2026")
        await hands.press("escape")
        await hands.press(key("orders", "copy"))
        await hands.hears("Also saved as")
        await hands.press(key("orders", "cancel"))
        await hands.hears("Cancelled: what is not here is to be ordered again. F8 to undo.")
        await sees(pilot, "To order")
        assert await cut_off(pilot) == []
    (text,) = (tmp_path / "papers").glob("*.txt")
    assert "My order of Mon 22 Jun 2026:" in text.read_text()


async def test_a_list_for_two_jobs_asks_once_where_it_goes_and_says_so(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    with opened(path) as book:
        settle(book)
        booked_without(book)
        booked_without(book, "Quarry Cottage")
    evening = datetime.combine(builders.LAY_DAY, time(19)) - timedelta(days=2)
    async with make_app(path, lambda: evening).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(key("week", "orders"))
        await sees(pilot, "To order")
        await hands.press(key("orders", "copy"))
        await sees(pilot, "where does it go?", "One place, for both jobs.", "my own address")
        assert await cut_off(pilot) == []
        await hands.press("i", SAVE)
        await hands.hears("saved as")
        await sees(pilot, "Collected.")
        await hands.press(key("orders", "paper"))
        await sees(pilot, "I collect it")
        await hands.press("escape")
        await hands.press(key("orders", "where"), "m", SAVE)
        await hands.hears("F8 to undo.")
        await sees(pilot, "To 3 Tannery Row")
        await hands.press("enter", SAVE)
        await hands.hears("Ordered, to come")
    (text,) = (tmp_path / "papers").glob("*.txt")
    assert "Delivery: I collect it" in text.read_text()
