"""A roof in felt drawn to scale, from its take-off."""

from collections import defaultdict
from fractions import Fraction
from itertools import islice, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import union_all

from domain.coverings.felt import FELT
from domain.drawing.draw_roof import draw_roof
from domain.drawing.drawing_parts import Drawing
from domain.drawing.figures import rectangle
from domain.drawing.marks import each_letter
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.kinds import EdgeKind, RoofForm
from domain.takeoff.felt_takeoff import take_off_felt
from domain.takeoff.packing import Packing
from tests.domain.drawing.roofs import apex, area, areas, hip
from tests.examples import examples
from tests.strategies import slopes

RISE = 925  # mm: rows of 1 m that lap 75, common practice
TURNED_DOWN = 50


@st.composite
def drawings(draw: st.DrawFn) -> Drawing:
    """Give the drawing of one or two slopes of any shape, from long rolls or short ones."""
    roof = Roof(RoofForm.APEX, tuple(draw(st.lists(slopes(), min_size=1, max_size=2))), (), None)
    roll = draw(st.sampled_from([Fraction(3000), Fraction(10_000), Fraction(20_000)]))
    return draw_roof(take_off_felt(roof, FELT, Packing(felt_roll=roll)))


@examples(20)
@given(drawings())
def test_what_shows_covers_every_slope_once(drawing: Drawing) -> None:
    for slope in drawing.slopes:
        shown = areas(each.exposed for row in slope.courses for each in row.pieces)
        whole = area(slope.outline)
        assert all(part.is_valid for part in shown)
        assert sum(part.area for part in shown) == pytest.approx(whole.area)
        assert union_all(shown).symmetric_difference(whole).area == pytest.approx(0, abs=1)


@examples(20)
@given(drawings())
def test_no_roll_gives_more_than_it_has_and_no_mark_is_written_twice(drawing: Drawing) -> None:
    off: defaultdict[int, Fraction] = defaultdict(Fraction)
    for each in drawing.pieces:
        assert each.mark is not None
        off[each.mark.strip] += each.piece.length
    assert max(off.values()) <= drawing.takeoff.packing.felt_roll
    marks = [each.mark for each in drawing.pieces]
    assert len(set(marks)) == len(marks)


@examples(20)
@given(drawings())
def test_a_length_reaches_under_the_next_by_the_end_lap(drawing: Drawing) -> None:
    for slope in drawing.slopes:
        for row in slope.courses:
            for each, after in pairwise(row.pieces):
                assert each.piece.u1 == after.piece.u0
                assert each.piece.length - (each.piece.u1 - each.piece.u0) == FELT.end_lap
            last = row.pieces[-1].piece
            assert last.length == last.u1 - last.u0


@examples(20)
@given(drawings())
def test_rows_lie_to_chalk_lines_at_their_lower_edges(drawing: Drawing) -> None:
    for slope in drawing.slopes:
        lows = [row.set_to for row in slope.courses]
        assert lows == [RISE * row - TURNED_DOWN for row in range(len(lows))]
        assert [chalk.height for chalk in slope.chalk_lines] == lows[1:]
        for chalk in slope.chalk_lines:
            left, right = slope.slope.left(chalk.height), slope.slope.right(chalk.height)
            ends = ((left, chalk.height), (right, chalk.height)) if left < right else None
            assert chalk.line == ends


def test_the_capping_reaches_half_its_width_down_both_slopes_of_a_ridge() -> None:
    drawing = draw_roof(take_off_felt(apex().roof, FELT, Packing()))
    half = rectangle(Fraction(0), Fraction(1062 - 150), Fraction(2520), Fraction(1062))
    for slope in drawing.slopes:
        assert [(edge.kind, edge.has_strip) for edge in slope.edges if edge.pieces] == [
            (EdgeKind.RIDGE, False)
        ]
        [capping] = slope.edges[2].pieces
        assert area(capping).equals(area(half))


def test_the_capping_of_a_hip_lies_on_the_slope_along_all_of_it() -> None:
    drawing = draw_roof(take_off_felt(hip().roof, FELT, Packing()))
    for slope in drawing.slopes:
        whole = area(slope.outline)
        for edge in slope.edges:
            if edge.kind is EdgeKind.HIP:
                [capping] = areas(edge.pieces)
                assert capping.difference(whole).area == pytest.approx(0, abs=1)
                assert capping.area > 0


def test_letters_go_on_after_z() -> None:
    letters = [*islice(each_letter(), 54)]
    assert letters[:2] == ["a", "b"]
    assert letters[25:28] == ["z", "aa", "ab"]
    assert letters[52:] == ["ba", "bb"]
