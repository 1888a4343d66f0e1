"""The plan to work by in lines ready to be laid out: one a way of cutting, one a way of laying.

Screen and paper show the same lines. Ways of cutting have letters, piles of equal parts a letter
and a number (``A2``); slopes and courses count from 1. Lengths are exact millimetres.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from itertools import accumulate, groupby

from domain.cutting.cut_list import PieceKind
from domain.cutting.laid import PartName, kinds_of, letter_of, names_of
from domain.cutting.working import (
    CutPart,
    LaidPiece,
    PartKind,
    WayOfCutting,
    WayOfLaying,
    WorkingPlan,
)
from domain.exact import half_up
from domain.papers.shared_parts import numbered
from domain.quantity import show_amount
from domain.setting_out.flat_slopes import Slope
from domain.setting_out.kinds import EdgeKind
from domain.takeoff.roof_takeoff import ShingleTakeOff

_ENDS = {
    PieceKind.LEFT: "left end",
    PieceKind.RIGHT: "right end",
    PieceKind.ROW: "whole course",
    PieceKind.WHOLE: "middle",
}
_RAKING = {EdgeKind.HIP, EdgeKind.VALLEY}


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part of a strip, as it is cut."""

    name: str
    """Of its pile: "A1"; empty for what nothing needs."""
    kind: PartKind
    start: Fraction
    """From the strip's left end."""
    end: Fraction
    goes: str
    """What it is for: "left end, courses 1, 3 and 5"; "left over" for what nothing needs."""


@dataclass(frozen=True, slots=True)
class CutLine:
    """Strips that are cut alike."""

    letter: str
    times: int
    """How many strips."""
    parts: tuple[PartLine, ...]
    """From left to right."""

    @property
    def cuts(self) -> tuple[Fraction, ...]:
        """Where it is cut, from its left end."""
        return tuple(part.end for part in self.parts[:-1])

    @property
    def cuts_words(self) -> str:
        """The same in whole millimetres: "250, 625"."""
        return ", ".join(f"{half_up(cut):,}" for cut in self.cuts)


@dataclass(frozen=True, slots=True)
class LaidLine:
    """A piece of a course, or whole strips side by side."""

    name: str
    """Of the pile it is from; empty for a strip that is laid as it comes or trimmed in place."""
    kind: PieceKind
    count: int
    """Over 1 only of whole strips."""
    length: Fraction
    """Of one, as laid."""
    trim_left: Fraction
    """What is cut off its left end in place."""
    trim_right: Fraction
    words: str
    """"A1, trim 20 off the left"; "2 whole strips"; "A1, 20 past the hip on the left"."""


@dataclass(frozen=True, slots=True)
class LayLine:
    """Courses that are laid alike."""

    slopes: tuple[int, ...]
    courses: tuple[int, ...]
    parts: tuple[LaidLine, ...]
    """From left to right."""
    where: str
    """"courses 1, 3 and 5"; the slopes before it where the roof has others."""

    @property
    def words(self) -> str:
        """What is laid, from the left."""
        return "; ".join(part.words for part in self.parts)

    @property
    def first(self) -> str:
        """What lies at the left end."""
        return self.parts[0].words


@dataclass(frozen=True, slots=True)
class WorkLines:
    """Both tables of a plan to work by."""

    cutting: tuple[CutLine, ...]
    laying: tuple[LayLine, ...]
    whole: int
    """Strips that are not cut."""
    strips: int
    """All that are laid in courses, ridges and hips."""
    ridge_name: str
    """Of the pile of ridge and hip pieces; empty where there are none."""
    ridge_pieces: int
    names: Mapping[CutPart, PartName]

    def course(self, slope: int, course: int) -> LayLine:
        """The line by which a course of a slope is laid, both from 1."""
        return next(line for line in self.laying if slope in line.slopes and course in line.courses)


def work_lines(takeoff: ShingleTakeOff, plan: WorkingPlan) -> WorkLines:
    """Lay out a plan of a roof: the one to work by, or that of the fewest strips."""
    names, slopes = names_of(plan), takeoff.roof.slopes
    one_tab = CutPart(PartKind.RUN, takeoff.covering.tab)
    closing = takeoff.ridge_pieces
    uses = {part: tuple(_uses(part, plan, len(slopes))) for part in names}
    if closing:
        uses[one_tab] = (closing_words(takeoff), *uses[one_tab])
    return WorkLines(
        cutting=tuple(
            CutLine(letter_of(index), way.times, tuple(_cut(way, names, uses)))
            for index, way in enumerate(plan.cutting)
        ),
        laying=tuple(_laid(way, names, slopes) for way in plan.laying),
        whole=plan.whole,
        strips=plan.strips,
        ridge_name=str(names[one_tab]) if closing else "",
        ridge_pieces=closing,
        names=names,
    )


def closing_words(takeoff: ShingleTakeOff) -> str:
    """The pieces over ridges and hips: "19 ridge pieces"."""
    what = "ridge and hip piece" if takeoff.roof.hip_runs else "ridge piece"
    return show_amount(Decimal(takeoff.ridge_pieces), what)


def over_the_fewest(takeoff: ShingleTakeOff) -> str:
    """How many strips the plan to work by takes over the fewest, and the packs, which are equal."""
    packs = show_amount(Decimal(takeoff.strips.packs), "pack")
    proven = " (proven)" if takeoff.fewest.proven else ""
    over = takeoff.over_fewest
    if not over:
        return f"{takeoff.strips.cut_plan} strips, the fewest{proven}: {packs}."
    return f"{takeoff.strips.cut_plan} strips, {over} over the fewest{proven}: {packs} either way."


def courses_words(courses: Sequence[int]) -> str:
    """Courses said short: "course 2", "courses 1–4", "courses 1, 3 and 5", "odd courses 1–13"."""
    if len(courses) == 1:
        return f"course {courses[0]}"
    first, last = courses[0], courses[-1]
    if len(courses) > 3 and list(courses) == list(range(first, last + 1, 2)):
        return f"{'odd' if first % 2 else 'even'} courses {first}–{last}"
    return f"courses {numbered(courses)}"


def _where(on: Sequence[int], courses: Sequence[int], slopes: int) -> str:
    """The courses, behind the slopes where the roof has others."""
    if len(on) == slopes:
        return courses_words(courses)
    named = numbered([index + 1 for index in on])
    return f"{'slopes' if len(on) > 1 else 'slope'} {named}, {courses_words(courses)}"


def _cut(
    way: WayOfCutting, names: Mapping[CutPart, PartName], uses: Mapping[CutPart, Sequence[str]]
) -> Iterator[PartLine]:
    ends = tuple(accumulate(part.length for part in way.parts))
    for part, end in zip(way.parts, ends, strict=True):
        goes = "; ".join(uses.get(part, ())) or "left over"
        name = str(names[part]) if part in names else ""
        yield PartLine(name, part.kind, end - part.length, end, goes)


def _uses(part: CutPart, plan: WorkingPlan, slopes: int) -> Iterator[str]:
    """What a part is for: the end of which courses."""
    found: dict[tuple[PieceKind, tuple[int, ...]], set[int]] = {}
    for way in plan.laying:
        for kind, piece in zip(kinds_of(way), way.pieces, strict=True):
            if piece.part == part:
                found.setdefault((kind, way.slopes), set()).update(way.courses)
    for (kind, on), courses in sorted(found.items(), key=lambda use: use[0][1]):
        yield f"{_ENDS[kind]}, {_where(on, sorted(courses), slopes)}"


def _laid(way: WayOfLaying, names: Mapping[CutPart, PartName], slopes: Sequence[Slope]) -> LayLine:
    slope = slopes[way.slopes[0]]
    each = (
        _piece(kind, piece, way.start, names)
        for kind, piece in zip(kinds_of(way), way.pieces, strict=True)
    )
    parts = tuple(_told(laid, sum(1 for _ in alike), slope) for laid, alike in groupby(each))
    where = _where(way.slopes, way.courses, len(slopes))
    return LayLine(tuple(index + 1 for index in way.slopes), way.courses, parts, where)


def _piece(
    kind: PieceKind,
    piece: LaidPiece,
    start: Fraction | None,
    names: Mapping[CutPart, PartName],
) -> LaidLine:
    off = piece.part.length - piece.length
    left = start or Fraction(0) if kind is PieceKind.ROW else off * (kind is PieceKind.LEFT)
    if piece.part not in names and not off:
        kind = PieceKind.WHOLE  # at an end too: it is one with those beside it
    name = str(names[piece.part]) if piece.part in names else ""
    return LaidLine(name, kind, 1, piece.length, left, off - left, "")


def _told(laid: LaidLine, count: int, slope: Slope) -> LaidLine:
    """The piece, as often as it lies there side by side, in words."""
    whole = "a whole strip" if count == 1 else show_amount(Decimal(count), "whole strip")
    trims = (
        _trim(laid.trim_left, "left", slope.left_edge),
        _trim(laid.trim_right, "right", slope.right_edge),
    )
    return replace(laid, count=count, words=", ".join(filter(None, (laid.name or whole, *trims))))


def _trim(off: Fraction, side: str, edge: EdgeKind) -> str:
    """What a piece has too much of at an end; at a raking edge, by how much its foot passes it."""
    if not off:
        return ""
    if edge in _RAKING:
        return f"{half_up(off):,} past the {edge.value} on the {side}"
    return f"trim {half_up(off):,} off the {side}"
