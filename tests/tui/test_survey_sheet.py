"""The survey as it is typed: the take-off that follows it, the stop, and the record."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from domain.errors import Refused
from domain.estimate.counted import packing_for
from domain.estimate.stock import Material, StockLine
from domain.estimate.supplies import Sources
from domain.job import CoveringChoice, OldKind, Suspicion
from domain.papers.blocks import Tone
from domain.setting_out.roof import MEASURES_OF, EdgeKind
from domain.setting_out.roof import Form as RoofForm
from domain.sheets import SheetName
from domain.takeoff.surveyfile import read_survey as read_file
from domain.trader import Van
from tests import builders, priced
from tests.tui.enquiry_book import NASTY, app_on, book_at, form_of, read_again, turn_to, until
from tests.tui.hands import Hands
from tests.tui.quote_book import surveyed
from tests.tui.sight import SIZES, click_on, cut_off, sees, text
from tui.app import HeadlapApp
from tui.dialogs.slope import SlopeDialog
from tui.reading.survey import FIELDS, ROOF, read_survey, survey_typed
from tui.reading.takeoff import length_note, suspected, work_out
from tui.safe_text import one_line
from tui.widgets.voice import Voice
from tui.widgets.worked_out import WorkedOut

TODAY = date(2026, 6, 3)
SOURCES = Sources((), (), TODAY)
EMPTY = {field.id: "" for field in FIELDS}
TYPED = EMPTY | survey_typed(builders.survey())


def _view(app: HeadlapApp) -> WorkedOut:
    return app.screen.query_one(WorkedOut)


def _told(app: HeadlapApp) -> dict[str, str]:
    return {f.label: f.words for f in _view(app).figures}


async def test_the_take_off_follows_the_typing_and_the_survey_is_saved(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path)
    async with app_on(path).run_test(size=(120, 40)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, SheetName.SURVEY)
        for key in ("length", "span", "rise", "eaves_overhang", "verge_overhang"):
            form_of(app).put(key, TYPED[key])
        await until(pilot, lambda: _told(app).get("Slope") == "1,062 mm × 2")
        form_of(app).put("covering", TYPED["covering"])
        await until(pilot, lambda: _told(app).get("Packs") == "3 packs of 21")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Saved" in str(app.screen.query_one(Voice).render()))
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == builders.survey().measures
    assert survey.covering == CoveringChoice("square-butt")


async def test_the_survey_begins_at_the_form_of_the_roof(tmp_path: Path) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    app = app_on(path)
    async with app.run_test(size=(80, 24)) as pilot:
        await turn_to(pilot, app, SheetName.SURVEY)
        await until(pilot, lambda: app.focused is not None and app.focused.id == "field-form")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_take_off_on_record_is_shown_by_key_and_by_mouse(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    surveyed(path)
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, SheetName.SURVEY)
        await click_on(pilot, "f10 take-off")
        await sees(pilot, "Take-off 0001", "3 packs")
        await pilot.press("escape")
        await sees(pilot, "f10 take-off")
        form_of(app).put("length", "3 m")
        await pilot.press("f10")
        await until(
            pilot, lambda: "Save what you typed" in str(app.screen.query_one(Voice).render())
        )


async def test_a_refused_measure_is_told_quietly_and_only_saving_says_it_aloud(
    tmp_path: Path,
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=(80, 24)) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, SheetName.SURVEY)
        await until(pilot, lambda: "Packs" in _told(app))
        form_of(app).put("span", NASTY)
        await until(pilot, lambda: _view(app).figures[0].tone is Tone.QUIET)
        assert not app.screen.query_one(Voice).display
        await pilot.press("ctrl+s")
        await until(pilot, lambda: app.screen.query_one(Voice).has_class("-stop"))
        assert app.focused is app.screen.query_one("#field-span")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == builders.survey().measures


@pytest.mark.parametrize(("size", "above"), [((80, 24), True), ((100, 30), False)])
async def test_the_stop_is_seen_at_every_width(
    tmp_path: Path, size: tuple[int, int], above: bool
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=size) as pilot:
        app = pilot.app
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, SheetName.SURVEY)
        await until(pilot, lambda: "Packs" in _told(app))
        form_of(app).put("suspicion", Suspicion.BEFORE.value)
        await until(pilot, lambda: bool(_view(app).stop))
        form, view = form_of(app), _view(app)
        if above:
            await until(pilot, lambda: view.region.bottom <= form.region.y)
        else:
            await until(pilot, lambda: form.region.right <= view.region.x)
        assert "licensed or trained person" in str(_view(app).render())


SLOPE = {"Eaves": "1.8 m", "Length": "1443 mm", "Top": "3.05 m", "Inset": "0"}
L_SHAPE = read_file(Path("demo_data/l_shape.toml").read_text(encoding="utf-8")).measures


@pytest.mark.parametrize("size", SIZES)
async def test_slopes_are_added_changed_and_dropped_one_by_one(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "book.headlap"
    book_at(path, builders.survey())
    async with app_on(path).run_test(size=size) as pilot:
        app, hands = pilot.app, Hands(pilot)
        assert isinstance(app, HeadlapApp)
        await turn_to(pilot, app, SheetName.SURVEY)
        form_of(app).put("form", "slopes")
        await sees(pilot, "No slopes yet: ctrl+t")
        await hands.ask("ctrl+t")
        await hands.write(SLOPE)
        await hands.press("ctrl+s")
        await hands.hears("Top: “3.05 m” will not do.")  # it widens, and there is no valley
        await hands.write({"Right edge": "valley"})
        assert await cut_off(pilot) == []
        await hands.press("ctrl+s")
        await hands.hears("The slope is in the list: ctrl+s saves the survey.")
        await click_on(pilot, "Slopes, walking round")
        await until(pilot, lambda: isinstance(app.screen, SlopeDialog))
        assert hands.form.values["length"] == "1443 mm"  # as the one before it
        await hands.write({"Eaves": "1.2 m", "Top": "", "Inset": "0"})
        await click_on(pilot, "^s save")
        await sees(pilot, "2  eaves  1,200")
        assert await cut_off(pilot) == []
        await click_on(pilot, "1  eaves  1,800")
        await until(pilot, lambda: isinstance(app.screen, SlopeDialog))
        await hands.write({"Eaves": "1.9 m"})
        await hands.press("ctrl+s")
        await sees(pilot, "1  eaves  1,900")
        await hands.press("down")
        await click_on(pilot, "delete drop it")
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
        await turn_to(pilot, app, SheetName.SURVEY)
        await sees(pilot, "4  eaves  3,700")
        await hands.press("up", "delete", "escape")
        await hands.hears("not saved")
        await hands.save("Saved: the survey.")
        kept = read_again(path).survey
        assert kept is not None
        assert kept.measures.slopes == L_SHAPE.slopes[1:]
        await hands.press("f8")
        await sees(pilot, "4  eaves  3,700")
    survey = read_again(path).survey
    assert survey is not None
    assert survey.measures == L_SHAPE


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (
            {
                "form": "offset-apex",
                "front_run": "1.2 m",
                "front_rise": "900 mm",
                "back_run": "0.8 m",
            }
            | {"back_rise": "600 mm"},
            {"Slope": "1,063 to 1,563 mm × 2"},
        ),
        ({"form": "hip", "pitch": "30", "rise": ""}, {"Eaves": "1,900 to 2,500 mm"}),
        (
            {"form": "pyramid", "sides": "8", "side": "1.2 m", "pitch": "35", "rise": ""},
            {"Slope": "1,768 mm × 8", "Eaves": "1,200 mm"},
        ),
    ],
)
def test_every_form_is_told_in_figures(typed: dict[str, str], told: dict[str, str]) -> None:
    # derived: (run + 50) over the cosine; apothem over the cosine
    got = {figure.label: figure.words for figure in work_out(TYPED | typed, SOURCES).figures}
    assert told.items() <= got.items()


def test_an_l_shaped_roof_is_told_with_its_valley() -> None:
    typed = TYPED | survey_typed(builders.survey(measures=L_SHAPE))
    got = {f.label: f.words for f in work_out(typed, SOURCES, slopes=L_SHAPE.slopes).figures}
    assert got["Valley"] == "1.91 m"
    assert got["Eaves"] == "1,200 to 4,300 mm"


@pytest.mark.parametrize("form", list(RoofForm))
def test_a_form_asks_only_for_the_measures_it_takes(form: RoofForm) -> None:
    asked = {f.id for f in ROOF if f.only_for and form.value in f.only_for[1:]}
    assert asked | {"slopes"} == {*MEASURES_OF[form], "slopes"}


def test_felt_is_told_in_rolls_and_a_load_too_heavy_in_trips() -> None:
    # By hand: the same apex in felt, 109 kg with whole packs (tests of felt and of what it weighs).
    van = Van(payload_kg=Decimal(60))
    counted = work_out(TYPED | {"covering": "felt"}, Sources((), (), TODAY), van=van).figures
    told = {figure.label: figure for figure in counted}
    assert told["Felt"].words == "3 rolls of 10 m"
    assert told["Rows"].words == "4, 10.63 m"
    assert told["Capping"].words == "2.62 m"
    assert told["Adhesive"].words == "11.48 m of lap"
    assert (told["Weight"].words, told["Weight"].tone) == ("109 kg, 2 trips", Tone.CAUTION)


@pytest.mark.parametrize(
    ("typed", "begins"),
    [
        ({"length": ""}, "Length: "),
        ({"form": ""}, "Roof: "),
        ({"span": "wide"}, "Span: "),
        ({"rise": "-1 m"}, "Rise: "),
        ({"rise": "1 mm"}, "Pitch: "),
        ({"slope_length": "120 mm"}, "Slope length: "),
        ({"covering": ""}, "Choose the covering"),
        ({"length": "9" * 400}, "Length: "),
        ({"span": NASTY}, "Span: "),
    ],
)
def test_what_cannot_be_worked_out_ends_in_one_quiet_sentence(
    typed: dict[str, str], begins: str
) -> None:
    last = work_out(TYPED | typed, SOURCES).figures[-1]
    assert last.words.startswith(begins)
    assert (last.label, last.tone) == ("", Tone.QUIET)


def test_a_low_pitch_is_counted_with_a_caution() -> None:
    told = work_out(TYPED | {"rise": "", "pitch": "12"}, SOURCES).figures
    assert [f.words for f in told if f.tone is Tone.CAUTION] == [
        "Pitch 12 is under the 15° advised for square butt shingles."
    ]
    assert "Packs" in {f.label for f in told}


def test_a_pitch_at_odds_with_the_rise_is_told_once_with_the_one_that_counts() -> None:
    for covering in (TYPED["covering"], ""):
        told = work_out(TYPED | {"pitch": "30", "covering": covering}, SOURCES).figures
        assert [f.words for f in told if f.tone is Tone.CAUTION] == [
            "Pitch 30 is at odds with 26.57°, from the rise: the pitch counts."
        ]


def test_packs_and_rolls_are_those_of_the_prices_and_the_store_comes_first() -> None:
    prices = (
        priced.price(Material.SQUARE_BUTT, 31_50, "16"),
        priced.price(Material.UNDERLAY, 24_99, "10"),
    )
    held = StockLine(Material.SQUARE_BUTT, "slate grey", Decimal(5))
    sources = Sources(prices, (held,), TODAY)
    packing = packing_for(CoveringChoice("square-butt", "Slate Grey"), sources)
    assert (packing.strips_per_pack, packing.loose_strips) == (16, 5)
    assert packing.underlay.roll == Fraction(10_000)


@pytest.mark.parametrize(
    ("kind", "suspicion", "cleared_by", "stops"),
    [
        ("", "", "", False),
        (OldKind.FELT.value, "", "", False),
        (OldKind.FELT.value, Suspicion.AFTER.value, "", False),
        (OldKind.FELT.value, Suspicion.BEFORE.value, "", True),
        (OldKind.CEMENT_SHEET.value, "", "", True),
        (OldKind.CEMENT_SHEET.value, Suspicion.AFTER.value, "", True),
        (OldKind.FELT.value, Suspicion.CLEARED.value, " ", True),
        (OldKind.CEMENT_SHEET.value, Suspicion.CLEARED.value, "Ms Osei", False),
        (OldKind.NONE.value, Suspicion.BEFORE.value, "", False),
    ],
)
def test_suspected_asbestos_stops_until_a_named_person_has_cleared_it(
    kind: str, suspicion: str, cleared_by: str, stops: bool
) -> None:
    typed = {"old_kind": kind, "suspicion": suspicion, "cleared_by": cleared_by}
    assert bool(suspected(EMPTY | typed)) is stops


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("8 ft", "2,438 mm"),
        ("2400", "2,400 mm"),
        ("2.4 m", "2,400 mm"),
        ("450 mm", ""),
        ("", ""),
        ("soon", ""),
        (NASTY, ""),
    ],
)
def test_a_length_is_told_in_millimetres(text: str, note: str) -> None:
    # source: a foot is 304.8 mm, so 8 ft are 2,438.4 mm; derived.
    assert length_note("length", text) == note


def test_a_survey_is_read_back_unchanged_though_it_holds_line_breaks() -> None:
    survey = builders.survey(
        access=replace(builders.survey().access, means="ladder\nhop-up"),
        edges=replace(builders.survey().edges, gutter=f"{NASTY}\nloose"),
    )
    shown = {key: one_line(text) for key, text in survey_typed(survey).items()}
    assert read_survey(EMPTY | shown, survey, TODAY) == survey


@pytest.mark.parametrize(
    ("field", "typed", "label"),
    [
        ("thickness", "thin", "Thickness"),
        ("layers", "1.5", "Layers"),
        ("replace_m", "501", "Boards to replace"),
        ("pitch", "91", "Pitch"),
        ("visited_on", "[/]", "Visited on"),
    ],
)
def test_a_refusal_names_the_field(field: str, typed: str, label: str) -> None:
    with pytest.raises(Refused) as refused:
        read_survey(TYPED | {field: typed}, None, TODAY)
    assert refused.value.field == label
