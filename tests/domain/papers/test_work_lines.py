"""The lines of the plan to work by: what is cut how often, and what is laid where."""

import pytest

from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.cut_list import PieceKind
from domain.cutting.laid import laid_pieces, letter_of
from domain.papers.work_lines import (
    WorkLines,
    courses_words,
    over_the_fewest,
    work_lines,
)
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import ShingleTakeOff, by_plan, plan_to_work_by, take_off_shingles
from domain.takeoff.surveyfile import read_survey_file

_APEX = 'form = "apex"\npitch = "26.6 deg"\neaves_overhang = "50 mm"\nverge_overhang = "60 mm"\n'
_OCTAGON = 'form = "pyramid"\nsides = 8\nside = "1.2 m"\npitch = "30 deg"'


def _planned(roof: str) -> tuple[ShingleTakeOff, WorkLines]:
    survey = read_survey_file(f'covering = "square-butt"\n[roof]\n{roof}')
    fewest = take_off_shingles(build_roof(survey.measures), SQUARE_BUTT)
    working = plan_to_work_by(fewest)
    takeoff = by_plan(fewest, working)
    return takeoff, work_lines(takeoff, working)


@pytest.fixture(scope="module")
def shed() -> tuple[ShingleTakeOff, WorkLines]:
    return _planned(_APEX + 'length = "8 ft"\nspan = "6 ft"')


def test_a_shed_is_cut_and_laid_in_few_lines(shed: tuple[ShingleTakeOff, WorkLines]) -> None:
    takeoff, lines = shed
    assert [(cut.letter, cut.times, cut.cuts_words) for cut in lines.cutting] == [
        ("A", 8, "500, 750"),
        ("B", 6, "625, 750"),
    ]
    assert [part.name for cut in lines.cutting for part in cut.parts] == (
        ["A1", "A2", "A2", "B1", "B2", "A2"]
    )
    assert lines.cutting[0].parts[0].goes == "right end, odd courses 1–7"
    assert lines.cutting[1].parts[2].goes == "19 ridge pieces; left end, course 7"
    assert [f"{line.where}: {line.words}" for line in lines.laying] == [
        "courses 1, 3 and 5: B2; 2 whole strips; A1, trim 67 off the right",
        "courses 2, 4 and 6: 2 whole strips; B1, trim 67 off the right",
        "course 7: A2, trim 125 off the left; 2 whole strips; A1, trim 67 off the right",
    ]
    assert (lines.whole, lines.strips, lines.ridge_name) == (28, 42, "A2")
    assert lines.course(2, 7).first == "A2, trim 125 off the left"
    assert over_the_fewest(takeoff) == "42 strips, the fewest (proven): 3 packs."


def test_strips_over_the_fewest_are_said_beside_the_packs() -> None:
    takeoff, _ = _planned(_APEX + 'length = "10 ft"\nspan = "8 ft"')
    assert over_the_fewest(takeoff) == (
        "67 strips, 1 over the fewest (proven): 4 packs either way."
    )
    assert takeoff.strips.laid == takeoff.fewest.strips + 1 + takeoff.strips.edge


def test_every_piece_of_an_octagon_is_laid_once_from_a_part_that_does() -> None:
    takeoff, lines = _planned(_OCTAGON)
    assert takeoff.working
    laid = laid_pieces(takeoff.working, takeoff.rows)
    by_row = {(row.slope, row.course): row.u1 - row.u0 for row in takeoff.rows}
    for each in laid:
        by_row[each.piece.slope, each.piece.course] -= each.piece.length
        assert each.part.length >= each.piece.length
    assert set(by_row.values()) == {0}
    assert takeoff.fixings.shingle_nails == sum(each.piece.cutouts_inside + 2 for each in laid)
    row = lines.course(5, 10).parts[0]
    assert row.kind is PieceKind.ROW
    assert row.words == f"{row.name}, 204 past the hip on the left, 4 past the hip on the right"


def test_names_are_short() -> None:
    assert [letter_of(way) for way in (0, 25, 26, 27)] == ["A", "Z", "AA", "AB"]
    assert courses_words((2,)) == "course 2"
    assert courses_words((1, 2, 3)) == "courses 1–3"
    assert courses_words((2, 4, 6, 8)) == "even courses 2–8"
    assert courses_words((2, 4, 8)) == "courses 2, 4 and 8"
