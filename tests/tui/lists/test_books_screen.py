"""The year's books: an evening's miles, a purchase, the quarter on paper, by key and by mouse."""

from datetime import datetime
from pathlib import Path

import pytest

from domain.books.headings import Heading
from domain.books.purchase import Purchase
from domain.job import Job, Received, Stage
from storage.book import Book
from tests import builders
from tests.storage.books import opened
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.hands import Hands, key
from tests.tui.sight import SIZES, click_on, cut_off, sees
from tui.books.purchase_dialog import read_purchase
from tui.shell.app import make_app

SAVE = key("dialog", "save")
BOOKS = key("anywhere", "go('books')")


@pytest.mark.parametrize("size", SIZES)
async def test_an_evening_in_the_books(tmp_path: Path, size: tuple[int, int]) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with app_on(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await hands.comes_to_rest()
        await hands.press(key("week", "miles"))
        await hands.hears("Saved: 12 miles:")
        assert hands.pressed == 1

        before = hands.pressed - hands.typed
        await hands.press(BOOKS)
        await sees(pilot, "all expenses", "£6.60", "no tax advice")
        assert await cut_off(pilot) == []
        await hands.ask(key("books", "purchase"))
        await hands.type_in("Northfield Merchants")
        await hands.press("tab")
        await hands.type_in("mastic [/] 6")
        await hands.press("tab")
        await hands.type_in("33.00")
        await hands.press("tab")
        await hands.type_in("1")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: £33.00 at Northfield Merchants. F8 to undo.")
        assert hands.pressed - hands.typed - before == 6
        await sees(pilot, "mastic [/] 6", "£39.60")
        assert await cut_off(pilot) == []

        await hands.press("escape")
        before = hands.pressed
        await hands.press(BOOKS)
        await sees(pilot, "£39.60")
        await hands.press(key("books", "paper"))
        await sees(pilot, "Update due")
        await hands.press(key("paper", "print"))
        await hands.hears("Saved as")
        assert hands.pressed - before == 3
    assert (tmp_path / "papers" / "quarter-1-of-2026-27.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("ref", ["999", "0999", "10421"])
def test_a_purchase_is_for_a_job_of_any_number(ref: str) -> None:
    typed = dict.fromkeys(("material", "cost", "packs", "vat"), "") | {"for_tax": "", "job": ref}
    typed |= {"on": "24 Jun 2026", "merchant": "Quay", "what": "felt", "pence": "9", "heading": ""}
    assert read_purchase(typed, None, builders.trader(), TODAY).ref == ref


async def test_what_is_put_right_by_mouse_what_is_refused_and_a_new_price(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.press(BOOKS)
        await sees(pilot, "12 miles")
        await hands.ask(key("books", "accept"))
        await sees(pilot, "Accept 2 journeys, 24 miles?")
        await hands.press(key("accept_miles", "leave"))
        await sees(pilot, "○")
        await hands.ask(key("books", "accept"))
        await hands.press(key("accept_miles", "save"))
        await hands.hears("Saved:")
        await hands.ask(key("books", "purchase"))
        await hands.write({"Merchant": "Northfield", "What": "diesel", "Sum": "60"})
        await sees(pilot, "fuel or upkeep of the van")
        await hands.press(SAVE)
        await hands.hears("goes by the mile")
        await hands.press("escape", "escape")
        await hands.press(key("books", "headings"))
        await hands.hears("Expenses by heading.")
        await hands.ask(key("books", "purchase"))
        await hands.write({"Merchant": "Quay", "What": "helper", "Sum": "200"})
        await sees(pilot, "payments to subcontractors")
        await hands.press(SAVE)
        await hands.hears("makes you a contractor")
        await hands.press(SAVE)
        await hands.hears("Saved: £200.00 at Quay.")
        await click_on(pilot, "Quay: helper")
        await sees(pilot, "Put right: helper")
        await hands.press("escape")
        await hands.press(key("books", "spreadsheet"))
        await hands.hears("Saved as")
        await hands.press("left")
        await sees(pilot, "quarter 4 of 2025-26")
    with opened(path) as book:
        (bought,) = book.years_books(TODAY).books.purchases
        assert bought.heading is Heading.SUBCONTRACTORS
    (table,) = (tmp_path / "papers").glob("*.csv")
    assert "construction industry: payments to subcontractors" in table.read_text("utf-8-sig")


async def test_a_threshold_that_is_near_is_said_in_the_week_and_in_the_books(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)

    def pay(book: Book, job: Job) -> Job:
        job = book.issue_invoice(job, TODAY)
        return book.record_payment(
            job, Received(job.documents[0].id or 0, 20_000_01, TODAY, "bank transfer")
        )

    by_another_hand(path, pay)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await hands.hears("are due from 6 April 2028")
        await hands.press(BOOKS)
        await sees(pilot, "▲ Quarterly updates: income of £20,000.01 in 2026-27")
        assert await cut_off(pilot) == []


@pytest.mark.parametrize("size", SIZES)
async def test_goods_returned_are_recorded_from_the_line_of_the_purchase(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)

    def buy(book: Book, job: Job) -> Job:
        book.save_purchase(Purchase(TODAY, "Quay [/]", "mastic, 6", 33_00), job.ref, TODAY)
        return job

    by_another_hand(path, buy)
    async with app_on(path).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await hands.press(BOOKS)
        await sees(pilot, "Quay [/]: mastic, 6")
        await hands.press("end")
        await hands.press(key("books", "money_back"))
        await hands.hears("Highlight the purchase that it came back of.")
        await click_on(pilot, "mastic, 6")
        await sees(pilot, "Put right: mastic, 6")
        await hands.press("escape")
        await click_on(pilot, "money back")
        await sees(pilot, "Money back from the merchant", "£33.00 at Quay [/]")
        await hands.write({"Came back": "33.01", "Because": "returned"})
        await hands.press(SAVE)
        await hands.hears("Give £33.00 at most")
        await hands.write({"Came back": "5.50"})
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: £5.50 back from Quay [/]. F8 to undo.")
        await sees(pilot, "money back · Quay [/]", "−£5.50", "£27.50")
        assert await cut_off(pilot) == []
        await click_on(pilot, "money back · Quay")
        await sees(pilot, "Put right: money back", "0: nothing came back after all")
        await hands.write({"Came back": "6.50"})
        await hands.press(SAVE)
        await hands.hears("Saved: £6.50 back from Quay [/].")
    with opened(path) as book:
        (bought,) = book.years_books(TODAY).books.purchases
        assert bought.left == 26_50


@pytest.mark.parametrize("size", SIZES)
async def test_the_way_to_a_visit_without_a_quote_is_asked_for(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    async with make_app(path, lambda: datetime(2026, 6, 3, 20, 0)).run_test(size=size) as pilot:
        hands = Hands(pilot)
        await hands.comes_to_rest()
        await hands.press(BOOKS)
        await sees(pilot, "Birch Lane, survey", "? miles")
        await hands.press(key("books", "accept"))
        await hands.hears("How far is not known yet: Enter on each asks for its miles.")
        await hands.press("escape")
        await hands.ask(key("week", "miles"))
        await hands.type_in("17")
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: 17 miles: Birch Lane, survey.")
        await hands.press(key("week", "miles"))
        await hands.hears("No miles of today to accept.")
