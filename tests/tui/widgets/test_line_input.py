"""What a first key does in words, in a figure and in a date, and what brings it back."""

from datetime import date, datetime
from pathlib import Path

import pytest
from textual import events
from textual.app import App, ComposeResult

from storage.book import Book
from tests.tui.books.an_enquiry import app_on
from tests.tui.hands import Hands, key
from tests.tui.sight import sees, text
from tui.frame.open_book import OpenBook
from tui.frame.theme import textual_theme
from tui.widgets.field_row import Field
from tui.widgets.form import YES_NO, Form
from tui.widgets.line_input import Takes

THURSDAY_BEFORE_EASTER = datetime(2026, 4, 2, 19, 0)
FIELDS = (
    Field("words", "Found"),
    Field("figure", "Temperature", "°C", takes=Takes.FIGURE),
    Field("count", "Layers", "counted", takes=Takes.COUNT),
    Field("hours", "Hours", "h", takes=Takes.QUARTERS),
    Field("day", "Day", takes=Takes.DATE),
    Field("done", "Stripped on", takes=Takes.DONE),
    Field("choice", "Nails show", choices=YES_NO),
)
FILLED = {"words": "rot", "figure": "9", "count": "2", "hours": "6.5", "day": "Thu 2 Apr 2026"}
FILLED |= {"done": "Wed 1 Apr 2026"}


class _FormApp(App[None]):
    def __init__(self, path: Path) -> None:
        super().__init__()
        self.open_book = OpenBook(path, lambda: THURSDAY_BEFORE_EASTER)
        self.form = Form(FIELDS)
        self.commands: list[str] = []
        self.register_theme(textual_theme("evening"))
        self.theme = "evening"

    def compose(self) -> ComposeResult:
        yield self.form

    def on_key(self, event: events.Key) -> None:
        """A letter that no field keeps comes here, where it would be a command."""
        if event.is_printable:
            self.commands.append(event.key)


@pytest.mark.parametrize(
    ("field", "keys", "then"),
    [
        ("words", "s", "rots"),
        ("words", "+", "rot+"),
        ("words", "ctrl+u", ""),
        ("words", "home ctrl+u", ""),
        ("words", "ctrl+u x ctrl+z", "rot"),
        ("words", "s ctrl+z", "rot"),
        ("words", "ctrl+z", "rot"),
        ("figure", "1 2", "12"),
        ("figure", "- 1", "-1"),
        ("figure", "left 1", "19"),
        ("figure", "home 1", "19"),
        ("figure", "end 1", "91"),
        ("figure", "1 2 ctrl+z", "9"),
        ("figure", "backspace", ""),
        ("count", "+", "3"),
        ("count", "+ +", "4"),
        ("count", "- - -", "0"),
        ("count", "+ 7", "7"),
        ("count", "1 +", "1+"),
        ("count", "end +", "2+"),
        ("count", "+ + ctrl+z", "3"),
        ("count", "+ + ctrl+z ctrl+z", "2"),
        ("hours", "+", "6.75"),
        ("hours", "- - -", "5.75"),
        ("day", "+", "Tue 7 Apr 2026"),
        ("day", "-", "Wed 1 Apr 2026"),
        ("day", "+ -", "Thu 2 Apr 2026"),
        ("day", "1 2 - 5 - 2 6", "12-5-26"),
        ("day", "t u e", "tue"),
        ("day", "ctrl+u +", "Tue 7 Apr 2026"),
        ("done", "-", "Tue 31 Mar 2026"),
        ("done", "+ +", "Thu 2 Apr 2026"),
        ("done", "ctrl+u +", "Thu 2 Apr 2026"),
    ],
)
async def test_keys_in_a_field(tmp_path: Path, field: str, keys: str, then: str) -> None:
    app = _FormApp(tmp_path / "book.headlap")
    Book.open(app.open_book.path, app.open_book.now).close()
    async with app.run_test() as pilot:
        app.form.fill(FILLED)
        app.form.focus_first(field)
        await pilot.pause()
        await pilot.press(*keys.split())
        assert app.form.values[field] == then
        assert not app.commands


@pytest.mark.parametrize("field", ["words", "figure", "day"])
async def test_a_paste_replaces_a_figure_and_adds_to_words(tmp_path: Path, field: str) -> None:
    app = _FormApp(tmp_path / "book.headlap")
    async with app.run_test() as pilot:
        app.form.fill(FILLED)
        app.form.focus_first(field)
        await pilot.pause()
        app.post_message(events.Paste("12.5.26"))
        await pilot.pause()
        added = FILLED[field] + "12.5.26"
        assert app.form.values[field] == (added if field == "words" else "12.5.26")
        await pilot.press("ctrl+z")
        assert app.form.values[field] == FILLED[field]


async def test_a_letter_that_begins_no_choice_does_nothing(tmp_path: Path) -> None:
    app = _FormApp(tmp_path / "book.headlap")
    async with app.run_test() as pilot:
        app.form.focus_first("choice")
        await pilot.pause()
        await pilot.press("n", "w", "1", "j")
        assert app.form.values["choice"] == ""  # no word of theirs: what stood there stays
        assert not app.commands
        await pilot.press("backspace", "backspace", "backspace")
        await pilot.press("n")
        assert app.form.values["choice"] == "no"


async def test_a_choice_with_the_cursor_is_seen_without_colour(tmp_path: Path) -> None:
    app = _FormApp(tmp_path / "book.headlap")
    async with app.run_test() as pilot:
        choice = app.form.query_one("#field-choice")
        app.form.focus_first("words")
        await pilot.pause()
        without = {str(style) for strip in (choice.render_line(0),) for _, style, _ in strip}
        app.form.focus_first("choice")
        await pilot.pause()
        with_cursor = {str(style) for strip in (choice.render_line(0),) for _, style, _ in strip}
        assert not any("underline" in style for style in without)
        assert any("underline" in style for style in with_cursor)


def test_the_day_after_is_one_that_is_worked_on(tmp_path: Path) -> None:
    book = OpenBook(tmp_path / "book.headlap", lambda: THURSDAY_BEFORE_EASTER)
    Book.open(book.path, book.now).close()
    assert book.working_day(date(2026, 12, 24), 1) == date(2026, 12, 29)  # GOV.UK's list of 2026


async def test_of_a_text_too_long_the_beginning_is_seen_and_where_it_is_typed_on_that_more_is(
    tmp_path: Path,
) -> None:
    app = app_on(tmp_path / "book.headlap")
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await sees(pilot, "Who you are")
        await hands.ask(key("anywhere", "new_enquiry"))
        await hands.write({"Who": "Ann " + "o" * 300 + " End"})
        await sees(pilot, "…" + "o" * 20)
        await sees(pilot, "o End")
        await hands.press("enter")
        await sees(pilot, "Ann oooo", "oo…")
        assert "End" not in text(app)


@pytest.mark.parametrize("control", [*"\x00\x07\x1b\x7f\x9b\u200e\u200f\u202e\u2069"])
async def test_what_a_terminal_obeys_is_never_in_a_field(tmp_path: Path, control: str) -> None:
    app = _FormApp(tmp_path / "book.headlap")
    async with app.run_test() as pilot:
        app.form.fill({"words": "rot"})
        app.form.focus_first("words")
        await pilot.press("home")
        app.post_message(events.Paste(f"d{control}r{control}y "))
        await pilot.press(*"and", "space")
        assert app.form.values["words"] == "dry and rot"
        app.form.put("words", f"wet{control}")
        assert app.form.values["words"] == "wet"
