"""What the survey tells beside its fields, in figures."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from domain.coverings.materials import Material
from domain.estimate.job_takeoff import packing_for
from domain.estimate.stock import StockLine
from domain.estimate.supplies import PricesAndStock
from domain.job import CoveringChoice, OldKind, Suspicion
from domain.starting_rates import CHARGES, with_confirmed
from domain.takeoff.surveyfile import read_survey_file
from domain.tone import Tone
from domain.trader import Van
from tests import builders, priced
from tests.tui.books.an_enquiry import NASTY
from tui.job.survey.survey_fields import FIELDS, LENGTHS
from tui.job.survey.survey_reading import survey_typed
from tui.job.survey.takeoff_as_typed import length_note, suspected, work_out

TODAY = date(2026, 6, 3)
SOURCES = PricesAndStock(priced.PRICES, (), TODAY)
TRADER = replace(builders.trader(), rates=with_confirmed(builders.trader().rates, CHARGES))
EMPTY = {field.id: "" for field in FIELDS}
TYPED = EMPTY | survey_typed(builders.survey())
L_SHAPE = read_survey_file(Path("demo_data/l_shape.toml").read_text(encoding="utf-8")).measures


def test_the_worked_example_is_told_in_figures() -> None:
    # source: the trade specification's worked example of an apex of 2.4 m by 1.8 m, read.
    typed = TYPED | {"thickness": ""}  # what nails do in a deck has a test of its own
    told = {figure.label: figure.words for figure in work_out(typed, SOURCES, TRADER).figures}
    assert told == {
        "Price": "about £380",
        "Slope": "1,062 mm × 2",
        "Eaves": "2,520 mm",
        "Pitch": "26.6°",
        "Area": "5.35 m²",
        "Courses": "7 at 134 mm",
        "Cut plan": "42, the fewest",
        "Edges": "11 strips",
        "Laid": "53, 2 for breakage",
        "To buy": "55 strips",
        "Packs": "3 packs of 21",
        "Underlay": "1 roll of 15 m",
        "Row by row": "+5 strips",
        "Weight": "101 kg",  # with the packs and boxes of these prices
        "Old": "19 kg, 1 sack",
        "Deck load": "3.5 → 15.2 kg/m²",
    }
    assert list(told)[:3] == ["Price", "Packs", "Underlay"]  # seen where lines are few


def test_a_plan_that_takes_more_than_the_fewest_bears_no_tick() -> None:
    # derived: the same apex of 10 ft by 8 ft as in the tests of the lines of work.
    counted = work_out(
        TYPED | {"length": "10 ft", "span": "8 ft", "thickness": ""}, SOURCES, TRADER
    )
    assert counted.worked_out is not None
    told = [
        next((each.words, each.tone) for each in figures if each.label == "Cut plan")
        for figures in (counted.figures, counted.worked_out(lambda: True).figures)
    ]
    assert told == [("66, the fewest", Tone.GOOD), ("67, fewest 66", Tone.PLAIN)]


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
    got = {
        figure.label: figure.words for figure in work_out(TYPED | typed, SOURCES, TRADER).figures
    }
    assert told.items() <= got.items()


def test_an_l_shaped_roof_is_told_with_its_valley() -> None:
    typed = TYPED | survey_typed(builders.survey(measures=L_SHAPE))
    got = {
        f.label: f.words for f in work_out(typed, SOURCES, TRADER, slopes=L_SHAPE.slopes).figures
    }
    assert got["Valley"] == "1.91 m"
    assert got["Eaves"] == "1,200 to 4,300 mm"


def test_felt_is_told_in_rolls_and_a_load_too_heavy_in_trips() -> None:
    # By hand: the same apex in felt, 74 kg with whole packs (tests of felt and of what it weighs).
    trader = builders.trader(van=Van(payload_kg=Decimal(60)))
    counted = work_out(TYPED | {"covering": "felt"}, PricesAndStock((), (), TODAY), trader).figures
    told = {figure.label: figure for figure in counted}
    assert told["Felt"].words == "2 rolls of 10 m"
    assert told["Rows"].words == "4, 10.63 m"
    assert told["Capping"].words == "2.62 m"
    assert told["Adhesive"].words == "for 11.48 m of lap"
    assert (told["Weight"].words, told["Weight"].tone) == ("74 kg, 2 trips", Tone.CAUTION)


@pytest.mark.parametrize(
    ("typed", "begins"),
    [
        ({"length": ""}, "Still open: Length. Give the length, or"),
        ({"form": ""}, "Still open: Roof. Choose"),
        (dict.fromkeys((*LENGTHS, "pitch"), ""), "Not measured yet."),
        ({"span": "wide"}, "Span: "),
        ({"rise": "-1 m"}, "Rise: "),
        ({"rise": "1 mm"}, "Pitch: "),
        ({"slope_length": "120 mm"}, "Slope length: "),
        ({"length": "9" * 400}, "Length: "),
        ({"span": NASTY}, "Span: "),
    ],
)
def test_what_cannot_be_worked_out_ends_in_one_quiet_sentence(
    typed: dict[str, str], begins: str
) -> None:
    first = work_out(TYPED | typed, SOURCES, TRADER).figures[0]
    assert first.words.startswith(begins)
    assert (first.label, first.tone) == ("", Tone.QUIET)


def test_a_low_pitch_is_counted_with_a_caution() -> None:
    told = work_out(TYPED | {"rise": "", "pitch": "12", "thickness": ""}, SOURCES, TRADER).figures
    assert [f.words for f in told if f.tone is Tone.CAUTION] == [
        "Pitch 12 is under the 15° advised for square butt shingles."
    ]
    assert "Packs" in {f.label for f in told}


def test_a_pitch_at_odds_with_the_rise_is_told_once_with_the_one_that_counts() -> None:
    for covering in (TYPED["covering"], ""):
        told = work_out(
            TYPED | {"pitch": "30", "covering": covering, "thickness": ""}, SOURCES, TRADER
        ).figures
        assert [f.words for f in told if f.tone is Tone.CAUTION] == [
            "Pitch 30 does not fit 26.6° (from the rise): using the pitch."
        ]


def test_packs_and_rolls_are_those_of_the_prices_and_the_stock_comes_first() -> None:
    prices = (
        priced.price(Material("square-butt"), 31_50, "16"),
        priced.price(Material.UNDERLAY, 24_99, "10"),
    )
    held = StockLine(Material("square-butt"), "slate grey", Decimal(5))
    sources = PricesAndStock(prices, (held,), TODAY)
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
    assert bool(suspected(EMPTY | typed, TODAY)) is stops


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
