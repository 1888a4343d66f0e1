"""Stock (leftovers): put in, taken out, counted, by keys and by mouse; what is not valid."""

from contextlib import closing
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.coverings.materials import Material
from domain.errors import Refused
from domain.estimate.stock import StockLine, StockMove
from domain.job import Sending, Stage, StageMove
from storage.book import Book
from tests import builders, priced
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.frame.safe_text import one_line
from tui.lists.stock_dialogs import read_count_of, read_put_in, read_taken
from tui.lists.stock_screen import StockScreen

TODAY = NOW.date()
SAVE = key("dialog", "save")
STRIPS = StockLine(Material("square-butt"), "slate grey", Decimal(12))
PUT_IN = {"material": "underlay", "colour": "", "quantity": "4.5", "words": "Birch Lane"}


def _stock(path: Path) -> list[tuple[str, str, Decimal]]:
    with closing(Book.open(path, lambda: NOW)) as book:
        return [(line.material.words, line.colour, line.quantity) for line in book.stock()]


def _with_strips(path: Path) -> None:
    book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        for colour in (STRIPS.colour, f"{NASTY} {'green ' * 12}"):
            book.move_stock(StockMove(STRIPS.material, one_line(colour), STRIPS.quantity, TODAY))


async def _opened(hands: Hands) -> None:
    await sees(hands.pilot, "Tonight")
    await hands.press(key("anywhere", "go('stock')"))
    await hands.until(lambda: isinstance(hands.app.screen, StockScreen))
    await hands.pilot.pause()


async def test_leftovers_are_put_in_and_an_empty_stock_says_how(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await sees(pilot, "No leftovers yet. Press + to add some.")
        await hands.press(key("stock", "open"), key("stock", "take_out"))
        await sees(pilot, "Nothing to take out")
        assert await cut_off(pilot) == []
        await hands.press("3", "n", "enter")
        await hands.until(lambda: not isinstance(app.screen, ModalScreen))
        await click_on(pilot, "+ add")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.write({"Material": Material("square-butt").words, "Quantity": "12"})
        await hands.press(SAVE)
        await hands.hears("Colour is empty.")
        await hands.write({"Colour": "slate grey"})
        await hands.write({"Came from": "left over at Birch Lane"})
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+s save")
        await sees(pilot, "square butt shingles, slate grey", "12 strips")
        assert await cut_off(pilot) == []
    assert _stock(path) == [("square butt shingles", "slate grey", Decimal(12))]


@pytest.mark.parametrize("size", SIZES)
async def test_leftovers_are_counted_and_taken_out(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    _with_strips(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await sees(pilot, "slate grey", "12 strips")
        await click_on(pilot, "square butt shingles, slate grey")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.press(SAVE)
        await hands.hears("No change; press Escape")
        await hands.write({"Counted": "7"})
        await click_on(pilot, "ctrl+s save")
        await sees(pilot, "7 strips")
        await click_on(pilot, "take out")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.write({"Take out": "8", "For": "The Green"})
        await hands.press(SAVE)
        await hands.hears("Only 7 strips in stock: correct the count first.")
        await hands.press("up")
        await hands.write({"Take out": "6"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await sees(pilot, "1 strip")
        await hands.ask(key("stock", "put_in"))
        assert hands.form.values["colour"] == "slate grey"
        await hands.press(key("dialog", "leave"))
        await hands.until(lambda: isinstance(app.screen, StockScreen))
        assert await cut_off(pilot) == []
    kept = {colour: quantity for _, colour, quantity in _stock(path)}
    assert kept["slate grey"] == 1


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"material": ""}, "material"),
        ({"material": NASTY}, "material"),
        ({"material": "hexagonal shingles"}, "colour"),
        ({"quantity": ""}, "quantity"),
        ({"quantity": "0"}, "quantity"),
        ({"quantity": "-3"}, "quantity"),
        ({"quantity": "9" * 30}, "quantity"),
        ({"quantity": "½½"}, "quantity"),
        ({"words": "\t"}, "words"),
    ],
)
def test_what_is_put_in_is_refused_by_name(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_put_in(PUT_IN | typed, TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize(
    ("quantity", "words", "label"),
    [("13", "The Green", "quantity"), ("0", "x", "quantity"), ("1", "", "words")],
)
def test_what_is_taken_out_is_refused_by_name(quantity: str, words: str, label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_taken({"quantity": quantity, "words": words}, STRIPS, TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize("counted", ["12", "12.0", "", "-1", "dozen", NASTY])
def test_a_count_that_changes_nothing_or_is_none_is_refused(counted: str) -> None:
    with pytest.raises(Refused) as refused:
        read_count_of({"counted": counted}, STRIPS, TODAY)
    assert refused.value.field == "counted"


def test_a_count_moves_the_difference() -> None:
    move = read_count_of({"counted": "0"}, STRIPS, TODAY)
    assert move == StockMove(STRIPS.material, STRIPS.colour, Decimal(-12), TODAY, "counted")
    assert read_taken({"quantity": "12", "words": "The Green"}, STRIPS, TODAY).quantity == -12
    assert read_put_in(PUT_IN | {"colour": "grey"}, TODAY).colour == ""  # underlay has none


async def test_what_is_reserved_stands_beside_what_there_is(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job = book_at(path, builders.survey())
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_trader(replace(builders.trader(), version=book.trader().version))
        book.move_stock(StockMove(STRIPS.material, STRIPS.colour, STRIPS.quantity, TODAY))
        job = book.move_stage(job, StageMove(Stage.SURVEY, builders.VISIT, {}))
        job = book.save_quote(job, priced.quote(job=job, stock=book.stock()))
        job = book.send_quote(job, Sending(builders.SENT, builders.VALID_UNTIL, {}))
        option = job.quotes[0].options[0]
        book.accept_quote(job, builders.acceptance(option_id=option.id or 0))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await _opened(Hands(pilot))
        await sees(pilot, f"12 reserved: {job.site.place}")
        assert await cut_off(pilot) == []
