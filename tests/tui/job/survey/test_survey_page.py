"""The survey as it is typed: the take-off that follows it, the stop, and the record."""

from pathlib import Path

import pytest

from domain.job import CoveringChoice, Suspicion
from domain.page_names import PageName
from domain.setting_out.kinds import EdgeKind, RoofForm
from domain.takeoff.surveyfile import read_survey_file
from domain.tone import Tone
from tests import builders
from tests.tui.books.a_job_to_price import surveyed
from tests.tui.books.an_enquiry import NASTY, app_on, book_at, read_again
from tests.tui.hands import Hands, form_of, turn_to, until
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.frame.message_line import MessageLine
from tui.job.survey.slope_dialog import SlopeDialog
from tui.job.survey.survey_reading import survey_typed
from tui.job.survey.takeoff_beside import TakeoffBeside
from tui.shell.app import HeadlapApp
from tui.widgets.folding_form import GroupHeading

TYPED = survey_typed(builders.survey())


def _view(app: HeadlapApp) -> TakeoffBeside:
    return app.screen.query_one(TakeoffBeside)


def _told(app: HeadlapApp) -> dict[str, str]:
    return {f.label: f.words for f in _view(app).figures}


async def test_the_take_off_follows_the_typing_and_the_survey_is_saved(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(120, 40)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        for key in ("length", "span", "rise", "eaves_overhang", "verge_overhang"):
            form_of(app).put(key, TYPED[key])
        await until(pilot, lambda: _told(app).get("Slope") == "1,062 mm × 2")
        form_of(app).put("covering", TYPED["covering"])
        await until(pilot, lambda: _told(app).get("Packs") == "3 packs of 21")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Saved" in str(app.screen.query_one(MessageLine).render()))
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == builders.survey().measures
    assert survey.covering == CoveringChoice("square-butt")


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES)
async def test_no_example_in_an_empty_field_is_cut_off(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        form_of(app).put("form", RoofForm.APEX.value)
        await sees(pilot, "e.g. 2.4 m", "e.g. 6 ft")
        for form in RoofForm:
            form_of(app).put("form", form.value)
            assert await cut_off(pilot) == [], form
        form_of(app).put("form", RoofForm.SLOPES.value)
        await sees(pilot, "No slopes yet")
        await Hands(pilot).press("ctrl+n")
        await until(pilot, lambda: isinstance(app.screen, SlopeDialog))
        await sees(pilot, "e.g. 1443 mm")
        assert await cut_off(pilot) == []


async def test_the_survey_begins_at_the_form_of_the_roof(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, PageName.SURVEY)
        await until(pilot, lambda: app.focused is not None and app.focused.id == "field-form")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_recorded_take_off_is_shown_by_key_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        await click_on(pilot, "F10 take-off")
        await sees(pilot, "Take-off 0001", "3 packs")
        await pilot.press("escape")
        await sees(pilot, "F10 take-off")
        form_of(app).put("length", "3 m")
        await pilot.press("f10")
        await until(
            pilot, lambda: "Save what you typed" in str(app.screen.query_one(MessageLine).render())
        )


async def test_a_refused_measure_is_told_quietly_and_only_saving_says_it_aloud(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        await until(pilot, lambda: "Packs" in _told(app))
        form_of(app).put("span", NASTY)
        await until(pilot, lambda: _view(app).figures[0].tone is Tone.QUIET)
        assert not app.screen.query_one(MessageLine).display
        await pilot.press("ctrl+s")
        await until(pilot, lambda: app.screen.query_one(MessageLine).has_class("-stop"))
        assert app.focused is app.screen.query_one("#field-span")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == builders.survey().measures


@pytest.mark.parametrize(("size", "above"), [((60, 20), True), ((80, 24), False)])
async def test_the_stop_is_seen_at_every_width_and_leaves_the_form_in_sight(
    tmp_path: Path, size: tuple[int, int], above: bool
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        await until(pilot, lambda: "Packs" in _told(app))
        form_of(app).put("suspicion", Suspicion.BEFORE.value)
        await until(pilot, lambda: bool(_view(app).stop))
        form, view = form_of(app), _view(app)
        if above:
            await until(pilot, lambda: view.region.bottom <= form.region.y)
        else:
            await until(pilot, lambda: form.region.right <= view.region.x)
            assert form.region.height >= 14
        assert "licensed or trained person" in " ".join(str(view.render()).split())


SLOPE = {"Eaves": "1.8 m", "Length": "1443 mm", "Top": "3.05 m", "Inset": "0"}
L_SHAPE = read_survey_file(Path("demo_data/l_shape.toml").read_text(encoding="utf-8")).measures


@pytest.mark.long
@pytest.mark.parametrize("size", SIZES)
async def test_slopes_are_added_changed_and_deleted_one_by_one(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=size) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        form_of(app).put("form", "slopes")
        await sees(pilot, "No slopes yet. Press ctrl+n")
        await hands.ask("ctrl+n")
        await hands.write(SLOPE)
        await hands.press("ctrl+s")
        await hands.hears("Top: “3.05 m” is not valid.")  # it widens, and there is no valley
        await hands.write({"Right edge": "valley"})
        assert await cut_off(pilot) == []
        await hands.press("ctrl+s")
        await hands.hears("The slope is in the list: ctrl+s saves the survey.")
        await click_on(pilot, "Slopes, clockwise")
        await until(pilot, lambda: isinstance(app.screen, SlopeDialog))
        assert hands.form.values["length"] == "1443 mm"  # as the one before it
        await hands.write({"Eaves": "1.2 m", "Top": "", "Inset": "0"})
        await click_on(pilot, "ctrl+s save")
        await sees(pilot, "2  eaves  1,200")
        assert await cut_off(pilot) == []
        await click_on(pilot, "1  eaves  1,800")
        await until(pilot, lambda: isinstance(app.screen, SlopeDialog))
        await hands.write({"Eaves": "1.9 m"})
        await hands.press("ctrl+s")
        await sees(pilot, "1  eaves  1,900")
        await hands.press("down")
        await click_on(pilot, "delete delete")
        await until(pilot, lambda: "1,200" not in text(app))
        await hands.save("Saved: the survey.")
    survey = read_again(path).survey
    assert survey is not None
    (slope,) = survey.measures.slopes
    assert (slope.eaves.typed, slope.right_edge) == ("1.9 m", EdgeKind.VALLEY)


async def test_slopes_that_are_not_saved_are_not_left_unasked_and_undo_brings_them_back(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey(measures=L_SHAPE))
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        await sees(pilot, "4  eaves  3,700")
        await hands.press("up", "delete", "escape")
        await hands.hears("Unsaved changes")
        await hands.save("Saved: the survey.")
        kept = read_again(path).survey
        assert kept is not None
        assert kept.measures.slopes == L_SHAPE.slopes[1:]
        await hands.press("f8", "f8")
        await sees(pilot, "4  eaves  3,700")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == L_SHAPE


async def test_what_is_typed_beside_the_fields_does_not_lead_away(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, PageName.SURVEY)
        hands, screen = Hands(pilot), app.screen
        for beside in (screen.query(GroupHeading).first(), screen.query_one("#missing-list"), None):
            screen.set_focus(beside)
            await hands.press(*"rwnj2")
            await hands.comes_to_rest()
            assert app.screen is screen, beside
