"""The plan of fewest strips in the form of the plan to work by: its ways of cutting and laying."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from domain.coverings.shingle import Shingle
from domain.cutting.cut_list import CutStrip, Part, Piece, PieceKind
from domain.cutting.neat_places import Window, neat_places
from domain.cutting.plan import CutPlan
from domain.cutting.sheet_patterns import run_of
from domain.cutting.working import (
    CutPart,
    LaidPiece,
    PartKind,
    WayOfCutting,
    WayOfLaying,
    WorkingPlan,
)
from domain.setting_out.flat_slopes import Slope


def working_from(plan: CutPlan, slopes: Sequence[Slope], shingle: Shingle) -> WorkingPlan:
    """The ways in which a plan cuts its strips and lays its rows, those that are alike as one."""
    parts_of: dict[Piece, CutPart] = {}
    cutting: Counter[tuple[CutPart, ...]] = Counter()
    windows = (window for strip in plan.cut_list for window in _shared(strip, shingle.tab))
    places = neat_places(windows, shingle.half_tab)
    for strip in plan.cut_list:
        parts = tuple(_parts(strip, shingle, places, parts_of))
        cutting[parts] += 1
    uncut = (run_of(shingle.tabs, shingle),)
    trimmed = cutting.pop(uncut, 0)
    return WorkingPlan(
        strips=plan.strips,
        whole=plan.whole_strips + trimmed,
        cutting=tuple(WayOfCutting(times, parts) for parts, times in cutting.most_common()),
        laying=tuple(_laying(plan, slopes, shingle, parts_of)),
    )


def _used(strip: CutStrip) -> Sequence[tuple[Part, Part | None]]:
    """The parts that are needed, each with the next."""
    used = [part for part in strip.parts if part.kind is not PieceKind.SPARE]
    return tuple(zip(used, [*used[1:], None], strict=True))


def _window(part: Part, follower: Part | None, tab: Fraction) -> Window | None:
    """Where the tab that a part shares with the next may be cut; None if they share none."""
    if follower is None or part.piece is None or follower.start // tab * tab >= part.end:
        return None
    return part.end % tab, follower.start % tab


def _shared(strip: CutStrip, tab: Fraction) -> Iterator[Window]:
    yield from filter(None, (_window(*each, tab) for each in _used(strip)))


def _parts(
    strip: CutStrip,
    shingle: Shingle,
    places: Mapping[Window, Fraction],
    parts_of: dict[Piece, CutPart],
) -> Iterator[CutPart]:
    """The parts of a strip from left to right, trimming left to be done in place.

    What each piece is from is written into ``parts_of``.
    """
    tab, at = shingle.tab, Fraction(0)
    for part, follower in _used(strip):
        # Where it shares its first tab with the part before, it begins where that one ends.
        begin, end = max(at, part.start // tab * tab), -(-part.end // tab) * tab
        if begin > at:
            yield CutPart(PartKind.SPARE, begin - at)
        if part.piece is None:
            for _ in range(part.ridge_pieces):
                yield run_of(1, shingle)
            at = end
            continue
        if begin % tab:
            cut = CutPart(PartKind.LEFT, end - begin)
        elif (window := _window(part, follower, tab)) is not None:
            end = part.end // tab * tab + places[window]
            cut = CutPart(PartKind.RIGHT, end - begin)
        else:
            cut = CutPart(PartKind.RUN, end - begin)
        parts_of[part.piece] = cut
        yield cut
        at = end
    if at < shingle.width:
        yield CutPart(PartKind.SPARE, shingle.width - at)


def _laying(
    plan: CutPlan,
    slopes: Sequence[Slope],
    shingle: Shingle,
    parts_of: Mapping[Piece, CutPart],
) -> Iterator[WayOfLaying]:
    """Rows laid alike on slopes of one shape, those of the same courses together."""
    ways: dict[tuple[Slope, tuple[LaidPiece, ...], Fraction | None], dict[int, list[int]]] = {}
    for (slope, course), row in groupby(plan.pieces, key=lambda piece: (piece.slope, piece.course)):
        pieces = tuple(row)
        laid = tuple(_laid(piece, shingle, parts_of) for piece in pieces)
        alone = pieces[0].kind is PieceKind.ROW
        start = pieces[0].u0 % shingle.tab if alone else None
        if start is not None and course % 2:
            start = (pieces[0].u0 - shingle.half_tab) % shingle.tab
        by_course = ways.setdefault((slopes[slope], laid, start), defaultdict(list))
        by_course[course].append(slope)
    lines = [
        WayOfLaying(on, courses, laid, start)
        for (_, laid, start), by_course in ways.items()
        for on, courses in _together(by_course)
    ]
    yield from sorted(lines, key=lambda way: (way.slopes, way.courses))


def _together(
    by_course: Mapping[int, Iterable[int]],
) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Slopes, and the courses that are laid so on all of them."""
    by_slopes: dict[tuple[int, ...], list[int]] = {}
    for course, on in by_course.items():
        by_slopes.setdefault(tuple(on), []).append(course)
    return ((on, tuple(sorted(courses))) for on, courses in by_slopes.items())


def _laid(piece: Piece, shingle: Shingle, parts_of: Mapping[Piece, CutPart]) -> LaidPiece:
    whole = run_of(shingle.tabs, shingle)
    return LaidPiece(piece.length, parts_of.get(piece, whole), piece.cutouts_inside)
