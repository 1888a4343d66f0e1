"""An enquiry from the first ring to the record: the dialog, then the page that corrects it."""

from contextlib import closing
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest
from textual.widgets import Static

from domain.errors import Refused
from domain.estimate.rough_price import read_rough_roof, rough_price
from domain.estimate.supplies import PricesAndStock, Unpriced
from domain.job import CustomerKind, EnquiryRecord, Job, Stage
from domain.page_names import PageName
from domain.starting_rates import CHARGES, with_confirmed
from domain.tone import Tone
from domain.trader import Rates
from storage.book import Book
from tests import builders, priced
from tests.tui.books.a_job_at_a_stage import app_on as at_a_stage
from tests.tui.books.a_job_at_a_stage import by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY, NOW, app_on, book_at, read_again
from tests.tui.hands import Hands, form_of, key, turn_to, until
from tests.tui.sight import cut_off, sees
from tui.frame.message_line import MessageLine
from tui.frame.safe_text import one_line
from tui.job.enquiry.enquiry_dialog import EnquiryDialog
from tui.job.enquiry.enquiry_fields import (
    NOMINAL,
    enquiry_of,
    enquiry_typed,
    new_enquiry,
    read_enquiry,
    rough_words,
)
from tui.job.job_screen import JobScreen
from tui.lists.prices_screen import PricesScreen
from tui.shell.app import HeadlapApp

TODAY = date(2026, 6, 3)
MOST_KEYS = 12
"""Beside the words. source: the project's own aim."""
SOURCES = PricesAndStock(priced.PRICES, (), TODAY)


def _note(app: HeadlapApp) -> str:
    return str(app.screen.query_one("#row-nominal > .note", Static).render())


def _said(app: HeadlapApp) -> str:
    return str(app.screen.query_one(MessageLine).render())


async def test_a_new_enquiry_is_saved_and_its_job_opens(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await pilot.press("f7")
        await until(pilot, lambda: isinstance(app.screen, EnquiryDialog))
        form = form_of(app)
        form.put("name", NASTY)
        form.put("place", "The Green")
        form.put("nominal", "8 x 6 ft")
        form.put("visit_on", "+2")
        form.put("visit_at", "half 2")
        await sees(pilot, "→  half past 2 pm")
        form.put("visit_at", "9.30")
        await until(pilot, lambda: "≈ £" in _note(app))
        await pilot.press("ctrl+s")
        await until(pilot, lambda: isinstance(app.screen, JobScreen))
        assert len(app.screen_stack) == 2
    job = read_again(path, 2)
    assert job.customer.name == NASTY.replace("\u202e", "")
    assert (job.enquiry.visit_on, job.enquiry.visit_at) == (date(2026, 6, 5), time(9, 30))
    assert job.enquiry.nominal == "8 x 6 ft"


async def test_all_that_is_said_on_the_telephone_takes_twelve_keys_beside_the_words(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Tonight")
        await hands.ask(key("anywhere", "new_enquiry"))
        for words in ("Mr Hale", "Pound Street", "01632 960833", "", "", "8x6 pent", "", "torn"):
            await hands.type_in(words)
            if hands.app.focused is hands.app.screen.query_one("#field-kind"):
                await hands.press("h")
            await hands.press("enter")
        await hands.type_in("fri")
        await hands.press("enter")
        await hands.type_in("half 2")
        await hands.press(key("dialog", "save"))
        await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
        assert hands.pressed - hands.typed <= MOST_KEYS, hands.pressed - hands.typed
    asked = read_again(path, 2)
    assert (asked.customer.phone, asked.customer.kind_asked) == ("01632 960833", True)
    enquiry = asked.enquiry
    assert (enquiry.nominal, enquiry.said, enquiry.visit_at) == ("8x6 pent", "torn", time(14, 30))


async def test_a_refused_enquiry_keeps_what_was_typed_and_goes_to_the_field(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await pilot.press("f7")
        await until(pilot, lambda: isinstance(app.screen, EnquiryDialog))
        form_of(app).put("name", "Mr Hale")
        form_of(app).put("place", "Lane")
        form_of(app).put("nominal", "8 by eight")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Rough size" in _said(app))
        assert form_of(app).values["name"] == "Mr Hale"
        assert app.focused is app.screen.query_one("#field-nominal")
    with pytest.raises(Refused, match="no longer in the book"):
        read_again(path, 2)


async def test_the_page_corrects_what_was_taken_down(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.ENQUIRY)
        await until(pilot, lambda: "≈ £" in _note(app))
        form_of(app).put("ruled_out", "Mondays")
        form_of(app).put("place", "Mill Row")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Saved" in _said(app))
        assert not form_of(app).dirty
    job = read_again(path)
    assert (job.site.place, job.site.ruled_out) == ("Mill Row", "Mondays")
    assert job.customer.address == "7 Birch Lane\nOsmerton"


@pytest.mark.parametrize("text", ["", "  ", "8", "8 x", "x", "8 x 6 miles", "9" * 500, NASTY])
def test_a_size_that_cannot_be_read_is_no_price_and_no_fault(text: str) -> None:
    words, tone, _ = rough_words(text, builders.trader(), SOURCES)
    assert "£" not in words
    assert tone is Tone.QUIET


def test_a_rough_price_needs_prices() -> None:
    with pytest.raises(Unpriced, match="for square butt shingles, underlay, shingle nails"):
        rough_words("8 x 6", builders.trader(), PricesAndStock((), (), TODAY))


async def test_prices_that_are_missing_are_named_with_a_way_that_works_there(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    app = app_on(path)
    with closing(Book.open(path, lambda: NOW)) as book:
        book.set_price(priced.PRICES[0])
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Place": "The Green", NOMINAL.label: "8 x 6"})
        await sees(pilot, "No price for underlay, shingle nails, felt nails and bitumen mastic")
        await sees(pilot, "enquiry first, then go to Prices (")
        assert await cut_off(pilot) == []
        await hands.press(key("dialog", "save"))
        await hands.hears("Who is empty. Give a name, or a telephone number below.")
        await hands.comes_to_rest()
        await hands.hears("Who is empty.")
        await hands.type_in("Ms Bell")
        await hands.press(key("dialog", "save"))
        await hands.shows_a_job(1)
        await hands.press(key("anywhere", "go('prices')"))
        await hands.until(lambda: isinstance(app.screen, PricesScreen))


def test_what_is_recorded_is_read_back_unchanged_though_it_holds_line_breaks() -> None:
    asked = EnquiryRecord(
        builders.customer(name="A\nB", address="7 Birch Lane\n\tOsmerton"),
        builders.site(access="side\ngate"),
        builders.enquiry(said="torn\n\nat the ridge", rough=640_00),
    )
    shown = {key: one_line(text) for key, text in enquiry_typed(asked).items()}
    assert read_enquiry(shown, asked, TODAY) == asked
    assert read_enquiry({}, asked, TODAY) == asked


@pytest.mark.parametrize(
    ("field", "typed", "label"),
    [
        ("place", " ", "place"),
        ("phone", "Lane [red]x", "phone"),
        ("rough", "a lot", "rough"),
        ("visit_on", "31 June", "visit_on"),
        ("visit_at", "tea time", "visit_at"),
        ("ruled_out", "[/]", "ruled_out"),
    ],
)
def test_a_refusal_names_the_field(field: str, typed: str, label: str) -> None:
    asked = enquiry_of(builders.job_at(Stage.ENQUIRY))
    with pytest.raises(Refused) as refused:
        read_enquiry({field: typed}, asked, TODAY)
    assert refused.value.field == label


@pytest.mark.parametrize("who", [{"name": "Mr Hale"}, {"phone": "07700900123"}])
def test_a_new_enquiry_is_of_today_and_of_a_name_or_a_number(who: dict[str, str]) -> None:
    asked = read_enquiry({**who, "place": "Lane", "kind": ""}, new_enquiry(TODAY), TODAY)
    assert asked.enquiry.received_on == TODAY
    assert asked.customer.called in ("Mr Hale", "07700 900123")
    assert not asked.customer.kind_asked  # that is asked before a quote
    chosen = read_enquiry(enquiry_typed(asked) | {"kind": "business"}, asked, TODAY).customer
    assert (chosen.kind, chosen.kind_asked) == (CustomerKind.BUSINESS, True)


@pytest.mark.parametrize(
    ("typed", "remedy"),
    [
        ({"place": "Lane"}, "Name is empty. Give a name, or a telephone number"),
        ({"name": "Mr Hale"}, "Place is empty. Give a short name"),
    ],
)
def test_a_new_enquiry_needs_who_and_where(typed: dict[str, str], remedy: str) -> None:
    with pytest.raises(Refused, match=remedy):
        read_enquiry(typed, new_enquiry(TODAY), TODAY)


def test_an_older_enquiry_without_a_place_can_be_corrected() -> None:
    asked = EnquiryRecord(builders.customer(), builders.site(place="", id=4), builders.enquiry())
    assert read_enquiry({"access": "side gate"}, asked, TODAY).site.access == "side gate"


def test_a_rough_price_is_round_pounds_before_travel() -> None:
    trader = builders.trader(rates=Rates())
    pence = rough_price(read_rough_roof("Rough size", "8 x 6 ft"), trader, SOURCES).gross
    words, tone, starting = rough_words("8x6", trader, SOURCES)
    assert (words, tone, starting) == (f"≈ £{pence // 100} + travel", Tone.STRONG, True)
    own = replace(trader, rates=with_confirmed(trader.rates, CHARGES))
    begun = PricesAndStock(tuple(replace(p, starting=True) for p in SOURCES.prices), (), TODAY)
    assert not rough_words("8x6", own, SOURCES)[2]
    assert rough_words("8x6", own, begun)[2]


async def test_a_foundation_is_said_to_be_what_cis_turns_on_for_a_shed(tmp_path: Path) -> None:
    """Garden sheds count “if based on a foundation”: FA 2004 s. 74(2)(a), CISR14100, read."""
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)

    def contractors(book: Book, job: Job) -> Job:
        who = replace(job.customer, kind=CustomerKind.CONTRACTOR)
        return book.change_enquiry(job, EnquiryRecord(who, job.site, job.enquiry))

    by_another_hand(path, contractors)
    app = at_a_stage(path)
    async with app.run_test(size=(80, 24)) as pilot:
        app.open_job(1, PageName.ENQUIRY)
        await Hands(pilot).shows(PageName.ENQUIRY)
        await sees(pilot, "On a foundation", "a shed: CIS only on one")
        assert await cut_off(pilot) == []
