"""The plan to work by: of the plans that need no more packs, the one with the shortest sheet.

Tabs that two pieces share are cut in the middle where that will do, else at as few other places as
will do, unless the cut table then has no room; slopes of one shape are laid alike where that will
do, else course by course where it will. Where nothing was found by a fixed amount of work, it is
the plan of fewest strips. It is not proven to be the shortest.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from domain.coverings.shingle import Shingle
from domain.cutting.alike import AlikeRows, alike_rows
from domain.cutting.fewest import Fewest
from domain.cutting.neat_places import STEPS
from domain.cutting.sheet_model import ChosenLay, SheetModel
from domain.cutting.sheet_patterns import Pattern, run_of
from domain.cutting.sheet_places import every_place, fewest_places
from domain.cutting.working import (
    CutPart,
    LaidPiece,
    PartKind,
    WayOfCutting,
    WayOfLaying,
    WorkingPlan,
)
from domain.integer_programme import Effort, GoesOn, TooLarge, always, search
from domain.setting_out.courses import Row
from domain.setting_out.flat_slopes import Slope

_OVER = 8
"""Strips over the fewest that are looked at: a line of the sheet is worth one."""
_MOST_CUT, _UP_TO = 10, 150
"""Lines of cutting that a sheet has room for, of a roof of up to so many strips: rather than more,
shared tabs are cut at many places."""
_EFFORT, _NEATER_EFFORT = 55_000, 8_000
"""For the shortest sheet, and then for the neatest: at most about 2 s and 0.3 s on two cores."""


@dataclass(frozen=True, slots=True)
class ToCover:
    """A roof as it is to be cut and laid."""

    slopes: tuple[Slope, ...]
    rows: tuple[Row, ...]
    shingle: Shingle
    ridge_pieces: int


def plan_work(
    roof: ToCover, fewest: Fewest, most_strips: int, goes_on: GoesOn = always
) -> WorkingPlan:
    """The shortest sheet from no more than ``most_strips``, at least those of ``fewest``.

    Raises :class:`domain.integer_programme.Stopped` once ``goes_on`` says no.
    """
    strips = fewest.bound, min(most_strips, fewest.strips + _OVER)
    choices = dict.fromkeys(tuple(_alike(roof, tied=tied)) for tied in (True, False))
    effort = Effort(_EFFORT, goes_on)
    for rows in choices:
        for places in _places(rows, roof, strips[1], effort):
            model = _model(rows, roof, strips, places, effort)
            shortest = search(model.shortest(), effort) if model is not None else None
            if model is None or shortest is None:
                continue
            if fewest.strips <= _UP_TO and len(model.strips_cut(shortest)) > _MOST_CUT:
                lines, many = model.lines(shortest), every_place(roof.shingle, STEPS[0])
                wider = _model(rows, roof, strips, many, effort)
                found = search(wider.with_room(_MOST_CUT, lines), effort) if wider else None
                if wider is not None and found is not None:
                    return _as_tables(wider, found, roof)
            neatest = search(model.neatest(shortest), Effort(_NEATER_EFFORT, goes_on))
            return _as_tables(model, neatest or shortest, roof)
    return fewest.ways


def _alike(roof: ToCover, *, tied: bool) -> Iterator[AlikeRows]:
    return alike_rows(roof.slopes, roof.rows, roof.shingle, tied=tied)


def _places(
    rows: Sequence[AlikeRows], roof: ToCover, most: int, effort: Effort
) -> Iterator[tuple[Fraction, ...]]:
    """Sets of places to cut shared tabs at, the ones to be tried first."""
    yield (roof.shingle.half_tab,)
    for step in STEPS:
        with suppress(TooLarge):
            found = fewest_places(rows, roof.shingle, roof.ridge_pieces, most, step, effort)
            if found is not None and len(found) > 1:
                yield found


def _model(
    rows: Sequence[AlikeRows],
    roof: ToCover,
    strips: tuple[int, int],
    places: Sequence[Fraction],
    effort: Effort,
) -> SheetModel | None:
    """What can be chosen; None if that is more than the effort is worth."""
    with suppress(TooLarge):
        return SheetModel(rows, roof.shingle, roof.ridge_pieces, strips, places, effort.most)
    return None


def _as_tables(model: SheetModel, values: Sequence[int], roof: ToCover) -> WorkingPlan:
    chosen, cut = model.laid(values), model.strips_cut(values)
    laying = tuple(sorted(_laid(chosen, roof.shingle), key=lambda way: (way.slopes, way.courses)))
    strip = run_of(roof.shingle.tabs, roof.shingle)
    taken = Counter({run_of(1, roof.shingle): roof.ridge_pieces} if roof.ridge_pieces else {})
    for way in laying:
        for piece in way.pieces:
            taken[piece.part] += way.rows
    cutting: Counter[tuple[CutPart, ...]] = Counter()
    for pattern, times in cut.items():
        cutting[_in_order(pattern, taken)] += times
    whole = taken[strip]
    return WorkingPlan(
        strips=whole + cutting.total(),
        whole=whole,
        cutting=tuple(WayOfCutting(times, parts) for parts, times in cutting.most_common()),
        laying=laying,
    )


def _laid(chosen: Iterable[ChosenLay], shingle: Shingle) -> Iterator[WayOfLaying]:
    """The lines of the laying table: of rows laid in several ways the lowest courses come first."""
    begun: Counter[AlikeRows] = Counter()
    for each in sorted(chosen, key=lambda lay: -lay.count):
        slopes, courses = each.rows.laid(begun[each.rows], each.count)
        begun[each.rows] += each.count
        start = each.rows.start(shingle) if each.lay.row else None
        yield WayOfLaying(slopes, courses, tuple(_pieces(each, shingle)), start)


def _pieces(chosen: ChosenLay, shingle: Shingle) -> Iterator[LaidPiece]:
    """The pieces of a row from left to right."""
    wanted = chosen.rows.wanted(chosen.lay, shingle)
    ends = [
        LaidPiece(each.length, part, each.tabs - 1)
        for each, part in zip(wanted, chosen.parts, strict=True)
    ]
    strip = run_of(shingle.tabs, shingle)
    whole = LaidPiece(shingle.width, strip, shingle.tabs - 1)
    yield ends[0]
    if not chosen.lay.row:
        yield from [whole] * chosen.lay.wholes
        yield ends[1]


def _in_order(pattern: Pattern, taken: Mapping[CutPart, int]) -> tuple[CutPart, ...]:
    """The parts of a strip from left to right: pairs, then runs, what nothing needs at its end."""
    pairs = [item for item in pattern if len(item.parts) > 1]
    runs = [item.parts[0] for item in pattern if len(item.parts) == 1]
    parts = [part for pair in pairs for part in pair.parts]
    parts += [run for run in runs if taken.get(run)]
    spare = sum((run.length for run in runs if not taken.get(run)), Fraction(0))
    if spare:
        parts.append(CutPart(PartKind.SPARE, spare))
    return tuple(parts)
