"""Slopes and pieces in terminal cells: to scale, each found where it is drawn, each told apart."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.segment import Segment

from domain.coverings.felt import FELT
from domain.cutting.plan import PieceKind
from domain.drawing.draw_roof import draw_roof
from domain.drawing.drawing_parts import Drawing
from domain.drawing.side_by_side import shelve
from domain.exact import half_up
from domain.takeoff.roof_takeoff import ShingleTakeOff, take_off
from tests.domain.drawing.roofs import apex, hip, takeoffs
from tests.examples import examples
from tui.frame.theme import DAY, EVENING, Palette
from tui.roof.cell_layout import MARGIN, Plate, plate
from tui.roof.colours import HATCHES, Chosen, hatch_of
from tui.roof.painter import Painter
from tui.roof.small_drawing import small_roof_lines

WIDE = 200


def at(drawing: Drawing, lines_a_course: Fraction | int, width: int = WIDE) -> Plate:
    return plate(drawing, drawing.slopes[0].exposure / lines_a_course, width)


def painted(shown: Plate, palette: Palette = EVENING, chosen: Chosen | None = None) -> list[str]:
    """The text of every line of every slope."""
    told: list[str] = []
    for slope in shown.slopes:
        painter = Painter(slope, palette, chosen or Chosen())
        told += ["".join(s.text for s in painter.line(y)) for y in range(-1, slope.lines + 1)]
    return told


def segments(shown: Plate, chosen: Chosen) -> list[Segment]:
    slope = shown.slopes[0]
    painter = Painter(slope, EVENING, chosen)
    return [segment for y in range(slope.lines) for segment in painter.line(y)]


def test_the_sides_of_hexagonal_tabs_slant_and_square_ones_stand_upright() -> None:
    tabs = [line for line in painted(at(draw_roof(hip()), 4)) if "╱" in line and "╲" in line]
    assert len(tabs) > 20
    assert not any("╷" in line for line in tabs)
    assert any("╷" in line for line in painted(at(draw_roof(apex()), 4)))


@examples(20)
@given(takeoffs())
def test_a_piece_is_found_in_the_cells_it_is_drawn_in(takeoff: ShingleTakeOff) -> None:
    shown = at(draw_roof(takeoff), 1)
    for slope in shown.slopes:
        for line in range(slope.lines):
            for span in slope.spans(slope.height(line)):
                x, y = slope.x + span.start, slope.y + line
                assert shown.piece(x, y) is shown.piece(slope.x + span.end - 1, y) is span.drawn
                column, top, columns, lines = shown.cells(span.drawn) or (0, 0, 0, 0)
                assert column <= x < column + columns
                assert top <= y < top + lines


@pytest.mark.parametrize("takeoff", [apex(), hip()])
@pytest.mark.parametrize("lines_a_course", [1, 2, 3])
def test_every_piece_of_a_shed_is_on_the_plate_and_no_cell_has_two(
    takeoff: ShingleTakeOff, lines_a_course: int
) -> None:
    drawing = draw_roof(takeoff)
    shown = at(drawing, lines_a_course)
    found = set()
    for slope in shown.slopes:
        for line in range(slope.lines):
            spans = [*slope.spans(slope.height(line))]
            assert all(a.end == b.start for a, b in pairwise(spans))
            found |= {id(shown.piece(slope.x + span.start, slope.y + line)) for span in spans}
    assert {id(drawn) for drawn in drawing.pieces} <= found


def test_a_piece_of_one_cell_has_that_cell() -> None:
    wide = set()
    for slope in at(draw_roof(apex()), Fraction(1, 4)).slopes:
        for line in range(slope.lines):
            spans = [*slope.spans(slope.height(line))]
            taken = [cell for span in spans for cell in range(span.start, span.end)]
            assert taken == [*range(slope.columns)]
            wide |= {span.end - span.start for span in spans}
    assert 1 in wide


@pytest.mark.parametrize("takeoff", [apex(), hip()])
@pytest.mark.parametrize("lines_a_course", [Fraction(1, 2), 1, 2, 6])
def test_a_roof_is_drawn_to_scale(takeoff: ShingleTakeOff, lines_a_course: Fraction | int) -> None:
    # a cell is taken for twice as high as it is wide
    shown = at(draw_roof(takeoff), lines_a_course)
    for slope in shown.slopes:
        assert abs(slope.lines * slope.mm - slope.drawn.slope.length) <= slope.mm / 2
        assert abs(slope.columns * slope.mm / 2 - slope.drawn.slope.eaves) <= slope.mm / 4


def test_slopes_stand_side_by_side_as_far_as_the_width_goes() -> None:
    drawing = draw_roof(apex())
    apart = at(drawing, 1, width=60).slopes
    together = at(drawing, 1, width=120).slopes
    assert apart[0].x == apart[1].x
    assert apart[0].y < apart[1].y
    assert together[0].x < together[1].x
    assert together[0].y == together[1].y


def test_boxes_of_a_row_stand_on_one_line_at_their_feet() -> None:
    boxes = [(4, 2), (5, 3), (3, 1), (20, 2), (1, 1)]
    assert [*shelve(boxes, 12)] == [(0, 1), (4, 0), (9, 2), (0, 3), (0, 5)]


@pytest.mark.parametrize("takeoff", [apex(), hip()])
def test_every_cut_piece_has_its_mark_and_a_hatch(takeoff: ShingleTakeOff) -> None:
    drawing = draw_roof(takeoff)
    told = "\n".join(painted(at(drawing, 3)))
    marks = [str(piece.mark) for piece in drawing.pieces if piece.mark]
    assert [mark for mark in marks if mark not in told] == []
    assert {HATCHES[kind] in told for kind in (PieceKind.LEFT, PieceKind.RIGHT)} == {True}


def test_a_narrow_piece_is_marked_in_the_few_cells_it_has() -> None:
    told = painted(at(draw_roof(apex()), 1))
    assert any("▐B2│" in line for line in told)  # 125 mm are two cells: pile B2


def test_every_chalk_line_is_told_in_millimetres_beside_the_slope() -> None:
    # worked example: the lines of an apex of 1062 up
    told = painted(at(draw_roof(apex()), 2))
    labels = [line[: MARGIN - 1].strip() for line in told]
    measures = ["1,062", "1,009", "875", "742", "608", "474", "340"]
    assert [label for label in labels if label] == measures * 2


@pytest.mark.parametrize("lines_a_course", [1, 2])
@pytest.mark.parametrize("roof", [apex, hip])
def test_a_chalk_line_is_told_where_it_lies_and_only_the_uppermost_makes_room(
    roof: Callable[[], ShingleTakeOff], lines_a_course: int
) -> None:
    for slope in at(draw_roof(roof()), lines_a_course).slopes:
        lies = {words: line for line, words in slope.chalk.items()}
        assert list(lies) == [f"{half_up(c.height):,}" for c in slope.drawn.chalk_lines]
        *lower, uppermost = slope.drawn.chalk_lines
        for chalk in lower:
            from_eaves = slope.lines - 1 - lies[f"{half_up(chalk.height):,}"]
            assert from_eaves * slope.mm <= chalk.height < (from_eaves + 1) * slope.mm
        assert lies[f"{half_up(uppermost.height):,}"] in (-1, 0)


def test_small_roofs_are_drawn_in_half_blocks_without_words_inside() -> None:
    told = painted(at(draw_roof(apex()), Fraction(1, 2)))
    lines = [line for line in told if "▀" in line and "eaves" not in line]
    assert lines != []
    assert all(set(line) <= {" ", "▀", "▄"} for line in lines)


def test_what_is_chosen_stands_on_the_accent() -> None:
    drawing = draw_roof(apex())
    shown, mark = at(drawing, 2), next(drawn.mark for drawn in drawing.pieces if drawn.mark)
    plain = {s.style.bgcolor.name for s in segments(shown, Chosen()) if s.style and s.style.bgcolor}
    marked = [
        s.text
        for s in segments(shown, Chosen(frozenset({mark})))
        if s.style and s.style.bgcolor and s.style.bgcolor.name == EVENING.verdigris
    ]
    assert EVENING.verdigris not in plain
    assert str(mark) in "".join(marked)


def test_day_and_evening_show_the_same_signs() -> None:
    shown = at(draw_roof(hip()), 2)
    assert painted(shown, DAY) == painted(shown, EVENING)


@examples(20)
@given(takeoffs(), st.integers(1, 40), st.integers(1, 30))
def test_a_small_roof_stays_within_its_room(
    takeoff: ShingleTakeOff, width: int, height: int
) -> None:
    lines = small_roof_lines(draw_roof(takeoff).slopes, width, height, EVENING)
    assert len(lines) <= height
    assert all(line.cell_len <= width for line in lines)


def test_a_small_roof_shows_every_course() -> None:
    # derived: seven courses and the ridge in half lines
    *roof, below = (
        line.plain for line in small_roof_lines(draw_roof(apex()).slopes, 30, 20, EVENING)
    )
    assert [set(line) for line in roof] == [{"▀"}] * 4
    assert below.strip() == "× 2"


@pytest.mark.parametrize(("width", "height"), [(30, 3), (30, 1), (1, 30), (1, 1)])
def test_no_roof_is_drawn_where_it_would_be_a_bar(width: int, height: int) -> None:
    assert small_roof_lines(draw_roof(hip()).slopes, width, height, EVENING) == []


def test_a_strip_that_is_not_cut_has_no_hatch() -> None:
    left = next(p for p in draw_roof(apex()).pieces if p.piece.kind is PieceKind.LEFT)
    assert hatch_of(left) == HATCHES[PieceKind.LEFT]
    assert hatch_of(replace(left, mark=None)) == " "


def test_a_row_of_felt_is_marked_at_its_lower_edge_beside_its_chalk_line() -> None:
    # derived: the second row begins 925 − 50 up a slope of 1,062
    drawing = draw_roof(take_off(apex().roof, FELT))
    for lines_a_row in (6, 12, 18):
        told = painted(at(drawing, lines_a_row))
        at_line = next(line for line in told if " 875" in line)
        assert "1b" in at_line
    assert any("capping over the ridge" in line for line in told)


def test_slopes_that_are_alike_are_drawn_small_but_once() -> None:
    small = [line.plain for line in small_roof_lines(draw_roof(hip()).slopes, 48, 9, EVENING)]
    assert small[-1].split() == ["×", "2", "×", "2"]
    assert len(small) > 5
