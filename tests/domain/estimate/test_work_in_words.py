"""Which roof it is and what is done, in words for the customer."""

import pytest

from domain.estimate.work_in_words import WorkInWords, roof_in_words, work_in_words
from domain.job import Deck, DeckKind, OldCovering, OldKind, Stage
from domain.setting_out.kinds import EdgeKind, Finish, RoofForm
from domain.setting_out.measures import RoofMeasures, TapedSlope
from tests import builders

MM = builders.mm
SLOPE = TapedSlope(MM(2000), MM(1500), Finish.POINT, left_edge=EdgeKind.HIP)


@pytest.mark.parametrize(
    ("measures", "roof", "ends"),
    [
        (builders.measures(), "Shed, apex roof, 2.4 × 1.8 m", "ridge and edges"),
        (
            RoofMeasures(RoofForm.PENT, length=MM(3050), span=MM(1500)),
            "Shed, pent roof, 3.05 × 1.5 m",
            "edges",
        ),
        (
            RoofMeasures(RoofForm.PYRAMID, sides=6, side=MM(1250)),
            "Shed, pyramid roof, 6 sides of 1.25 m",
            "hips and edges",
        ),
        (
            RoofMeasures(RoofForm.HIP, length=MM(4000), span=MM(3000)),
            "Shed, hip roof, 4 × 3 m",
            "ridge, hips and edges",
        ),
        (
            RoofMeasures(RoofForm.SLOPES, slopes=(SLOPE, SLOPE)),
            "Shed, roof of 2 slopes",
            "hips and edges",
        ),
        (RoofMeasures(RoofForm.APEX, eaves_length=MM(2400)), "Shed, apex roof", "ridge and edges"),
    ],
)
def test_a_roof_is_told_by_building_form_and_size(
    measures: RoofMeasures, roof: str, ends: str
) -> None:
    survey = builders.survey(measures=measures)
    words = work_in_words(builders.ready_for(Stage.QUOTED, survey=survey))
    assert (words.roof, words.ends) == (roof, ends)


def test_a_building_that_was_not_named_is_left_out() -> None:
    assert roof_in_words(" ", builders.measures()) == "Apex roof, 2.4 × 1.8 m"


@pytest.mark.parametrize(
    ("old", "strip"),
    [
        (OldCovering(OldKind.FELT, 1), "Strip off the old felt and take it away."),
        (OldCovering(OldKind.FELT, 2), "Strip off both layers of the old felt and take them away."),
        (OldCovering(OldKind.SHINGLES, 1), "Strip off the old shingles and take them away."),
        (OldCovering(OldKind.CEMENT_SHEET, 1), "Strip off the old sheets and take them away."),
        (
            OldCovering(OldKind.OTHER, 4),
            "Strip off all layers of the old covering and take them away.",
        ),
        (OldCovering(OldKind.NONE), "Sweep the bare roof and get it ready."),
        (OldCovering(), "Strip off the old covering and take it away."),
    ],
)
def test_what_is_stripped_is_named(old: OldCovering, strip: str) -> None:
    survey = builders.survey(old=old)
    assert work_in_words(builders.ready_for(Stage.QUOTED, survey=survey)).strip == strip


def test_before_there_is_a_survey_the_words_are_general() -> None:
    assert work_in_words(builders.job_at(Stage.ENQUIRY)) == WorkInWords()
    deck = builders.survey(deck=Deck(kind=DeckKind.SHEET))
    assert work_in_words(builders.ready_for(Stage.QUOTED, survey=deck)).deck == "deck"
