"""Prices: given from a day on by keys and by mouse; how each stands; what is not valid."""

from collections.abc import Mapping
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.screen import ModalScreen

from domain.coverings.materials import MATERIALS, Material
from domain.errors import Refused
from domain.estimate.price_list import Force, price_lines
from domain.estimate.stock import Price
from domain.trader import Trader
from storage.book import Book
from tests import builders, priced
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, lines, place_of, sees
from tui.frame.safe_text import one_line
from tui.lists.price_dialog import price_typed, read_price
from tui.lists.prices_in_screen import PricesInScreen
from tui.lists.prices_screen import PricesScreen
from tui.widgets.field_values import money_typed, number_typed

TODAY = NOW.date()
SAVE = key("dialog", "save")
SHINGLES = Material("square-butt").words
TYPED = {
    "merchant": "Ek & Sons",
    "colour": "slate grey",
    "per_pack": "21",
    "net": "33.10",
    "vat": "20",
    "kg": "",
    "since": "today",
}


def _prices(path: Path) -> tuple[Price, ...]:
    with closing(Book.open(path, lambda: NOW)) as book:
        return tuple(book.prices())


async def _opened(hands: Hands) -> None:
    await sees(hands.pilot, "Tonight")
    await hands.press(key("anywhere", "go('prices')"))
    await hands.until(lambda: isinstance(hands.app.screen, PricesScreen))
    await sees(hands.pilot, "bitumen mastic")


@pytest.mark.parametrize("size", SIZES)
async def test_a_new_price_is_given_and_the_old_one_stays(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        assert await cut_off(pilot) == []
        await hands.ask("enter")
        await hands.write({"Price": "33.10", "From": "1 July"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears(f"Saved: {SHINGLES} from Wed 1 Jul 2026.")
        await click_on(pilot, "shingle nails")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.comes_to_rest()
        await hands.write({"Pack size": "1,000", "Price": "7.05"})
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved: shingle nails from Wed 3 Jun 2026.")
        await hands.comes_to_rest()
        signs = [line[2] for line in lines(app)[3:9]]
        assert signs == ["▸", "+", "▸", "▸", "▸", "▸"]
        years = [line.rstrip()[-4:] for line in lines(app)[3:9]]
        assert years == ["2026"] * 6
        assert all(sign in lines(app)[0] for sign in "▸·+–")
        assert await cut_off(pilot) == []
    given = [price for price in _prices(path) if price.since != priced.PRICED]
    assert [(p.material, p.per_pack, p.net, p.since) for p in given] == [
        (Material("square-butt"), Decimal(21), 33_10, date(2026, 7, 1)),
        (Material.SHINGLE_NAILS, Decimal(1000), 7_05, TODAY),
    ]
    assert len(_prices(path)) == len(priced.PRICES) + 2


async def test_another_merchants_price_is_added(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await click_on(pilot, "a add")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.press(SAVE)
        await hands.hears("Still missing: material, merchant, pack size and price.")
        await hands.write({"Material": "underlay", "Merchant": NASTY * 3})
        await hands.write({"Pack size": "twenty", "Price": "1240.50"})
        await hands.press(SAVE)
        await hands.hears("Pack size: “twenty” is not valid.")
        await hands.write({"Pack size": "20"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("is that right? ctrl+s again to save.")
        await sees(pilot, "▲ the last price at Osmerton Roofing was £24.99")
        await hands.press(SAVE)
        await hands.hears("Saved: underlay")
        await sees(pilot, "Smith")
        row = lines(app)[place_of(app, "Smith").y]
        assert all(words in row for words in ("20 m", "£1,240.50", "3 Jun 2026"))
        assert await cut_off(pilot) == []
    (added,) = [price for price in _prices(path) if price.since == TODAY]
    assert (added.material, added.merchant) == (Material.UNDERLAY, one_line(NASTY * 3))
    assert [added.per_pack, added.with_vat, added.vat_rate] == [20, 1240_50, 20]


def test_every_material_stands_in_the_list_and_what_has_no_price_says_so() -> None:
    assert [line.force for line in price_lines((), TODAY)] == [Force.NONE] * len(MATERIALS)
    assert [line.words for line in price_lines((), TODAY)] == [m.words for m in MATERIALS]


def test_prices_stand_by_what_the_next_quote_is_made_from() -> None:
    old = replace(priced.PRICES[0], id=1)
    new = replace(old, id=2, net=33_10, since=TODAY)
    coming = replace(old, id=3, since=TODAY + timedelta(days=1))
    other = replace(old, id=4, merchant="Ek & Sons", since=TODAY - timedelta(days=9))
    grey = replace(old, id=5, colour="slate grey")
    number_typed = price_lines((other, coming, grey, old, new), TODAY)[:5]
    forces = {line.price.id: line.force for line in number_typed if line.price}
    assert forces == {
        1: Force.BEFORE,
        2: Force.QUOTED,
        3: Force.COMING,
        4: Force.IN_FORCE,
        5: Force.QUOTED,
    }
    assert [line.force for line in number_typed] == sorted(forces.values(), key=list(Force).index)
    assert number_typed[1].words == f"slate grey, {SHINGLES}"


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ({"merchant": " "}, "merchant"),
        ({"per_pack": "0"}, "per_pack"),
        ({"per_pack": "-21"}, "per_pack"),
        ({"per_pack": "1e3"}, "per_pack"),
        ({"per_pack": "9" * 40}, "per_pack"),
        ({"net": "0"}, "net"),
        ({"net": "free"}, "net"),
        ({"net": "9" * 20}, "net"),
        ({"vat": "40"}, "vat"),
        ({"vat": NASTY}, "vat"),
        ({"since": ""}, "since"),
        ({"since": "30 Feb"}, "since"),
    ],
)
def test_a_price_refuses_by_name(typed: dict[str, str], label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_price(TYPED | typed, Material("square-butt"), TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize("material", MATERIALS)
def test_a_price_is_read_back_as_the_next_one(material: Material) -> None:
    price = priced.price(material, 1234_56, "20.5", colour="green" if material.coloured else "")
    typed: Mapping[str, str] = TYPED | price_typed(price, material, TODAY, registered=True)
    assert read_price(typed, material, TODAY) == replace(price, since=TODAY)


@given(pence=st.integers(1, 10**6), with_vat=st.booleans(), rate=st.sampled_from(("0", "5", "20")))
def test_a_price_is_shown_again_exactly_as_it_was_typed(
    pence: int, with_vat: bool, rate: str
) -> None:
    terms = "with VAT" if with_vat else "before VAT"
    typed = TYPED | {"net": money_typed(pence), "terms": terms, "vat": rate}
    price = read_price(typed, Material("square-butt"), TODAY)
    again = price_typed(price, Material("square-butt"), TODAY, registered=not with_vat)
    assert (again["net"], again["terms"]) == (typed["net"], terms)
    assert price.gross == pence if with_vat else price.net == pence


def test_who_reclaims_no_vat_gives_a_first_price_with_it() -> None:
    for registered, terms in ((True, "before VAT"), (False, "with VAT")):
        typed = price_typed(None, Material.MASTIC, TODAY, registered=registered)
        assert typed["terms"] == terms


def test_what_has_no_colour_keeps_none() -> None:
    nails = read_price(TYPED, Material.SHINGLE_NAILS, TODAY)
    assert nails.colour == ""
    first = price_typed(None, Material.MASTIC, TODAY, registered=True)
    assert first["per_pack"] == "1"  # a cartridge is a cartridge
    # source: the standard rate of VAT is 20 %; memory.
    assert Decimal(first["vat"]) == 20


def test_a_pack_weighs_what_is_typed_or_as_usual() -> None:
    assert read_price(TYPED, Material("square-butt"), TODAY).kg is None
    assert read_price(TYPED | {"kg": "28.5"}, Material("square-butt"), TODAY).kg == Decimal("28.5")
    with pytest.raises(Refused) as refused:
        read_price(TYPED | {"kg": "0"}, Material("square-butt"), TODAY)
    assert refused.value.field == "kg"


async def test_what_is_in_a_pack_is_told_in_its_own_unit(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await _opened(Hands(pilot))
        packs = {price.material: price.per_pack for price in _prices(path)}
        for material, unit in ((Material("square-butt"), "strips"), (Material("felt"), "m")):
            row = next(line for line in lines(app) if line[4:].startswith(material.words))
            assert f" {number_typed(packs[material])} {unit} " in row


@pytest.mark.parametrize(
    ("trader", "titles", "sums"),
    [
        (builders.trader(), "with VAT", "£37.80"),
        (priced.registered(), "before VAT with VAT", "£31.50 £37.80"),
    ],
)
async def test_a_price_is_shown_without_vat_only_to_a_trader_who_reclaims_it(
    tmp_path: Path, trader: Trader, titles: str, sums: str
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.save_trader(replace(trader, version=book.trader().version))
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        said = [" ".join(line.split()) for line in lines(app)]
        assert said[2] == f"material merchant pack size {titles} since"
        assert f"21 strips {sums} 5 Jan 2026" in said[3]
        assert ("Osmerton Roofing" in lines(app)[3]) is not trader.vat_registered


async def test_what_a_price_comes_to_with_vat_is_written_beside_its_rate(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.ask("enter")
        await sees(pilot, "£37.80 with VAT")  # of £31.50
        await hands.write({"Price": "33.10"})
        await sees(pilot, "£39.72 with VAT")
        await hands.write({"Price": "dear"})
        await hands.until(lambda: "£39.72 with VAT" not in "\n".join(lines(app)))
        assert await cut_off(pilot) == []


@pytest.mark.parametrize("size", SIZES)
async def test_prices_from_a_file_are_seen_first_and_taken_all_or_none(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path, given = tmp_path / "book.headlap", tmp_path / "given.csv"
    book_at(path)
    titles = "material,merchant,pack_size,price,with_vat\n"
    given.write_text(f"{titles}mastic,Quay [/] & Sons,1,6.00,yes\ntar,Quayside,1,4.20,no\n")
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.ask(key("prices", "take_in"))
        await hands.write({"File": str(tmp_path / "missing.csv")})
        await hands.press(SAVE)
        await hands.hears("It cannot be read: No such file or directory.")
        await hands.write({"File": str(given)})
        await hands.press(SAVE)
        await sees(pilot, "1 new · 1 refused", "Quay [/] & Sons", "£5.00")
        await hands.hears("“tar” is not valid")
        assert await cut_off(pilot) == []
        assert "save all" not in lines(hands.app)[-1]
        await hands.press(key("prices_in", "save"))
        await hands.hears("Nothing saved: put the refused lines right")
        await hands.press("escape")
        given.write_text(f"{titles}mastic,Quay [/] & Sons,1,6.00,yes\n")
        await hands.ask(key("prices", "take_in"))
        await hands.write({"File": str(given)})
        await hands.press(SAVE)
        await sees(pilot, "1 new", "ctrl+s save all")
        await hands.press(key("prices_in", "save"))
        await hands.hears("Saved: your prices: 1")
        await sees(pilot, "Quay [/] & Sons")


@pytest.mark.parametrize("size", SIZES)
async def test_a_slip_of_ten_in_a_file_is_said_and_the_second_save_takes_it(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path, given = tmp_path / "book.headlap", tmp_path / "given.csv"
    book_at(path)
    titles = "material,merchant,pack_size,price\n"
    given.write_text(f"{titles}mastic,Quayside,1,31.50\nunderlay,Quayside,15,30\n")
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await _looked_at(hands, given)
        await hands.press(key("prices_in", "save"))
        await hands.hears("Saved: your prices: 2")
        given.write_text(f"{titles}mastic,Quayside,1,315.00\nunderlay,Quayside,15,2.99\n")
        await _looked_at(hands, given)
        await sees(pilot, "2 changed", "▲    2 changed", "  the last price was £31.50  ")
        assert await cut_off(pilot) == []
        await hands.press(key("prices_in", "save"))
        await hands.hears(
            "line 2, £315.00: the last price was £31.50; line 3, £2.99: the last price was £30.00: "
            "is that right? ctrl+s again to save."
        )
        assert await cut_off(pilot) == []
        with closing(Book.open(path, lambda: NOW)) as book:
            assert 315_00 not in [each.net for each in book.prices()]
        await hands.press(key("prices_in", "save"))
        await hands.hears("Saved: your prices: 2")
    with closing(Book.open(path, lambda: NOW)) as book:
        assert 315_00 in [each.net for each in book.prices()]


async def _looked_at(hands: Hands, given: Path) -> None:
    await hands.ask(key("prices", "take_in"))
    await hands.write({"File": str(given)})
    await hands.press(SAVE)
    await hands.until(lambda: isinstance(hands.app.screen, PricesInScreen))


async def test_a_price_given_with_vat_is_kept_and_shown_to_the_penny(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.ask("enter")
        await hands.write({"Price": "9.99", "Given": "with VAT"})
        await sees(pilot, "£8.32 before VAT")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved:")
        await sees(pilot, "£9.99")
        await hands.ask("enter")
        await sees(pilot, "£8.32 before VAT")
        assert (hands.form.values["net"], hands.form.values["terms"]) == ("9.99", "with VAT")
    with closing(Book.open(path, lambda: NOW)) as book:
        (price,) = (each for each in book.prices() if each.with_vat)
        assert (price.net, price.with_vat, price.gross) == (8_32, 9_99, 9_99)
