"""From counts to a cut list: which row takes which lay, and what is cut from which strip.

The cut plan says only how many; here each count becomes pieces with places, in the order in which
the courses go on, so that what is cut from one strip is laid as soon after as the plan allows.
Lengths are exact millimetres.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeVar

from domain.coverings.shingle import Shingle
from domain.cutting.lays import Lay, RowClass
from domain.cutting.model import CountedPlan
from domain.cutting.sharing import End
from domain.setting_out.courses import Row

Counted = TypeVar("Counted")


class PieceKind(StrEnum):
    """What a part of a strip is used for."""

    LEFT = "left"
    RIGHT = "right"
    WHOLE = "whole"
    ROW = "row"
    """A row in one piece."""
    RIDGE = "ridge"
    """Ridge and hip pieces, one tab each."""
    SPARE = "spare"
    """What nothing needs: whole tabs, or what is trimmed off a piece."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a row, where it is laid; ridge pieces are not among them."""

    kind: PieceKind
    slope: int
    course: int
    u0: Fraction
    """Left end, from the slope's left eaves corner."""
    u1: Fraction
    """Right end."""
    tabs: int
    """Tabs it is cut from, the trimmed ones included."""

    @property
    def length(self) -> Fraction:
        """Millimetres along the course."""
        return self.u1 - self.u0

    @property
    def cutouts_inside(self) -> int:
        """Cut-outs strictly inside it: it is nailed above each, and near each end."""
        return self.tabs - 1


@dataclass(frozen=True, slots=True)
class Part:
    """A length of a strip that is cut, and where it goes."""

    kind: PieceKind
    start: Fraction
    """From the strip's left end."""
    end: Fraction
    piece: Piece | None = None
    """Where it is laid; None for ridge pieces and spare."""
    ridge_pieces: int = 0


@dataclass(frozen=True, slots=True)
class CutStrip:
    """A strip that is cut: its parts from left to right, end to end over its whole length."""

    parts: tuple[Part, ...]
    cuts: tuple[Fraction, ...]
    """Where it is cut, from its left end."""


@dataclass(frozen=True, slots=True)
class Run:
    """Tabs side by side, and the pieces they give; a run that gives none is a ridge piece."""

    tabs: int
    places: tuple[tuple[Fraction, Piece], ...] = ()
    """Each piece, behind its distance from the run's left end."""

    @property
    def first_used(self) -> tuple[int, ...]:
        """Sorts runs as they are laid; ridge pieces come after every course."""
        return min(((0, piece.slope, piece.course) for _, piece in self.places), default=(1,))

    @property
    def is_left(self) -> bool:
        """Whether it gives a left piece alone."""
        return [piece.kind for _, piece in self.places] == [PieceKind.LEFT]

    @property
    def is_right(self) -> bool:
        """Whether it gives a right piece alone."""
        return [piece.kind for _, piece in self.places] == [PieceKind.RIGHT]

    @property
    def order(self) -> tuple[bool, bool]:
        """Sorts the runs of a strip from left to right so that few cuts part them.

        Right pieces stand late and left pieces last, so that what is trimmed off both lies in
        between and comes away in one.
        """
        return self.is_left, self.is_right


def cut_list_of(
    choice: CountedPlan, shingle: Shingle, ridge_pieces: int
) -> tuple[tuple[Piece, ...], tuple[CutStrip, ...]]:
    """Every piece of every row, and every strip they and the ridge pieces come from.

    Pieces stand by slope, course and from left to right; strips in the order in which their first
    part is laid.
    """
    laid = sorted(_rows_laid(choice, shingle), key=lambda row: (row[1][0].slope, row[1][0].course))
    runs = [Run(1)] * ridge_pieces + list(_runs(laid, choice, shingle))
    strips = sorted(_strips(runs, choice), key=lambda strip: min(run.first_used for run in strip))
    pieces = tuple(piece for _, row in laid for piece in row)
    return pieces, tuple(_cut(strip, shingle) for strip in strips)


def _rows_laid(choice: CountedPlan, shingle: Shingle) -> Iterator[tuple[RowClass, list[Piece]]]:
    """Each row's pieces from left to right, beside its class; the lays of a class take turns."""
    for rows, counts in choice.lays:
        lays = _in_turn(zip(rows.lays, counts, strict=True))
        for row, lay in zip(rows.rows, lays, strict=True):
            yield rows, list(_pieces(row, rows.lead, lay, shingle))


def _pieces(row: Row, lead: Fraction, lay: Lay, shingle: Shingle) -> Iterator[Piece]:
    """The pieces of one row from left to right."""
    if lay.row:
        yield Piece(PieceKind.ROW, row.slope, row.course, row.u0, row.u1, lay.row)
        return
    joint = row.u0 + lead + (lay.left - 1) * shingle.tab
    yield Piece(PieceKind.LEFT, row.slope, row.course, row.u0, joint, lay.left)
    for _ in range(lay.wholes):
        start, joint = joint, joint + shingle.width
        yield Piece(PieceKind.WHOLE, row.slope, row.course, start, joint, shingle.tabs)
    yield Piece(PieceKind.RIGHT, row.slope, row.course, joint, row.u1, lay.right)


def _runs(
    laid: Sequence[tuple[RowClass, list[Piece]]], choice: CountedPlan, shingle: Shingle
) -> Iterator[Run]:
    """The runs that the pieces take: one of its own, or one for a right and a left piece."""
    waiting: dict[tuple[PieceKind, End], deque[Run]] = {}
    for rows, pieces in laid:
        for piece in pieces:
            run = _own_run(piece, rows.lead, shingle)
            filled = rows.lead if piece.kind is PieceKind.LEFT else rows.tail
            waiting.setdefault((piece.kind, End(piece.tabs, filled)), deque()).append(run)
    for share in _in_turn(choice.shares):
        right = waiting[PieceKind.RIGHT, share.right].popleft()
        left = waiting[PieceKind.LEFT, share.left].popleft()
        moved = (share.tabs - left.tabs) * shingle.tab
        ((at, piece),) = left.places
        yield Run(share.tabs, (*right.places, (at + moved, piece)))
    yield from (run for runs in waiting.values() for run in runs)


def _own_run(piece: Piece, lead: Fraction, shingle: Shingle) -> Run:
    """The run of a piece that shares no tab.

    A piece with the row's left end is trimmed there, since its joints stand at the tab lines.
    """
    trimmed = piece.kind in {PieceKind.LEFT, PieceKind.ROW}
    at = shingle.tab - lead if trimmed else Fraction(0)
    return Run(piece.tabs, ((at, piece),))


def _strips(runs: Sequence[Run], choice: CountedPlan) -> Iterator[list[Run]]:
    """The runs that each strip is cut into, those laid first from the first strips."""
    waiting: dict[int, deque[Run]] = {}
    for run in sorted(runs, key=lambda run: run.first_used):
        waiting.setdefault(run.tabs, deque()).append(run)
    for pattern in _in_turn(choice.patterns):
        strip = [waiting[size].popleft() for size in pattern if waiting.get(size)]
        if strip:
            yield strip


def _cut(runs: Sequence[Run], shingle: Shingle) -> CutStrip:
    """One strip: its runs from left to right, spare tabs before the left pieces at its end."""
    parts = tuple(_with_spare(list(_used(runs, shingle)), shingle.width))
    cuts = {part.start for part in parts}
    cuts |= {part.start + i * shingle.tab for part in parts for i in range(part.ridge_pieces)}
    return CutStrip(parts, tuple(sorted(cuts - {Fraction(0)})))


def _used(runs: Sequence[Run], shingle: Shingle) -> Iterator[Part]:
    """The parts of a strip that are laid, from left to right."""
    at = Fraction(0)
    spare = shingle.width - sum(run.tabs for run in runs) * shingle.tab
    if ridge := sum(not run.places for run in runs):
        at = ridge * shingle.tab
        yield Part(PieceKind.RIDGE, Fraction(0), at, ridge_pieces=ridge)
    for run in sorted((run for run in runs if run.places), key=lambda run: run.order):
        if run.is_left:
            at, spare = at + spare, Fraction(0)
        for offset, piece in run.places:
            start = at + offset
            yield Part(piece.kind, start, start + piece.length, piece)
        at += run.tabs * shingle.tab


def _with_spare(parts: Sequence[Part], width: Fraction) -> Iterator[Part]:
    """The parts, and what is spare between and after them."""
    at = Fraction(0)
    for part in parts:
        if part.start > at:
            yield Part(PieceKind.SPARE, at, part.start)
        yield part
        at = part.end
    if at < width:
        yield Part(PieceKind.SPARE, at, width)


def _in_turn(counted: Iterable[tuple[Counted, int]]) -> Iterator[Counted]:
    """Each thing as often as it is counted, evenly mixed: 4 a and 2 b are a b a a b a."""
    turns = [
        (Fraction(2 * k + 1, 2 * count), index, thing)
        for index, (thing, count) in enumerate(counted)
        for k in range(count)
    ]
    return (thing for *_, thing in sorted(turns, key=lambda turn: turn[:2]))
