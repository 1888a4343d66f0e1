"""The roof drawn to scale, from its take-off."""

from fractions import Fraction
from math import hypot, sqrt

import pytest
from hypothesis import given
from shapely import Polygon as Area
from shapely import union_all

from domain.cutting.laid import PieceFrom, laid_pieces, names_of
from domain.cutting.plan import PieceKind
from domain.drawing.draw_roof import draw_roof
from domain.drawing.drawing_parts import DrawnPiece
from domain.drawing.figures import Line, Polygon, clip, clip_line, rectangle
from domain.setting_out.kinds import EdgeKind
from domain.takeoff.roof_takeoff import ShingleTakeOff
from tests.domain.drawing.roofs import apex, area, areas, hip, takeoffs
from tests.examples import examples

NONE = Fraction(0)
SQUARE = rectangle(NONE, NONE, Fraction(10), Fraction(10))


def line(u0: int, v0: int, u1: int, v1: int) -> Line:
    return (Fraction(u0), Fraction(v0)), (Fraction(u1), Fraction(v1))


def _laid(takeoff: ShingleTakeOff) -> tuple[PieceFrom, ...]:
    return laid_pieces(takeoff.fewest.ways, takeoff.rows)


@examples(20)
@given(takeoffs())
def test_what_shows_covers_every_slope_once(takeoff: ShingleTakeOff) -> None:
    for slope in draw_roof(takeoff).slopes:
        shown = areas(piece.exposed for course in slope.courses for piece in course.pieces)
        whole = area(slope.outline)
        parts = [*shown, area(slope.closed)]
        near = 1e-6 * whole.area
        assert abs(whole.area - float(slope.slope.area)) < near
        assert abs(sum(part.area for part in parts) - whole.area) < near
        assert abs(union_all(parts).area - whole.area) < near
        assert all(part.difference(whole).area < near for part in parts)


@examples(20)
@given(takeoffs())
def test_every_piece_of_the_plan_is_drawn_once_and_in_its_course(takeoff: ShingleTakeOff) -> None:
    drawing = draw_roof(takeoff)
    assert [drawn.piece for drawn in drawing.pieces] == [each.piece for each in _laid(takeoff)]
    for index, slope in enumerate(drawing.slopes):
        for number, course in enumerate(slope.courses, start=1):
            places = {(drawn.piece.slope, drawn.piece.course) for drawn in course.pieces}
            assert places == {(index, course.number)} == {(index, number)}


@examples(20)
@given(takeoffs())
def test_a_piece_bears_the_name_of_the_pile_it_is_from(takeoff: ShingleTakeOff) -> None:
    plan = takeoff.fewest.ways
    names = names_of(plan)
    for drawn, laid in zip(draw_roof(takeoff).pieces, _laid(takeoff), strict=True):
        assert str(drawn.mark or "") == str(names.get(laid.part, ""))


@examples(20)
@given(takeoffs())
def test_joints_and_cut_outs_stand_on_the_slope_and_break_joint(takeoff: ShingleTakeOff) -> None:
    tab = takeoff.covering.tab
    for slope in draw_roof(takeoff).slopes:
        for course in slope.courses:
            offset = tab / 2 if course.number % 2 else 0
            lines = [*course.joints, *(cut for piece in course.pieces for cut in piece.cut_outs)]
            for (u0, v0), (u1, v1) in lines:
                assert u0 == u1
                assert (u0 - offset) % tab == 0
                assert course.butt <= v0 < v1 <= course.top
                assert slope.slope.left(v0) <= u0 <= slope.slope.right(v0)
                assert slope.slope.left(v1) <= u1 <= slope.slope.right(v1)


@examples(20)
@given(takeoffs())
def test_chalk_lines_run_from_edge_to_edge(takeoff: ShingleTakeOff) -> None:
    for slope, courses in zip(draw_roof(takeoff).slopes, takeoff.courses, strict=True):
        assert tuple(chalk.height for chalk in slope.chalk_lines) == courses.chalk_lines
        for chalk in slope.chalk_lines:
            left, right = slope.slope.left(chalk.height), slope.slope.right(chalk.height)
            ends = ((left, chalk.height), (right, chalk.height))
            assert chalk.line == (ends if left < right else None)


@examples(20)
@given(takeoffs())
def test_closing_pieces_lie_on_the_slope_and_reach_the_whole_edge(takeoff: ShingleTakeOff) -> None:
    for slope in draw_roof(takeoff).slopes:
        whole = area(slope.outline)
        for edge in slope.edges:
            (u0, v0), (u1, v1) = edge.line
            length = hypot(float(u1 - u0), float(v1 - v0))
            closed = edge.kind in {EdgeKind.HIP, EdgeKind.RIDGE}
            assert len(edge.pieces) == (-(-length // 145) if closed else 0)
            along = [_reach_along(edge.line, piece) for piece in edge.pieces]
            assert all(reach <= 145 + 1e-3 for reach in along)
            assert not closed or abs(sum(along) - length) < 1e-3
            assert all(part.difference(whole).area < 1e-6 for part in areas(edge.pieces))


def _reach_along(edge: Line, piece: Polygon) -> float:
    """Return how much of the edge a piece lies against."""
    (u0, v0), (u1, v1) = edge
    on_edge = [(u, v) for u, v in piece if (u1 - u0) * (v - v0) == (v1 - v0) * (u - u0)]
    (ua, va), (ub, vb) = min(on_edge), max(on_edge)
    return hypot(float(ub - ua), float(vb - va))


def test_cut_outs_are_as_many_as_are_nailed_where_the_whole_piece_shows() -> None:
    takeoff = apex()
    for drawn, laid in zip(draw_roof(takeoff).pieces, _laid(takeoff), strict=True):
        piece = laid.piece
        if piece.kind is PieceKind.WHOLE:
            assert len(drawn.cut_outs) == piece.cutouts_inside == takeoff.covering.tabs - 1


def test_hexagonal_tabs_taper_to_half_their_width_at_the_butt() -> None:
    # derived: half of a regular hexagon 333⅓ wide is √3/4 of that high, 144; the cut-out is 140
    takeoff = hip()
    tab, deep = float(takeoff.covering.tab), float(takeoff.covering.cut_out)
    assert abs(sqrt(3) / 4 * tab - deep) < 5
    for slope in draw_roof(takeoff).slopes:
        for course in slope.courses:
            odd, butt = course.number % 2, float(course.butt)
            lattice = [(n + odd / 2) * tab for n in range(-2, 20)]
            away = union_all(
                [
                    Area([(u - tab / 4, butt), (u + tab / 4, butt), (u, butt + deep)])
                    for u in lattice
                ]
            )
            for drawn in course.pieces:
                assert drawn.cut_outs == ()
                shown = union_all(areas([drawn.exposed]))
                cut = union_all(areas(drawn.notches))
                assert cut.symmetric_difference(shown.intersection(away)).area < 1e-3


def test_the_edges_of_an_apex_have_strips_at_eaves_and_verges() -> None:
    for slope in draw_roof(apex()).slopes:
        assert [(edge.kind, edge.has_strip, len(edge.pieces)) for edge in slope.edges] == [
            (EdgeKind.EAVES, True, 0),
            (EdgeKind.VERGE, True, 0),
            (EdgeKind.RIDGE, False, 18),  # derived: ⌈2520 / 145⌉, the closing piece over the last
            (EdgeKind.VERGE, True, 0),
        ]


def test_two_slopes_see_the_pieces_of_their_ridge_at_the_same_places() -> None:
    front, back = (slope.edges[2].pieces for slope in draw_roof(apex()).slopes)
    assert front[0] == rectangle(NONE, Fraction(937), Fraction(145), Fraction(1062))
    assert area(back[0]).equals(area(rectangle(*map(Fraction, (2375, 937, 2520, 1062)))))


def test_a_hip_is_closed_from_the_eaves_up() -> None:
    slope = draw_roof(hip()).slopes[2]
    for edge in (slope.edges[1], slope.edges[2]):
        heights = [max(v for _, v in piece) for piece in edge.pieces]
        assert heights == sorted(heights)
        assert min(v for _, v in edge.pieces[0]) == 0


def test_the_last_course_shows_as_far_as_the_ridge_pieces() -> None:
    # worked example: seven courses of 133.86, half a tab under the ridge
    slope = draw_roof(apex()).slopes[0]
    assert slope.courses[-1].top == 1062 - 125
    assert slope.closed == rectangle(NONE, Fraction(937), Fraction(2520), Fraction(1062))


def test_a_piece_that_is_cut_shows_no_further_than_the_hip() -> None:
    first: DrawnPiece = draw_roof(hip()).slopes[0].courses[0].pieces[0]
    assert len(first.exposed) == 4
    assert first.exposed[0] == (NONE, NONE)
    assert all(u >= v * 1300 / 1501 for u, v in first.exposed)


@pytest.mark.parametrize(
    ("asked", "kept"),
    [
        (line(-5, 5, 15, 5), line(0, 5, 10, 5)),
        (line(5, 15, 5, -5), line(5, 10, 5, 0)),
        (line(0, 0, 10, 0), line(0, 0, 10, 0)),
        (line(4, 4, 16, 12), line(4, 4, 10, 8)),  # past the right side first, the top after it
        (line(16, 12, 4, 4), line(10, 8, 4, 4)),
        (line(-5, 5, 5, -5), None),
        (line(-5, 11, 15, 11), None),
    ],
)
def test_a_line_is_cut_at_the_outline(asked: Line, kept: Line | None) -> None:
    assert clip_line(asked, SQUARE) == kept


def test_what_only_touches_an_outline_has_no_area() -> None:
    beside = rectangle(Fraction(10), NONE, Fraction(20), Fraction(10))
    assert clip(beside, SQUARE) == ()
    assert clip(rectangle(*map(Fraction, (20, 20, 30, 30))), SQUARE) == ()
