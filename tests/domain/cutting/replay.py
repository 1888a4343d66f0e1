"""Follow a cut plan as a person would on the roof, and find whatever does not fit."""

import math
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from domain.coverings.shingle import Shingle
from domain.cutting.plan import CutPlan, CutStrip, Part, Piece, PieceKind
from domain.setting_out.courses import Row
from tests.domain.cutting.search import Way, ways

Rows = dict[tuple[int, int], Row]


def replay(plan: CutPlan, rows: Sequence[Row], shingle: Shingle, ridge_pieces: int) -> None:
    """Cut every strip, lay every row, and count the materials used."""
    by_place = {(row.slope, row.course): row for row in rows}
    for strip in plan.cut_list:
        _cut(strip, by_place, shingle)
    _lay(plan, by_place, shingle)
    _count(plan, shingle, ridge_pieces)
    assert plan.bound <= plan.strips
    assert plan.proven == (plan.bound == plan.strips)
    assert plan.proven or not plan.pieces_proven


def _cut(strip: CutStrip, rows: Rows, shingle: Shingle) -> None:
    """A strip's parts follow each other over its whole length, and each can be had from it."""
    assert strip.parts[0].start == 0
    assert strip.parts[-1].end == shingle.width
    assert all(a.end == b.start for a, b in pairwise(strip.parts))
    assert any(part.kind is not PieceKind.SPARE for part in strip.parts)
    ends = {part.end for part in strip.parts[:-1]}
    for part in strip.parts:
        assert part.start < part.end
        assert (part.piece is not None) == (part.kind in {"left", "right", "row", "whole"})
        if part.piece:
            _cut_piece(part, part.piece, rows[part.piece.slope, part.piece.course], shingle)
        if part.kind is PieceKind.RIDGE:
            assert part.end - part.start == part.ridge_pieces * shingle.tab
            ends |= {part.start + i * shingle.tab for i in range(1, part.ridge_pieces)}
        else:
            assert part.ridge_pieces == 0
    assert list(strip.cuts) == sorted(ends)
    trimmed = {part.start for part in strip.parts if part.kind in {"left", "row"}}
    trimmed |= {part.end for part in strip.parts if part.kind in {"right", "row"}}
    assert all(cut % shingle.tab == 0 or cut in trimmed for cut in strip.cuts)
    _share_tabs(strip, shingle)
    _keep_cuts_few(strip, shingle)


def _cut_piece(part: Part, piece: Piece, row: Row, shingle: Shingle) -> None:
    """A piece has its length, and its cut-outs where the lattice of its row has them."""
    assert part.kind is piece.kind
    assert part.end - part.start == piece.u1 - piece.u0
    assert (part.start - (piece.u0 - row.offset)) % shingle.tab == 0
    lines = [line * shingle.tab for line in range(1, shingle.tabs)]
    assert piece.cutouts_inside == sum(part.start < line < part.end for line in lines)
    if piece.kind in {"right", "whole"}:
        assert part.start % shingle.tab == 0
    if piece.kind in {"left", "whole"}:
        assert part.end % shingle.tab == 0


def _share_tabs(strip: CutStrip, shingle: Shingle) -> None:
    """A tab gives one part, or the end of a right piece and then that of a left piece."""
    for tab in range(shingle.tabs):
        start, end = tab * shingle.tab, (tab + 1) * shingle.tab
        kinds = [
            part.kind
            for part in strip.parts
            if part.start < end and part.end > start and part.kind is not PieceKind.SPARE
        ]
        assert len(kinds) <= 1 or kinds == ["right", "left"]


def _keep_cuts_few(strip: CutStrip, shingle: Shingle) -> None:
    """Ridge pieces stand first; left pieces of their own last, with nothing trimmed after them."""
    assert all(part.kind is not PieceKind.RIDGE for part in strip.parts[1:])
    right_tabs = {
        math.ceil(part.end / shingle.tab) for part in strip.parts if part.kind is PieceKind.RIGHT
    }
    if any(
        math.floor(part.start / shingle.tab) + 1 not in right_tabs
        for part in strip.parts
        if part.kind is PieceKind.LEFT
    ):
        assert strip.parts[-1].kind is PieceKind.LEFT


def _lay(plan: CutPlan, rows: Rows, shingle: Shingle) -> None:
    """Every row is covered once from end to end, in one of the lays it allows."""
    laid: dict[tuple[int, int], list[Piece]] = {}
    for piece in plan.pieces:
        laid.setdefault((piece.slope, piece.course), []).append(piece)
    assert list(laid) == sorted(rows)
    for place, pieces in laid.items():
        row = rows[place]
        assert (pieces[0].u0, pieces[-1].u1) == (row.u0, row.u1)
        assert all(a.u1 == b.u0 for a, b in pairwise(pieces))
        assert all((piece.u1 - row.offset) % shingle.tab == 0 for piece in pieces[:-1])
        assert all(p.u1 - p.u0 == shingle.width for p in pieces if p.kind is PieceKind.WHOLE)
        _is_allowed(pieces, row, shingle)


def _is_allowed(pieces: Sequence[Piece], row: Row, shingle: Shingle) -> None:
    """The pieces of a row are one of its lays, the least widths and their exception included."""
    kinds = [piece.kind.value for piece in pieces]
    allowed = ways(row, shingle)
    if kinds == ["row"]:
        assert any(way.ones for way in allowed)
        return
    assert kinds == ["left", *(["whole"] * (len(kinds) - 2)), "right"]
    left, right = (piece.u1 - piece.u0 for piece in (pieces[0], pieces[-1]))
    assert Way((left,), (right,), wholes=len(kinds) - 2) in allowed


def _count(plan: CutPlan, shingle: Shingle, ridge_pieces: int) -> None:
    """Each piece comes from one strip, and the strips are as many as the plan says."""
    parts = [part for strip in plan.cut_list for part in strip.parts]
    cut = Counter(part.piece for part in parts if part.piece)
    assert set(cut.values()) <= {1}
    uncut = Counter(plan.pieces) - cut
    assert uncut.total() + cut.total() == len(plan.pieces)
    assert uncut.total() == plan.whole_strips
    assert all(piece.u1 - piece.u0 == shingle.width for piece in uncut)
    assert plan.strips == plan.whole_strips + len(plan.cut_list)
    assert plan.ridge_pieces == ridge_pieces == sum(part.ridge_pieces for part in parts)
    first = [
        min(((p.piece.slope, p.piece.course) for p in strip.parts if p.piece), default=None)
        for strip in plan.cut_list
    ]
    courses = [place for place in first if place]
    assert courses == sorted(courses)
    assert first[len(courses) :] == [None] * (len(first) - len(courses))
