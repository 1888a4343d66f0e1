"""The list of prices filled from an empty book: what is a starting figure is said to be one."""

from pathlib import Path

import pytest

from domain.coverings.materials import MATERIALS
from tests.storage.books import query
from tests.tui.books.a_job_at_a_stage import app_on
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, cut_off, sees, text

NEWEST = "SELECT material, merchant, net, starting FROM price ORDER BY id"


@pytest.mark.parametrize("size", SIZES)
async def test_one_merchant_and_one_price_fill_the_list(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Who you are")
        await hands.press(key("anywhere", "go('prices')"))
        await sees(pilot, "no price yet")
        await hands.press(key("prices", "confirm"))
        await hands.hears("There is no starting figure left.")
        await hands.ask(key("prices", "fill"))
        await hands.write({"Merchant": "Fenwell", "Square butt shingles": "43.20"})
        await hands.press(key("dialog", "save"))
        await hands.hears("Saved: your prices: 1; starting figures: 11.")
        await sees(pilot, "▲ starting", "starting figure – change to yours")
        assert await cut_off(pilot) == []
        first, *others = query(path, NEWEST)
        assert first == ("square-butt", "Fenwell", 3600, 0)  # typed with VAT: £43.20
        assert len(others) == len(MATERIALS) - 1
        assert {(merchant, starting) for _, merchant, _, starting in others} == {("Fenwell", 1)}
        await hands.press(key("prices", "fill"))
        await hands.hears("Every material has a price already.")
        await hands.press(key("prices", "confirm"))
        await hands.hears("Saved: the starting figures are now your prices.")
        await hands.until(lambda: len(query(path, NEWEST)) == 2 * len(others) + 1)
        again = query(path, NEWEST)[-len(others) :]
        assert [row[:3] for row in again] == [row[:3] for row in others]
        assert {starting for *_, starting in again} == {0}
        await hands.press(key("prices", "confirm"))
        await hands.hears("There is no starting figure left.")
        await hands.until(lambda: "▲ starting" not in text(app))  # mine is what is quoted from
        assert "change to yours" not in text(app)
