"""Stripping: what we found, and the extras: recorded, agreed, not charged, dropped."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from textual.screen import ModalScreen

from domain.job import Cover, Extra, ExtraState, Job, Means, Stage
from domain.page_names import PageName
from domain.trader import Van
from storage.book import Book
from tests import builders
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, place_of, sees, text
from tui.frame.safe_text import one_line
from tui.job.stripping import extra_dialog, stripping_page
from tui.job.stripping.stripping_page import waste_note, worked_out_kg

SAVE = key("dialog", "save")
FOUND = {
    "Stripped on": "yesterday",
    "Found": f"{NASTY} at the back eaves",
    "Deck left": "sheeted",
    "Old covering": "152½",
    "Taken to": "Osmerton tip",
    "Transfer note": "T 0117",
}
ROT = {"What": "boards found rotten", "How much": "4.2"}
AGREED = {
    "Status": "agreed",
    "Agreed by": "Mrs Adeyemi",
    "Agreed on": "today",
    "Agreed how": "text",
}


def with_extras(book: Book, job: Job) -> Job:
    for words in ("boards found rotten", f"{NASTY} fascia"):
        job = book.save_extra(
            job, Extra(words, Decimal("4.2"), "m", 58_80, Decimal(0), ExtraState.OPEN)
        )
    return job


@pytest.mark.parametrize("size", SIZES)
async def test_what_was_found_is_saved_as_it_was_typed(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        assert hands.form.values["kg"]  # worked out from the roof, until it is weighed
        await hands.write(FOUND)
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved: what stripping found.")
        await hands.write({"Transfer note": "T 0118", "Suspect underneath": "yes"})
        await sees(pilot, "Stop work, keep people away")  # at once, before it is saved
        await hands.save("Saved: what stripping found.")
        assert await cut_off(pilot) == []
    done = read_again(path).stripping
    assert done is not None
    assert (done.on, done.cover) == (TODAY - timedelta(days=1), Cover.SHEETED)
    assert done.found == one_line(FOUND["Found"])
    assert (done.waste_kg, done.waste_to) == (Decimal("152.5"), "Osmerton tip")
    assert done.transfer_note == "T 0118"


async def test_what_will_not_do_is_refused_and_stays_typed(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.press(SAVE)
        await hands.hears("Deck left is empty.")
        await hands.write({"Deck left": "open", "Old covering": "4-"})
        await hands.press(SAVE)
        await hands.hears("Found is empty.")
        hands.form.put("found", "nothing")
        await hands.press(SAVE)
        await hands.hears("Old covering: “4-” is not valid.")
        assert app.focused is app.screen.query_one("#field-kg")
        assert hands.form.values["kg"] == "4-"
        assert await cut_off(pilot) == []
    assert read_again(path).stripping is None


@pytest.mark.parametrize("size", SIZES)
async def test_an_extra_is_recorded_at_the_quotes_rate_and_agreed(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.write({"Found": "soft boards"})
        await click_on(pilot, "ctrl+n add extra")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await hands.write(ROT)
        # 4.2 m at the 14.00 a metre that the quote names
        await sees(pilot, "comes to £58.80")
        assert await cut_off(pilot) == []
        await click_on(pilot, "ctrl+s save")
        await hands.hears("Saved: the extra.")
        assert hands.form.values["found"] == "soft boards"
        await sees(pilot, "▲ to agree")
        await hands.press(*["down"] * 6)
        await hands.ask("enter")
        await hands.write(AGREED)
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await sees(pilot, "✓ agreed")
        assert await cut_off(pilot) == []
    (extra,) = read_again(path).extras
    assert (extra.words, extra.quantity, extra.unit) == (ROT["What"], Decimal("4.2"), "m")
    assert (extra.price, extra.state) == (58_80, ExtraState.AGREED)
    assert (extra.agreed_by, extra.agreed_on, extra.means) == ("Mrs Adeyemi", TODAY, Means.TEXT)
    assert not extra.begun_before


async def test_an_extra_is_not_charged_or_deleted_and_deleting_is_undone(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    by_another_hand(path, with_extras)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await click_on(pilot, "Smith")
        await hands.until(lambda: isinstance(app.screen, ModalScreen))
        await click_on(pilot, "not charged")
        await hands.press(SAVE)
        await sees(pilot, "– not charged")
        assert await cut_off(pilot) == []
        await hands.press("up")
        await sees(pilot, "▲ to agree")
        await hands.press(key("stripped", "delete_extra"))
        await hands.hears("Extra deleted. F8 to undo.")
        await hands.press("f1", "escape")
        await hands.hears("Extra deleted. F8 to undo.")  # it outlasts a look at the help
        assert [extra.state for extra in read_again(path).extras] == [ExtraState.NOT_CHARGED]
        await hands.press("f8", "f8")
        await hands.hears("Undone")
    extras = read_again(path).extras
    assert {extra.words for extra in extras} == {"boards found rotten", one_line(f"{NASTY} fascia")}


async def test_boards_at_the_rate_take_four_keys_at_most_and_the_metres(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        begun = hands.pressed - hands.typed
        await hands.ask(key("stripped", "add_extra"))
        await hands.type_in("3")
        await sees(pilot, "empty: rotten boards, by the metre", "comes to £42.00")
        await hands.press(SAVE)
        await hands.hears("Saved: the extra.")
        keys = hands.pressed - hands.typed - begun
        assert keys <= 4, "published with the project's aims: 4 and the metres"
        assert await cut_off(pilot) == []
    (extra,) = read_again(path).extras
    assert (extra.words, extra.quantity, extra.unit) == ("rotten boards replaced", Decimal(3), "m")
    assert extra.price == 42_00  # 3 m at the 14.00 of the quote


async def test_an_extra_that_is_agreed_names_who_and_how(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.ask(key("stripped", "add_extra"))
        for typed, sentence in (
            ({"Unit": "hour"}, "What is empty"),
            ({"What": NASTY, "How much": "none"}, "How much: “none”"),
            ({"How much": "3", "Unit": "hour", "Price": "x"}, "Price: “x”"),
            ({"Price": "90", "Status": "agreed"}, "Agreed by is empty"),
            ({"Agreed by": "Mrs Adeyemi"}, "Agreed how is empty"),
        ):
            await hands.write(typed)
            await hands.press(SAVE)
            await hands.hears(sentence)
            assert await cut_off(pilot) == []
        await hands.write({"Agreed how": "spoken", "Started before agreed": "yes"})
        await hands.press(SAVE)
        await hands.hears("Saved: the extra.")
    (extra,) = read_again(path).extras
    assert (extra.words, extra.price, extra.begun_before) == (one_line(NASTY), 90_00, True)


async def test_a_label_is_free_to_change(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for module in (stripping_page, extra_dialog):
        renamed = tuple(replace(field, label=f"The {field.id}") for field in module.FIELDS)
        monkeypatch.setattr(module, "FIELDS", renamed)
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.press(SAVE)
        await hands.hears("The cover is empty. Choose how it was left for the night.")
        assert app.focused is app.screen.query_one("#field-cover")
        await hands.ask(key("stripped", "add_extra"))
        await hands.write({"The words": "boards", "The quantity": "none"})
        hands.form.focus_first()
        await hands.press(SAVE)
        await hands.hears("The quantity: “none” is not valid.")
        assert app.focused is app.screen.query_one("#field-quantity")


async def test_the_reminders_unfold_by_key_and_by_mouse(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.BOOKED)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        assert "if not, stop yourself" not in text(app)
        await hands.press(key("stripped", "reminders"))
        await sees(pilot, "if not, stop yourself")
        await pilot.pause()
        place_of(app, "people come first.")  # to the last word, though the form gives way
        await click_on(pilot, "if not, stop yourself")
        await hands.until(lambda: "if not, stop yourself" not in text(app))
        assert await cut_off(pilot) == []


@pytest.mark.parametrize(
    ("typed", "payload", "note"),
    [
        ("19", None, "1 sack, worked out"),  # derived: 5.35 m² of one layer of felt at 3.5 kg
        ("26", None, "2 sacks, as typed"),
        ("260", 250, "11 sacks, 2 trips, as typed"),
        ("heavy", 250, ""),
    ],
)
def test_the_old_covering_is_worked_out_until_it_is_weighed(
    typed: str, payload: int | None, note: str
) -> None:
    job = builders.job_at(Stage.BOOKED)
    assert worked_out_kg(job) == "19"
    van = Van(payload_kg=None if payload is None else Decimal(payload))
    assert waste_note(typed, job, van) == note
