"""A choice is picked by arrows or by how it begins; what was meant for another field picks none."""

from pathlib import Path

import pytest
from textual import events
from textual.app import App, ComposeResult

from domain.job import Stage
from domain.page_names import PageName
from domain.setting_out.kinds import RoofForm
from tests.tui.books.a_job_at_a_stage import app_on, carried_to
from tests.tui.hands import Hands, key, said, turn_to
from tests.tui.sight import cut_off, sees, text
from tui.frame.theme import textual_theme
from tui.widgets.choice import ChoiceField


class _One(App[None]):
    def __init__(self, words: tuple[str, ...]) -> None:
        super().__init__()
        self.register_theme(textual_theme("evening"))
        self.theme = "evening"
        self._words = words

    def compose(self) -> ComposeResult:
        yield ChoiceField(self._words)


YES_NO = ("yes", "no")
ROOFS = ("apex", "mono-pitch", "hip", "half hip", "hexagon")


@pytest.mark.parametrize(
    ("words", "typed", "value"),
    [
        (YES_NO, "y", "yes"),
        (YES_NO, "yn", "no"),  # another mind
        (YES_NO, "yes", "yes"),
        (YES_NO, "York", ""),
        (YES_NO, "nobody", ""),
        (YES_NO, "Mary", ""),
        (ROOFS, "2.4 m", ""),
        (ROOFS, "8'6\"", ""),
        (ROOFS, "hh", "half hip"),
        (ROOFS, "hex", "hexagon"),
        (ROOFS, "half hip", "half hip"),
        (ROOFS, "mono-pitch", "mono-pitch"),
        (YES_NO, "y ", "no"),  # a space chooses the next
        (("20", "25", "30"), "25", "25"),
        (("20", "25", "30"), "2", "20"),
        (("20", "25", "30"), "2400", ""),
    ],
)
async def test_what_no_choice_begins_with_picks_none(
    words: tuple[str, ...], typed: str, value: str
) -> None:
    app = _One(words)
    async with app.run_test() as pilot:
        choice = app.query_one(ChoiceField)
        choice.focus()
        await pilot.press(*typed)
        assert choice.value == value


async def test_a_choice_is_shown_and_typed_by_what_it_is_called(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        await hands.type_in("offset a")
        await sees(pilot, "offset apex")
        assert hands.form.values["form"] == RoofForm.OFFSET_APEX
        assert RoofForm.OFFSET_APEX not in text(app)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_size_typed_a_field_too_high_changes_no_form_of_roof(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.SURVEY)
    app = app_on(path)
    async with app.run_test(size=size) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.SURVEY)
        before = hands.form.values["form"]
        assert before
        await hands.type_in("2.4 m")
        await hands.hears("“2.4 m” is not valid. Choose with ← and →, or type how one begins")
        assert await cut_off(pilot) == []
        assert hands.form.values["form"] == before
        await hands.press(*["backspace"] * 5)
        assert hands.form.values["form"] == before
        app.post_message(events.Paste("2.4 m\nnorth\n3.6 m"))
        await hands.hears("2.4 m north 3.6 m")
        assert hands.form.values["form"] == before
        await hands.press("down", "up", "p")  # begun anew
        assert hands.form.values["form"].startswith("p")


async def test_no_arrow_leads_round_from_the_last_field_to_the_first(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    carried_to(path, Stage.LAID)
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        hands = Hands(pilot)
        await turn_to(pilot, app, PageName.STRIP)
        await hands.ask(key("stripped", "add_extra"))
        first, last = app.screen.focus_chain[0], app.screen.focus_chain[-1]
        assert first is not last
        await hands.press(*["down"] * (len(app.screen.focus_chain) + 2))
        assert app.focused is last
        await hands.press(*["up"] * (len(app.screen.focus_chain) + 2))
        assert app.focused is first
        await hands.press("escape")
        await hands.shows(PageName.STRIP)
        chain = app.screen.focus_chain
        await hands.press(*["down"] * (len(chain) + 5))
        assert app.focused is chain[-1]
        assert said(app) == ""
