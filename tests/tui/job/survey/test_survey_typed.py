"""A survey typed from the list: how many keys, what stands there at each, and how groups open."""

from pathlib import Path

import pytest

from domain.job import NONE_THERE, Around, CoveringChoice, Deck
from domain.page_names import PageName
from domain.units import parse_length
from tests import builders
from tests.tui.books.an_enquiry import app_on, book_at, read_again
from tests.tui.hands import Hands, key, turn_to, until
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.job.survey.survey_fields import ACCESS, AROUND, ASBESTOS, DECK, EDGES, OLD
from tui.job.survey.takeoff_beside import TakeoffBeside
from tui.shell.app import HeadlapApp

MOST_KEYS = 60
"""What a survey of an apex shed may take from the list to its take-off, every character counted."""


def _view(app: HeadlapApp) -> TakeoffBeside:
    return app.screen.query_one(TakeoffBeside)


async def test_a_survey_takes_few_keys_from_the_list_to_the_take_off(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        app.action_go("jobs")
        await sees(pilot, "Birch Lane")
        await hands.press("enter")
        await hands.shows(PageName.SURVEY)  # the visit has been
        await hands.press("enter")
        for measure in ("2.4m", "1.8m", "450"):
            assert not _view(app).slopes
            await hands.type_in(measure)
            await hands.press("enter")
        assert _view(app).slopes  # from the third measure on
        await hands.until(lambda: _view(app).figures[0].words == "about £360 if square butt")
        await hands.press("right")
        assert [f.label for f in _view(app).figures if f.label][:2] == ["Price", "Packs"]
        await hands.save("Saved: the survey.")
        await hands.press(key("survey", "takeoff"))
        await sees(pilot, "Take-off 0001", "3 packs")
        assert hands.pressed <= MOST_KEYS, hands.pressed
    survey = read_again(path).survey
    assert survey is not None
    assert survey.covering == CoveringChoice("square-butt")
    assert survey.edges.past_edge == parse_length("past_edge", "10 mm")


def test_what_an_answer_brings_on_stands_below_what_was_in_sight() -> None:
    for group in (EDGES, DECK, OLD, ASBESTOS, AROUND, ACCESS):
        own = {field.id for field in group}
        later = [field.only_for is not None and field.only_for[0] in own for field in group]
        assert later == sorted(later), [field.label for field in group]


async def test_keys_typed_ahead_of_a_deck_of_boards_go_where_one_saw(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey(deck=Deck()))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        hands.form.focus_first("deck_kind")
        await sees(pilot, "○ boards", "Seen from above")
        await pilot.press("b", "tab", *"11", "tab", "y", "tab", "n")
        await hands.until(lambda: hands.form.values["seen_below"] == "no")
        typed = hands.form.values
        assert (typed["deck_kind"], typed["thickness"]) == ("boards", "11")
        assert (typed["seen_above"], typed["profile"]) == ("yes", "")


@pytest.mark.parametrize("size", SIZES)
async def test_groups_open_by_key_by_mouse_and_where_the_cursor_goes_and_a_key_answers_one(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey(around=Around(cables="overhead")))
    async with app_on(path).run_test(size=size) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        await sees(pilot, "Before stripping …", "3 open", "bats and nests,", "The deck …")
        assert "Ladder footing" not in text(app)
        assert await cut_off(pilot) == []
        await click_on(pilot, "Before stripping …")
        await sees(pilot, "Bats and nests", "Bad ladder footing", "ctrl+t: none there")
        assert app.focused is app.screen.query_one("#field-wildlife")
        assert await cut_off(pilot) == []
        await hands.press(key("survey", "none_there"))
        await sees(pilot, "4 given")
        await hands.press("up", "up", "enter")  # the heading, and that above it
        await sees(pilot, "Asbestos: how old", "Laboratory")
        # What was opened before stays open where there is room for both.
        assert ("Bats and nests" in text(app)) == (size[1] >= 40)
        hands.form.put("thickness", "thin")
        await hands.press("ctrl+s")
        await until(pilot, lambda: app.focused is app.screen.query_one("#field-thickness"))
        await sees(pilot, "Thickness", "■ Give a length")
        hands.form.put("thickness", "12 mm")
        await hands.save("Saved: the survey.")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.around == Around(NONE_THERE, "overhead", NONE_THERE, NONE_THERE)
