"""The first evening: from an empty book to a priced quote, and what stays a starting figure."""

from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from domain.job import Job
from domain.page_names import PageName
from domain.starting_rates import CHARGES, WORK_RATES
from domain.trader import Trader
from storage.book import Book
from tests.storage.books import query
from tests.tui.hands import Hands, key
from tests.tui.sight import click_on, cut_off, sees, text
from tui.job.job_screen import JobScreen
from tui.job.quote.quote_shown import own_part
from tui.papers.as_text import plain_text
from tui.shell import command_line, demo
from tui.shell.app import make_app
from tui.widgets.choice import ChoiceField
from tui.your_details.setting_up_screen import SettingUpScreen

NOW = datetime(2026, 6, 10, 19, 0)
MOST_KEYS = 60
"""Beside the words. source: the project's own aim."""
ROOF = {
    "Length": "2.4 m",
    "Span": "1.8 m",
    "Rise": "450",
    "Covering": "square butt",
    "Old covering": "felt",
    "Layers": "1",
}
SAVE = key("dialog", "save")


async def _type(hands: Hands, typed: dict[str, str]) -> None:
    """Type from field to field as a hand does: nothing is cleared, a first letter chooses."""
    labels = {field.id: label for field in hands.form.fields for label in [field.label]}
    for label, words in typed.items():
        while labels.get((_focused(hands).id or "").removeprefix("field-")) != label:
            before = _focused(hands)
            await hands.press("enter")
            await _moves_on(hands, before)
        entry = _focused(hands)
        if isinstance(entry, ChoiceField):
            while entry.value != words:
                await hands.press(words[0])
        else:
            await hands.type_in(words)


async def _moves_on(hands: Hands, before: Any) -> None:
    await hands.until(lambda: _focused(hands) is not before)


def _focused(hands: Hands) -> Any:
    return hands.app.focused


def _recorded(path: Path) -> tuple[Trader, Job]:
    with closing(Book.open(path, lambda: NOW)) as book:
        return book.trader(), book.job(1)


async def _step(hands: Hands, typed: dict[str, str]) -> None:
    """Take the step under the cursor, which goes on to the next by itself."""
    await hands.ask("enter")
    await _type(hands, typed)
    await hands.press(SAVE)
    await hands.until(lambda: isinstance(hands.app.screen, SettingUpScreen))
    await hands.comes_to_rest()


@pytest.mark.long
async def test_an_empty_book_comes_to_a_priced_quote_in_few_keys(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, lambda: NOW).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "○ 1. Who you are", "▲ 7 of 7: starting figure – change to yours")
        assert await cut_off(pilot) == []
        await _step(hands, {"Name": "Ann Slate"})
        await _step(hands, {})
        await _step(hands, {"Merchant": "Fenwell"})
        await sees(pilot, "▲ Ready, with starting figures among your prices", "F7 adds an enquiry.")
        await hands.ask(key("anywhere", "new_enquiry"))
        await _type(hands, {"Who": "Mrs Adeyemi", "Place": "Birch Lane"})
        await hands.press(SAVE)
        await hands.until(lambda: isinstance(hands.app.screen, JobScreen))
        await hands.shows(PageName.ENQUIRY)
        await hands.turn_to(PageName.SURVEY)
        await _type(hands, ROOF)
        await hands.save("Saved: the survey.")
        await hands.turn_to(PageName.QUOTE)
        await _type(hands, {"Round trip": "12"})
        await hands.press(key("quote", "price"))
        await hands.hears("Priced at today's prices and rates")
        assert hands.pressed - hands.typed <= MOST_KEYS, hands.pressed - hands.typed
    trader, job = _recorded(path)
    assert set(trader.rates.confirmed) == set(CHARGES)
    (quote,) = job.quotes
    told = plain_text(own_part(job, quote))
    assert "starting figure – change to yours".capitalize() in told


async def test_starting_rates_say_so_until_they_are_changed_or_confirmed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, lambda: NOW).run_test(size=(100, 60)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Who you are")
        await hands.press(key("anywhere", "go('trader')"))
        await sees(pilot, "starting figures: change them, or F10 keeps them")
        assert text(hands.app).count("▲ starting") == len(CHARGES) + len(WORK_RATES) + 1
        await hands.write({"Labour": "31"})
        await hands.press(key("trader", "save"))
        await hands.hears("Saved.")
        await hands.until(
            lambda: text(hands.app).count("▲ starting") == len(CHARGES) + len(WORK_RATES)
        )
        await hands.press(key("trader", "confirm"))
        await hands.until(lambda: "▲ starting" not in text(hands.app))
        await hands.press(key("trader", "confirm"))
        await hands.hears("There is no starting figure left.")


async def test_all_that_is_missing_from_a_price_is_said_at_once(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    async with make_app(path, lambda: NOW).run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Who you are")
        await hands.press(key("anywhere", "go('prices')"))
        await sees(pilot, "no price yet")
        await hands.ask("enter")
        await hands.press(SAVE)
        await hands.hears("Still missing: merchant, pack size and price.")
        assert _focused(hands).id == "field-merchant"
        await hands.write({"Merchant": "Fenwell", "Pack size": "21"})
        await hands.press(SAVE)
        await hands.hears("Price is empty. Give pounds and pence, such as 486.00.")
    assert query(path, "SELECT count(*) FROM price") == [(0,)]


async def test_the_example_is_looked_round_and_the_book_opens_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.headlap"
    app = make_app(path, lambda: NOW)
    async with app.run_test(size=(80, 24)) as pilot:
        await sees(pilot, "Look round the example")
        await click_on(pilot, "Look round the example")
        await Hands(pilot).until(lambda: app.leads_to_example)
    opened: list[Path] = []

    class _App:
        return_code = 0

        def __init__(self, book: Path) -> None:
            self.leads_to_example = book == path and path not in opened
            opened.append(book)

        def run(self) -> None:
            """Nothing is typed in it."""

    monkeypatch.setattr("tui.shell.app.make_app", lambda book, now, **_: _App(book))
    monkeypatch.setattr(demo, "run_demo", lambda run, _show: run(tmp_path / "demo.db"))
    monkeypatch.setattr("tui.shell.questions.demand_terminal", lambda: None)
    command_line.run_app(path)
    assert opened == [path, tmp_path / "demo.db", path]
