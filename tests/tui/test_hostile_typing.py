"""Every field of every form full of nonsense: saved, or refused in words that name the field."""

import importlib
import pkgutil
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import closing
from dataclasses import replace
from datetime import datetime, time
from decimal import Decimal
from pathlib import Path
from typing import cast

import pytest
from textual.screen import ModalScreen

import tui
from domain.coverings.materials import Material
from domain.estimate.stock import StockMove
from domain.job import CustomerKind, EnquiryRecord, Job, Stage, VatTerms
from domain.page_names import PageName
from domain.setting_out.kinds import RoofForm
from domain.week import Task, TaskKind, TaskSign
from storage.book import Book
from tests import builders, priced
from tests.storage.books import booked, laid, settle
from tests.tui.books.a_job_at_a_stage import (
    app_on,
    by_another_hand,
    carried_to,
    for_a_contractor,
    registers_for_vat,
)
from tests.tui.books.an_overdue_invoice import overdue
from tests.tui.books.materials_to_order import app_at, to_supply
from tests.tui.books.written_straight import put_down
from tests.tui.hands import Clock, Hands, key
from tests.tui.hostile import TEXTS, type_everywhere
from tests.tui.sight import sees
from tui.job.job_screen import JobScreen
from tui.lists.prices_in_screen import PricesInScreen
from tui.shell.app import make_app
from tui.week.line_dialogs import record_request
from tui.week.tonight_list import TonightList
from tui.week.week_screen import WeekScreen
from tui.widgets.field_row import Field
from tui.widgets.form_dialog import FormDialog

EVENING = Clock(datetime.combine(builders.LAY_DAY, time(19, 0)))
OF_WORDS = ("empty", "hostile")
"""Enough for fields of mere words, and where all texts have met the same fields already."""
BASIS = priced.quote().counting.basis
TYPED_ON: dict[PageName, Mapping[str, str]] = {
    PageName.ENQUIRY: {},
    PageName.QUOTE: {},
    PageName.BOOKING: {f"Day {n}": f"{23 + n} June 2026" for n in (1, 2, 3, 4)},
    PageName.STRIP: {},
    PageName.LAYING: {},
    PageName.SIGN_OFF: {"Signed off by": "Mrs Adeyemi"},
    PageName.SURVEY: {},  # last: nothing is priced without its measures
}
"""The pages with a form, and what is good where nothing stood before."""
SHINGLES = {"Material": Material("square-butt").words, "Colour": "slate grey"}
PRICE = {"Merchant": "Osmerton Roofing", "Pack size": "21", "Price": "31.50", "VAT": "20"}
YES = {"How": "text", "Agreed": "at the customer's home"}
SLOPE = {"Eaves": "2 m", "Length": "1 m", "Top": "", "Inset": "0"}
FIXED = {
    "Fixed on": "today",
    "Hours": "1.5",
    "Materials": "half a pack",
    "They cost you": "21.30",
}
EXTRA = {
    "What": "boards",
    "How much": "4.2",
    "Unit": "m",
    "Price": "58.80",
    "Agreed by": "Mrs Adeyemi",
    "Agreed on": "today",
    "Agreed how": "text",
}


def _without(job: Job, stage: Stage) -> Job:
    """A job at a stage that lacks what a caution of the next one asks for; its quote a draft."""
    draft = builders.draft(options=(builders.option(basis=BASIS),))
    quotes = (draft,) if stage is Stage.SURVEY else job.quotes
    survey = replace(builders.survey(), access=replace(builders.survey().access, photos=""))
    return replace(job, stage=stage, quotes=quotes, survey=survey, materials_in_hand=False)


def _book(path: Path) -> tuple[int, int, int, list[int], list[int]]:
    """A laid job, an invoiced one, one with its deposit asked for; and to send and to book."""
    with closing(Book.open(path, EVENING)) as book:
        settle(book)
        today = EVENING.now.date()
        book.move_stock(StockMove(Material("square-butt"), "", Decimal(21), today, "counted"))
        book.save_trader(replace(book.trader(), utr="1955839661"))
        job, taken_on = laid(book), laid(book, "Mill Row")
        who = replace(taken_on.customer, kind=CustomerKind.CONTRACTOR)
        taken_on = book.change_enquiry(
            taken_on, EnquiryRecord(who, taken_on.site, taken_on.enquiry)
        )
        invoiced = book.issue_invoice(taken_on, today)
        asked = book.issue_deposit_invoice(booked(book, "Quay Road"), today)
    ready = builders.ready_for(Stage.BOOKED)
    to_send = put_down(path, [_without(ready, Stage.SURVEY)] * len(TEXTS))
    to_book = put_down(path, [_without(ready, Stage.QUOTED)] * len(OF_WORDS))
    return job.id or 0, invoiced.id or 0, asked.id or 0, to_send, to_book


def _sound(path: Path) -> None:
    """No fault was noted, and the book is whole."""
    faults = path.with_name("headlap-faults.log")
    assert not faults.exists(), faults.read_text("utf-8")
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


class Attack:
    """Types every text into the forms it is led to; ``seen`` are the fields it met."""

    def __init__(self, hands: Hands) -> None:
        self.hands = hands
        self.seen: set[Field] = set()

    async def form(self, name: str, good: Mapping[str, str]) -> None:
        """The form in front, with one text."""
        self.seen |= set(self.hands.form.fields)
        try:
            await type_everywhere(self.hands, TEXTS[name], good)
        except BaseException as error:
            error.add_note(f"{self.hands.app.screen}: {name}")
            raise

    async def page(self, job_id: int, page: PageName, good: Mapping[str, str]) -> None:
        """A page of a job, with all texts; it stays open."""
        await self.open(job_id, page)
        for name in TEXTS:
            await self.form(name, good)
        await self.back()

    async def dialog(
        self, command_key: str, good: Mapping[str, str], names: Iterable[str] = TEXTS
    ) -> None:
        """A dialog that can be asked for again and again."""
        for name in names:
            await self.hands.ask(command_key)
            await self.form(name, good)

    async def open(self, job_id: int, page: PageName) -> None:
        """Open a job at a page."""
        self.hands.app.open_job(job_id, page)
        await self.hands.shows(page)

    async def back(self) -> None:
        """Step back to the week."""
        await self.hands.press("escape")
        await self.hands.until(lambda: isinstance(self.hands.app.screen, WeekScreen))


@pytest.mark.long
async def test_every_form_takes_nonsense_in_peace(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    job, invoiced, asked, to_send, to_book = _book(path)
    # A window too small to be of use draws fast, and must not fail either.
    async with make_app(path, EVENING).run_test(size=(40, 8)) as pilot:
        attack = Attack(Hands(pilot))
        for page, good in TYPED_ON.items():
            await attack.page(job, page, good)
        await _about_slopes(attack, job)
        await _in_the_week(attack)
        await _about_money(attack, invoiced)
        await _called_off(attack, asked)
        await _about_the_books(attack)
        await _on_the_shelves(attack)  # empties one's your details: no invoice after this
        await _about_the_work(attack, job)
        await _about_quotes(attack, to_send)
        await _about_stages(attack, to_book)
    _sound(path)
    seen = attack.seen | await _of_tonight(tmp_path)
    assert {field.label for field in _declared()} <= {field.label for field in seen}


async def _of_tonight(folder: Path) -> set[Field]:
    """The questions that only some lines of Tonight ask, each in a book that has such a line."""
    owing, supplied = folder / "owing.headlap", folder / "supplied"
    supplied.mkdir()
    seen: set[Field] = set()
    clock = overdue(owing, 8)
    async with make_app(owing, clock).run_test(size=(80, 24)) as pilot:
        attack = Attack(Hands(pilot))
        await sees(pilot, "Overdue")
        await attack.hands.ask(key("week", "open"))
        await attack.hands.press(key("chase", "will_pay"))
        await attack.hands.until(lambda: isinstance(pilot.app.screen, FormDialog))
        await attack.form("hostile", {"Will pay on": "+3"})
        seen |= attack.seen
    to_order = to_supply(supplied)
    async with app_at(to_order).run_test(size=(80, 24)) as pilot:
        attack = Attack(Hands(pilot))
        await sees(pilot, "Order for")
        await attack.hands.press(key("week", "open"))
        phone = {"Telephone": "01632 960118"}
        await attack.dialog(key("orders", "telephone"), phone, ("hostile",))
        await attack.dialog(key("orders", "all_ordered"), {"Comes on": "tomorrow"}, ("hostile",))
        seen |= attack.seen
    said = {"VAT is": VatTerms.ADDED.value, "Agreed on": "yesterday"}
    path = folder / "registered.headlap"
    seen |= await _before_the_invoice(path, registers_for_vat, "VAT on this price", said)
    path, cost = folder / "contractor.headlap", {"Cost to you": "100"}
    seen |= await _before_the_invoice(path, for_a_contractor, "Materials at cost", cost)
    for path in (owing, to_order):
        _sound(path)
    return seen


async def _before_the_invoice(
    path: Path, change: Callable[[Book, Job], Job], title: str, good: Mapping[str, str]
) -> set[Field]:
    """What is asked before the invoice of who registered for VAT since, or of a contractor's."""
    carried_to(path, Stage.LAID)
    by_another_hand(path, change)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        attack = Attack(Hands(pilot))
        app.open_job(1, PageName.MONEY)
        await sees(pilot, title)
        await attack.form("hostile", good)
    _sound(path)
    return attack.seen


async def _about_slopes(attack: Attack, job_id: int) -> None:
    await attack.open(job_id, PageName.SURVEY)
    attack.hands.form.put("form", RoofForm.SLOPES.value)
    await attack.dialog(key("survey", "add_slope"), SLOPE)
    await attack.hands.press("escape")  # they are not recorded: once more to leave them
    await attack.back()


async def _in_the_week(attack: Attack) -> None:
    hands = attack.hands
    await attack.dialog(key("week", "forecast"), {"Forecast": "ddr"})
    await hands.press("home")
    await hands.ask("enter")  # is the deck closed?
    await attack.form("hostile", {})
    await hands.until(lambda: not isinstance(hands.app.screen, ModalScreen))
    for name in OF_WORDS:
        for _ in range(hands.rows.count):
            await hands.press(*() if _can_wait(hands) else ("down",))
        await hands.ask(key("week", "put_off"))
        await attack.form(name, {"Back on": "tomorrow"})
    for name in OF_WORDS:
        await hands.ask(key("anywhere", "new_enquiry"))
        await attack.form(name, {"Who": "Mrs Adeyemi", "Place": "The Green"})
        await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
        await attack.back()


def _can_wait(hands: Hands) -> bool:
    task = hands.app.screen.query_one(TonightList).task_in_front
    return task is not None and task.sign is not TaskSign.STOP


async def _on_the_shelves(attack: Attack) -> None:
    """Prices, stock, your details."""
    hands = attack.hands
    await hands.press(key("anywhere", "go('prices')"))
    await hands.until(lambda: hands.rows.count > 0)
    await attack.dialog(key("prices", "open"), PRICE)
    await attack.dialog(key("prices", "add"), SHINGLES | PRICE, OF_WORDS)
    await attack.back()
    await hands.press(key("anywhere", "go('stock')"))
    await hands.until(lambda: hands.rows.count > 0)
    await attack.dialog(
        key("stock", "put_in"), SHINGLES | {"Quantity": "21", "Came from": "Mill Row"}
    )
    await attack.dialog(key("stock", "take_out"), {"Take out": "1", "For": "Mill Row"})
    await attack.dialog(key("stock", "open"), {"Counted": "500"}, ["empty"])
    await attack.back()
    await hands.press(key("anywhere", "go('trader')"))
    await hands.until(lambda: hands.form.values["hour"] != "")
    for name in TEXTS:
        await attack.form(name, {"VAT number": "980780684"})
    # Without it no job is booked, and what was typed for it last may be nothing.
    hands.form.put("waste_carrier", "CBDU 100200")
    hands.form.put("waste_expires", "3 years")
    await hands.press(key("dialog", "save"))
    await attack.back()


async def _about_the_work(attack: Attack, job_id: int) -> None:
    # Only a householder can cancel, and what was chosen for them last may be anything.
    await attack.open(job_id, PageName.ENQUIRY)
    attack.hands.form.put("kind", CustomerKind.HOUSEHOLDER.value)
    await attack.hands.press(key("dialog", "save"))
    await attack.hands.turn_to(PageName.STRIP)
    await attack.dialog(key("stripped", "add_extra"), EXTRA)
    await attack.hands.turn_to(PageName.SIGN_OFF)
    await attack.dialog(key("signed_off", "add_snag"), {"What": "drip trim loose"}, OF_WORDS)
    attack.hands.rows.focus()
    await attack.dialog("enter", FIXED)
    await attack.dialog(key("job", "notes"), {"Note": "gate code 4417"}, OF_WORDS)
    await attack.hands.turn_to(PageName.QUOTE)
    await attack.dialog(key("quote", "accepted"), YES)
    await attack.back()


_IN_WRITING = {"They asked by": "text", "Asked on": "today", "Knows it ends when done": "yes"}


async def _about_money(attack: Attack, job_id: int) -> None:
    await attack.open(job_id, PageName.MONEY)
    await attack.dialog(key("money", "money_in"), {"Amount": "0.01"})
    hands, put_right = attack.hands, key("money", "put_right")
    for receipt, name in enumerate(OF_WORDS, 1):
        await hands.press("home")
        await hands.ask(put_right)
        await attack.form(name, {"Take off": "0.01", "Because": "too much"})
        await hands.press("home", *["down"] * receipt)
        await hands.ask(put_right)
        await attack.form(name, {"What happened": "typed by mistake"})
    await attack.back()
    told = Task(TaskKind.REQUEST, "", "", EVENING.now.date(), about="Until: Fri 3 Jul")
    for name in OF_WORDS:
        await record_request(cast(WeekScreen, hands.app.screen), told, job_id)
        await hands.until(lambda: bool(hands.app.screen.query("#field-how")))
        await attack.form(name, _IN_WRITING)


async def _about_the_books(attack: Attack) -> None:
    await attack.hands.press(key("anywhere", "go('books')"))
    slip = {"Merchant": "Quay", "What": "mastic", "Sum": "33.00", "Packs": "6"}
    await attack.dialog(key("books", "purchase"), slip)
    await attack.hands.press("home", key("books", "money_back"))
    await attack.hands.comes_to_rest()
    while not isinstance(attack.hands.app.screen, ModalScreen):  # not a purchase yet
        await attack.hands.press("down", key("books", "money_back"))
        await attack.hands.comes_to_rest()
    await attack.hands.press("escape")
    came = {"Came back": "0.10", "Because": "1 too many"}
    await attack.dialog(key("books", "money_back"), came)
    await attack.dialog(key("books", "miles"), {"Miles": "24", "Where, why": "tip"})
    await attack.back()
    hands, given = attack.hands, attack.hands.app.open_book.path.with_name("given.csv")
    given.write_text("material,merchant,pack size,price\nmastic,Quay,1,4.20\n")
    await hands.press(key("anywhere", "go('prices')"))
    await hands.ask(key("prices", "take_in"))
    await attack.form("hostile", {"File": str(given)})
    await hands.until(lambda: isinstance(hands.app.screen, PricesInScreen))
    await hands.press("escape")
    await attack.back()


async def _called_off(attack: Attack, job_id: int) -> None:
    await attack.open(job_id, PageName.MONEY)
    await attack.hands.ask(key("job", "end"))
    closing = {"How it ended": "called off", "Why": "sold it", "They said so on": "today"}
    await attack.form("hostile", closing | {"Keep": "40.00", "It pays for": "felt cut to size"})
    await attack.back()


async def _about_quotes(attack: Attack, jobs: Iterable[int]) -> None:
    for job_id, name in zip(jobs, TEXTS, strict=True):
        await attack.open(job_id, PageName.QUOTE)
        await attack.hands.ask(key("quote", "send"))
        await attack.form(name, {"Note 1": "too wet"})
        await attack.back()


async def _about_stages(attack: Attack, jobs: Iterable[int]) -> None:
    hands = attack.hands
    for job_id, name in zip(jobs, OF_WORDS, strict=True):
        await attack.open(job_id, PageName.MONEY)
        await hands.ask(key("job", "next_stage"))
        await attack.form(name, {each.label: "asked" for each in hands.form.fields})
        await hands.ask(key("job", "stage_back"))
        await attack.form(name, {"Why": "measured wrong"})
        await hands.ask(key("job", "end"))
        await attack.form(name, {"How it ended": "declined", "Why": "too dear"})
        await hands.ask(key("job", "stage_back"))
        await attack.form(name, {"Why": "rang back"})
        await attack.back()


def _declared() -> Iterator[Field]:
    """Every field that a module of the interface declares."""
    for module in pkgutil.walk_packages(tui.__path__, "tui."):
        for value in vars(importlib.import_module(module.name)).values():
            for each in value if isinstance(value, tuple) else (value,):
                if isinstance(each, Field):
                    yield each
