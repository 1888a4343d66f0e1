"""One job from the first ring to the last payment, typed at the keys; then read by raw SQL."""

import json
import sqlite3
from contextlib import closing
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from domain.checks.stages import LAYING_TICKS
from domain.coverings.materials import Material
from domain.estimate.stock import StockLine, StockMove
from domain.job import Stage
from domain.page_names import PageName
from storage.book import Book
from tests import builders, priced
from tests.storage.books import settle
from tests.tui.hands import Clock, Hands, key
from tui.job.job_screen import JobScreen
from tui.shell.app import make_app

NEXT, SAVE = key("job", "next_stage"), key("dialog", "save")
STARTED = datetime(2026, 6, 1, 19, 0)

ENQUIRY = {
    "Who": "Mrs Adeyemi",
    "Place": "Birch Lane",
    "Telephone": "01632 960117",
    "Customer is": "householder",
    "Rough size": "8 x 6 ft",
    "What they say": "felt torn at the ridge",
    "Visit on": "wed",
    "Visit at": "17.30",
}
SURVEY = {
    "Length": "2.4 m",
    "Span": "1.8 m",
    "Rise": "450",
    "Covering": "square butt",
    "Colour": "slate grey",
    "Eaves overhang": "50",
    "Verge overhang": "60",
    "Barge boards": "sound",
    "Fascia": "sound",
    "Finials": "none",
    "Drip trim": "none",
    "Gutter": "none",
    "Lined inside": "no",
    "Deck": "boards",
    "Thickness": "12 mm",
    "Profile": "tongue and groove",
    "Cover width": "112",
    "Seen from above": "yes",
    "Seen from below": "yes",
    "Nails show inside": "no",
    "State": "sound",
    "Shingle nails": "20",
    "Safe to stand on": "yes",
    "Old covering": "felt",
    "Layers": "1",
    "Asbestos: how old": "from 2000 or later",
    "Bats and nests": "none",
    "Cables": "none",
    "Shared wall or roof": "none",
    "Bad ladder footing": "none",
    "Worked from": "ladder, hop-up",
    "Two people needed": "no",
    "Photographs": "four, on the phone",
}
YES = {
    "Who": "Mrs Adeyemi",
    "How": "text",
    "Where agreed": "at the customer's home",
    "Told of right to cancel on": "today",
    "Asked to start early, on": "today",
    "They asked by": "text",
    "Knows it ends when done": "yes",
}
FOUND = {
    "Found": "two boards soft at the back eaves",
    "Deck left": "laid the same day",
    "Suspect underneath": "no",
    "Old covering": "18.7",
    "Taken to": "Osmerton tip",
    "Transfer note": "T 0117",
}
EXTRA = {
    "What": "boards found rotten",
    "How much": "4.2",
    "Price": "58.80",
    "Status": "agreed",
    "Agreed by": "Mrs Adeyemi",
    "Agreed how": "text",
}
IN_STOCK = Decimal(12)
"""Metres of underlay, more than the roof takes."""
WEATHER = {"Temperature": "16", "Wind": "8", "Deck dry": "yes"}


async def _comes_back(hands: Hands, clock: Clock, month: int, day: int) -> None:
    """Leave the job, and open it again on another evening."""
    await hands.press(key("job", "back"))
    clock.now = STARTED.replace(month=month, day=day)
    hands.app.open_job(1)
    await hands.shows_a_job(1)


async def _taken_down(hands: Hands) -> None:
    await hands.ask(key("anywhere", "new_enquiry"))
    await hands.write(ENQUIRY)
    await hands.press(SAVE)
    await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
    await hands.shows(PageName.ENQUIRY)


async def _surveyed(hands: Hands) -> None:
    await hands.turn_to(PageName.SURVEY)
    await hands.write(SURVEY)
    await hands.save("Saved: the survey.")
    await hands.press(NEXT)
    await hands.hears("The job is surveyed.")


async def _quoted(hands: Hands) -> None:
    await hands.turn_to(PageName.QUOTE)
    await hands.write({"Round trip": "12"})
    await hands.press(key("quote", "price"))
    await hands.hears("Priced")
    await hands.ask(key("quote", "send"))
    await hands.press(SAVE)
    await hands.hears("Valid until")


async def _booked(hands: Hands) -> None:
    await hands.turn_to(PageName.QUOTE)
    await hands.ask(key("quote", "accepted"))
    await hands.write(YES)
    await hands.press(SAVE)
    await hands.hears("They can cancel until the end of Mon 22 Jun 2026")
    await hands.turn_to(PageName.BOOKING)
    await hands.write({"Materials in hand": "yes", "Day 1": "24 Jun"})
    await hands.save("booked for Wed 24 Jun 2026")
    await hands.press(NEXT)
    await hands.hears("The job is booked.")


async def _stripped(hands: Hands) -> None:
    await hands.turn_to(PageName.STRIP)
    await hands.write(FOUND)
    await hands.save("Saved: what stripping found.")
    await hands.ask(key("stripped", "add_extra"))
    await hands.write(EXTRA)
    await hands.press(SAVE)
    await hands.hears("Saved: the extra.")
    await hands.press(NEXT)
    await hands.hears("The job is stripped.")


async def _laid(hands: Hands) -> None:
    await hands.turn_to(PageName.LAYING)
    await hands.press(key("laid", "tick_all"))
    await hands.write(WEATHER)
    await hands.save("Saved: the laying.")
    await hands.turn_to(PageName.MATERIALS)
    await hands.press("5", "3", "enter", key("used", "step(1)"), key("used", "accept_all"))
    await hands.hears("is that right?")  # a metre more than was taken is on the roof
    await hands.press(key("job", "save"))
    await hands.hears("Saved: materials and hours used.")
    await hands.press(NEXT)
    await hands.hears("The job is laid.")


async def _signed_off(hands: Hands) -> None:
    await hands.turn_to(PageName.MONEY)
    await hands.ask(key("money", "send"))
    await hands.press(key("issue", "save"))
    await hands.hears("Issued: the invoice.")
    await hands.turn_to(PageName.SIGN_OFF)
    await hands.write({"Signed off by": "Mrs Adeyemi"})
    await hands.save("Saved: signed off by the customer.")
    await hands.press(NEXT)
    await hands.hears("The job is signed off.")


async def _paid(hands: Hands, amount: str | None = None) -> None:
    """Put money in: an amount, or what is owed as the dialog fills it in."""
    await hands.turn_to(PageName.MONEY)
    await hands.ask(key("money", "money_in"))
    if amount:
        await hands.write({"Amount": amount})
    await hands.press(SAVE)
    await hands.hears("received. If it is wrong")


def _rows(path: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


def _settle(path: Path, clock: Clock) -> None:
    """Own details, prices, and underlay in stock."""
    with closing(Book.open(path, clock)) as book:
        settle(book)
        today = clock.now.date()
        book.move_stock(StockMove(Material.UNDERLAY, "", IN_STOCK, today, "counted"))


@pytest.mark.long
async def test_a_job_goes_from_the_first_ring_to_the_last_payment(tmp_path: Path) -> None:
    path, clock = tmp_path / "book.headlap", Clock(STARTED)
    _settle(path, clock)
    async with make_app(path, clock).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await _taken_down(hands)
        await _comes_back(hands, clock, 6, 3)
        await _surveyed(hands)
        await _quoted(hands)
        await _comes_back(hands, clock, 6, 8)
        await _booked(hands)
        await _comes_back(hands, clock, 6, 24)
        await _stripped(hands)
        await _laid(hands)
        await _signed_off(hands)
        await _comes_back(hands, clock, 7, 1)
        await _paid(hands, "200")
        await _comes_back(hands, clock, 7, 7)
        await _paid(hands)
    for look in (_look_at_the_turns, _look_at_the_money, _look_at_what_was_used, _look_at_journal):
        look(path)


def _look_at_the_turns(path: Path) -> None:
    assert _rows(path, "SELECT ref, stage, ended, received_on FROM job") == [
        ("0001", "signed off", None, "2026-06-01")
    ]
    assert _rows(path, "SELECT check_id FROM caution_note") == []
    assert _rows(path, "SELECT number, sent_on, holds_until FROM quote") == [
        (1, "2026-06-03", "2026-07-03")
    ]
    assert _rows(path, 'SELECT who, "on", means, notice_on FROM acceptance') == [
        ("Mrs Adeyemi", "2026-06-08", "text", "2026-06-08")
    ]
    assert _rows(path, "SELECT day, hours FROM booking") == [("2026-06-24", "6")]
    assert _rows(path, 'SELECT "on", found, cover, waste_kg, waste_to FROM strip') == [
        ("2026-06-24", FOUND["Found"], "laid the same day", "18.7", "Osmerton tip")
    ]
    assert _rows(path, "SELECT words, price, state, agreed_by, agreed_on, means FROM extra") == [
        ("boards found rotten", 58_80, "agreed", "Mrs Adeyemi", "2026-06-24", "text")
    ]
    lay = "SELECT ticks, temperature_c, wind_mph, deck_dry FROM lay"
    ((ticks, warm, wind, dry),) = _rows(path, lay)
    assert (set(json.loads(ticks)), dry) == (set(LAYING_TICKS), 1)
    assert [Decimal(warm), Decimal(wind)] == [16, 8]
    assert _rows(path, 'SELECT who, "on" FROM signoff') == [("Mrs Adeyemi", "2026-06-24")]


def _look_at_the_money(path: Path) -> None:
    made = priced.quote(builders.trader(), (StockLine(Material.UNDERLAY, "", IN_STOCK),))
    offered = sum(line.price for line in made.options[0].lines)
    gross = offered + 58_80  # the extra; no VAT: the trader is not registered
    assert _rows(path, 'SELECT gross FROM "option"') == [(offered,)]
    documents = "SELECT series, number, issued_on, tax_point, due_on, gross FROM document"
    assert _rows(path, documents) == [
        ("invoice", 1, "2026-06-24", "2026-06-24", "2026-07-08", gross),
        ("receipt", 1, "2026-07-01", "2026-07-01", "2026-07-01", 200_00),
        ("receipt", 2, "2026-07-07", "2026-07-07", "2026-07-07", gross - 200_00),
    ]
    (snapshot,) = _rows(path, "SELECT snapshot FROM document WHERE series = 'invoice'")[0]
    assert sum(line["net"] for line in json.loads(snapshot)["lines"]) == gross
    assert _rows(path, "SELECT received_on, pence, method FROM payment") == [
        ("2026-07-01", 200_00, "bank transfer"),
        ("2026-07-07", gross - 200_00, "bank transfer"),
    ]
    assert _rows(path, "SELECT payment_id, document_id, pence FROM allocation") == [
        (1, 1, 200_00),
        (2, 1, gross - 200_00),
    ]


def _look_at_what_was_used(path: Path) -> None:
    used = {
        element: [Decimal(estimated), Decimal(taken), Decimal(left)]
        for element, estimated, taken, left in _rows(
            path, 'SELECT element, estimated, used, "left" FROM usage'
        )
    }
    # source: the trade specification's worked example, 55 strips, three packs of 21; read.
    assert used["strips"] == [57, 53, 10]
    # One metre over the estimate, which came from stock: nothing is left of it.
    needed = used["underlay"][0]
    assert used["underlay"] == [needed, needed + 1, 0]
    assert all(row[0] == row[1] for key, row in used.items() if key not in ("strips", "underlay"))
    moves = _rows(path, 'SELECT material, colour, quantity, "on", job_id FROM stock_move')
    assert [(*row[:2], Decimal(row[2]), *row[3:]) for row in moves] == [
        ("underlay", "", IN_STOCK, "2026-06-01", None),
        ("square-butt", "slate grey", 10, "2026-06-24", 1),
        ("underlay", "", -needed, "2026-06-24", 1),
    ]


def _look_at_journal(path: Path) -> None:
    ready = 2 + len(priced.PRICES)  # your details, prices, leftovers
    actions = _rows(path, "SELECT at, words, undone_at FROM action ORDER BY id")[ready:]
    assert [at[:10] for at, _, _ in actions] == [
        "2026-06-01",  # taken down
        *["2026-06-03"] * 4,  # surveyed, marked as surveyed, priced, sent
        *["2026-06-08"] * 3,  # accepted, booked, marked as booked
        *["2026-06-24"] * 9,  # recorded three times, an extra, three stages, invoice, word
        "2026-07-01",
        "2026-07-07",
    ]
    assert [words for _, words, undone in actions if undone] == []
    stages = [
        json.loads(after)["stage"]
        for (after,) in _rows(path, "SELECT after FROM journal WHERE entity = 'job' ORDER BY id")
    ]
    assert list(dict.fromkeys(stages)) == [stage.value for stage in Stage]
