"""The trader's your details: typed, saved, read back; refused by name; not left unasked."""

from collections.abc import Mapping
from contextlib import closing
from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from pathlib import Path

import pytest

from domain.errors import Refused
from domain.look import Look
from domain.trader import LabourRates, Rates, Trader, VatStanding, WeatherLimits
from storage.book import Book
from tests import builders
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at
from tests.tui.hands import Hands, key, until
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.frame.safe_text import one_line
from tui.week.week_screen import WeekScreen
from tui.your_details.details_fields import FIELDS
from tui.your_details.details_read import trader_from_fields, trader_typed
from tui.your_details.details_screen import DetailsScreen

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="9" height="9"/></svg>'
)
TODAY = NOW.date()
EMPTY = {field.id: "" for field in FIELDS}
OWN = Trader(
    name="Robin Thorne",
    address="3 Tannery Row\nOsmerton",
    sort_code="00-00-00",
    account="12345678",
    vat_standing=VatStanding.STANDARD,
    vat_number="980780684",
    utr="1955839661",  # source: python-stdnum finds both numbers valid; computed.
    waste_expires=date(2028, 3, 31),
    days_to_pay=7,
    hours_a_day=Decimal("7.5"),
    working_days=frozenset({0, 2, 5}),
    work_from=time(7),
    work_until=time(17, 15),
    nation="Northern Ireland",
    rates=Rates(hour=31_50, markup=Decimal("12.5"), labour=LabourRates(strip=Decimal("0.125"))),
    limits=WeatherLimits(least_c=Decimal("7.5"), underlay_rest_min=45, drying_min=0),
)


def _recorded(path: Path) -> Trader:
    with closing(Book.open(path, lambda: NOW)) as book:
        return book.trader()


async def _opened(hands: Hands) -> None:
    await sees(hands.pilot, "Tonight")
    await hands.press(key("anywhere", "go('trader')"))
    await hands.until(lambda: isinstance(hands.app.screen, DetailsScreen))
    await sees(hands.pilot, "14")  # days to pay: what is recorded stands in the form


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES)
async def test_own_details_are_saved_by_keys_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        assert await cut_off(pilot) == []
        await hands.write({"Name": NASTY, "Address": "3 Tannery Row, Osmerton", "VAT": "standard"})
        await hands.write({"VAT number": "802311781"})
        await hands.press(key("trader", "save"))
        await hands.hears("VAT number: “802311781” is not valid.")
        assert app.focused is app.screen.query_one("#field-vat_number")
        assert await cut_off(pilot) == []
        await hands.write({"VAT number": "980780684", "Working days": "Mon, Tue, Saturday"})
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved. Quotes and invoices already sent stay as they were.")
        assert await cut_off(pilot) == []
        await hands.press(key("trader", "back"))
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
    kept = _recorded(path)
    assert (kept.name, kept.address) == (one_line(NASTY), "3 Tannery Row\nOsmerton")
    assert (kept.vat_standing, kept.vat_number) == (VatStanding.STANDARD, "980780684")
    assert kept.working_days == {0, 1, 5}
    assert kept.rates == Rates()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("field", ["waste_expires", "backup_folder"])
async def test_the_field_that_a_line_of_tonight_opens_is_in_sight(
    tmp_path: Path, size: tuple[int, int], field: str
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        await sees(pilot, "Tonight")
        app.push_screen(DetailsScreen(field=field))
        await until(pilot, lambda: app.focused is not None and app.focused.id == f"field-{field}")
        await sees(pilot, next(each.label for each in FIELDS if each.id == field))
        assert await cut_off(pilot) == []


async def test_a_second_folder_that_is_not_there_is_said_and_kept(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    stick = tmp_path / "stick"
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "When there is time: 2")
        await _opened(hands)
        await hands.press(*["pagedown"] * 9)
        await hands.write({"Second folder": str(stick)})
        assert await cut_off(pilot) == []
        await hands.press(key("trader", "save"))
        await hands.hears("is not there now: backups go there when it is.")
        stick.mkdir()
        await hands.press(key("trader", "save"))
        await hands.hears("Nothing changed")
        await hands.press(key("trader", "back"))
        await hands.until(lambda: "When there is time" not in text(app))
    assert _recorded(path).backup_folder == str(stick)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: any(stick.glob("book 2026-06-03 *.headlap")))


async def test_leaving_with_typing_asks_once_and_again_after_more_typing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        for name in ("Robin", "Robin T"):
            await hands.write({"Name": name})
            await hands.press(key("trader", "back"))
            await hands.hears("Not saved.")
            assert isinstance(app.screen, DetailsScreen)
        await click_on(pilot, "esc back")
        await hands.until(lambda: isinstance(app.screen, WeekScreen))
    assert _recorded(path).name == ""


async def test_what_another_window_saved_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.write({"Name": "Robin"})
        with closing(Book.open(path, lambda: NOW)) as book:
            book.save_trader(replace(book.trader(), name="Alex"))
        await hands.press(key("trader", "save"))
        await hands.hears("another window")
        assert hands.form.values["name"] == "Robin"
    assert _recorded(path).name == "Alex"


async def test_a_colour_and_a_logo_are_kept_in_the_book(tmp_path: Path) -> None:
    path, logo = tmp_path / "book.headlap", tmp_path / "logo.svg"
    book_at(path)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _opened(hands)
        await hands.write({"Colour": "yellow", "Logo": str(logo)})
        await hands.press(key("trader", "save"))
        await hands.hears("Colour: “yellow” is not valid. Too pale to read on white paper")
        await hands.write({"Colour": "navy"})
        logo.write_bytes(SVG[:-4])
        await hands.press(key("trader", "save"))
        await hands.hears("The picture is damaged or not all there")
        logo.write_bytes(SVG)
        await hands.press(key("trader", "save"))
        await hands.hears("Saved. Quotes")
        assert (hands.form.values["logo"], hands.form.values["colour"]) == ("logo.svg", "navy")
        logo.unlink()
        await hands.write({"Name": "Robin"})
        await hands.press(key("trader", "save"))
        await hands.hears("Saved. Quotes")
        look = await hands.app.open_book.ask(lambda book: book.trader().look)
        await hands.write({"Logo": ""})
        await hands.press(key("trader", "save"))
        await hands.hears("Saved. Quotes")
    with closing(Book.open(path, lambda: NOW)) as book:
        assert book.trader().look == Look(colour="#14285a")
        assert book.picture(look.logo) == SVG


@pytest.mark.parametrize("trader", [Trader(), OWN, builders.trader()], ids=["new", "own", "usual"])
def test_details_are_read_back_unchanged(trader: Trader) -> None:
    typed: Mapping[str, str] = EMPTY | trader_typed(trader)
    assert trader_from_fields(typed, trader, TODAY) == trader


def test_a_vat_number_that_is_not_asked_for_stays() -> None:
    typed = EMPTY | trader_typed(replace(OWN, vat_standing=VatStanding.NOT_REGISTERED))
    left = trader_from_fields(typed | {"vat_number": ""}, OWN, TODAY)
    assert (left.vat_standing, left.vat_number) == (VatStanding.NOT_REGISTERED, OWN.vat_number)


@pytest.mark.parametrize(
    ("field", "text", "label"),
    [
        ("sort_code", "0-0-0", "sort_code"),
        ("account", "1234567890123", "account"),
        ("account", NASTY, "account"),
        ("days_to_pay", "0", "days_to_pay"),
        ("days_to_pay", "2½", "days_to_pay"),
        ("days_to_pay", "9" * 99, "days_to_pay"),
        ("vat_number", "802311781", "vat_number"),
        ("utr", "2955839661", "utr"),
        ("waste_expires", "never", "waste_expires"),
        ("liability_expires", "31/3/1926", "liability_expires"),
        ("hour", "-28", "hour"),
        ("mile", "0.555", "mile"),
        ("disposal_kg", "", "disposal_kg"),
        ("deck_metre", "1e3", "deck_metre"),
        ("minimum_charge", "nan", "minimum_charge"),
        ("contingency", "1001", "contingency"),
        ("markup", "15 m", "markup"),
        ("set_up", "25", "set_up"),
        ("strip", "inf", "strip"),
        ("least_c", "41", "least_c"),
        ("lay_mph", "-1", "lay_mph"),
        ("never_mph", "16", "never_mph"),
        ("gust_factor", "0.9", "gust_factor"),
        ("underlay_rest_min", "1.5", "underlay_rest_min"),
        ("hours_a_day", "0", "hours_a_day"),
        ("hours_a_day", "17", "hours_a_day"),
        ("drying_min", "an hour and a bit", "drying_min"),
        ("work_from", "dawn", "work_from"),
        ("work_until", "7.00", "work_until"),
        ("working_days", "", "working_days"),
        ("working_days", "1 May 2026", "working_days"),
        ("working_days", "every day", "working_days"),
        ("quote_days", "366", "quote_days"),
        ("backup_folder", "stick", "backup_folder"),
        ("colour", "yellow", "colour"),
        ("colour", NASTY, "colour"),
    ],
)
def test_a_refusal_names_the_field(field: str, text: str, label: str) -> None:
    with pytest.raises(Refused) as refused:
        trader_from_fields(EMPTY | trader_typed(OWN) | {field: text}, OWN, TODAY)
    assert refused.value.field == label
    assert label in {each.id for each in FIELDS}
