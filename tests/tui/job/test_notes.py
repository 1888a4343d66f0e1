"""Notes on a job: written from any page, read, changed and taken away."""

from pathlib import Path

import pytest

from domain.job import Job, Note, Stage
from domain.page_names import PageName
from storage.book import Book
from storage.texts import without_control
from tests.tui.books.a_job_at_a_stage import TODAY, app_on, by_another_hand, carried_to
from tests.tui.books.an_enquiry import NASTY, read_again
from tests.tui.hands import Hands, key, turn_to
from tests.tui.sight import SIZES, click_on, cut_off, sees, text

SHOWN = without_control(NASTY)
NOTES, SAVE = key("job", "notes"), key("dialog", "save")


@pytest.mark.parametrize("size", SIZES)
async def test_a_note_is_kept_from_any_page_in_two_keys(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        before, words = hands.pressed, "gate code 4417"
        await hands.ask(NOTES)
        await hands.type_in(words)
        assert await cut_off(pilot) == []
        await hands.press(SAVE)
        await hands.hears("Saved: the note. F8 to undo.")
        assert hands.pressed - before == len(words) + 2
        await sees(pilot, "note: ga")
        await hands.ask(NOTES)
        await hands.write({"Note": NASTY})
        await hands.press(SAVE)
        await hands.hears("Saved: the note.")
        await hands.press("f8", "f8")
        await sees(pilot, "note: ga")
    (note,) = read_again(path).own_notes
    assert (note.words, note.on) == ("gate code 4417", TODAY)


def _noted(book: Book, job: Job) -> Job:
    return book.write_note(book.write_note(job, Note("bees", TODAY)), Note(NASTY, TODAY))


async def test_notes_are_changed_and_taken_away(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    by_another_hand(path, _noted)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await hands.ask(NOTES)
        await hands.press(SAVE)
        await hands.hears("Note is empty. Say what is to be kept in mind.")
        await click_on(pilot, "bees")
        await hands.hears("Changing the note of Wed 24 Jun 2026.")
        await hands.type_in(" in the garden")
        await hands.press(SAVE)
        await hands.hears("Saved: the note.")
        await hands.ask(NOTES)
        assert await cut_off(pilot) == []
        await hands.press("down")
        await click_on(pilot, "delete delete")
        await hands.hears("Deleted: the note.")
        await hands.press("escape")
        await hands.until(lambda: "Notes on" not in text(app))
    assert [note.words for note in read_again(path).own_notes] == ["bees in the garden"]


async def test_another_window_that_wrote_meanwhile_loses_nothing(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.LAYING)
        await hands.ask(NOTES)
        await hands.write({"Note": "gate code 4417"})
        by_another_hand(path, _noted)
        await hands.press(SAVE)
        await hands.hears("Meanwhile in another window")
        await hands.press(SAVE)
        await hands.hears("Saved: the note.")
    assert [note.words for note in read_again(path).own_notes] == ["bees", SHOWN, "gate code 4417"]
