"""Follow the plan to work by as a roofer would, from its figures alone, and find what does not fit.

It knows nothing of how the plan was made: rows, lattice and nails are worked out here from the
slopes as the rules of setting out have them. Figures are of two decimals, so lengths that add up
may be off by a hundredth each.
"""

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import Any

from domain.coverings.shingle import Shingle
from domain.setting_out.flat_slopes import Slope

_ROUNDED = Fraction(1, 50)


@dataclass(frozen=True)
class RowToLay:
    """A row as section by section of the rules has it, mm."""

    u0: Fraction
    u1: Fraction
    offset: Fraction
    left_loss: Fraction
    right_loss: Fraction


def follow(figures: Mapping[str, Any], slopes: Sequence[Slope], shingle: Shingle) -> None:
    """Cut every strip, lay every row and count what is left over; fails where it does not fit."""
    working = figures["working"]
    rows = {
        (at, course): row
        for at, (slope, told) in enumerate(zip(slopes, figures["slopes"], strict=True), 1)
        for course, row in _rows(slope, told["courses"], shingle)
    }
    cut = Counter[tuple[str, float]]()
    for way in working["cuts"]:
        for part in _cut(way, shingle):
            cut[part] += way["times"]
    taken, whole, pieces, nails = _lay(working["rows"], rows, slopes, shingle)
    ridge = ("run", round(float(shingle.tab), 2))
    taken[ridge] += figures["ridge_pieces"]
    for (kind, length), count in taken.items():
        had = sum(n for (k, mm), n in cut.items() if k == kind and abs(mm - length) <= _ROUNDED)
        assert had >= count, f"{kind} of {length}: {count} are needed, {had} are cut"
    strips = whole + sum(way["times"] for way in working["cuts"])
    assert (working["whole"], working["strips"]) == (whole, strips)
    assert (working["pieces"], working["shingle_nails"]) == (pieces, nails)
    assert working["sheet_lines"] == len(working["cuts"]) + len(working["rows"])
    assert strips >= figures["cut_plan_at_least"]
    assert working["packs"] == figures["packs"]


def _rows(slope: Slope, count: int, shingle: Shingle) -> Iterator[tuple[int, RowToLay]]:
    """The rows of a slope that has so many courses."""
    covered = {
        "top": shingle.height - shingle.cut_out - 50,
        "abutment": Fraction(100),
    }.get(slope.finish.value, shingle.tab / 2)
    gap = slope.length - covered
    eased = 1 + max(0, math.ceil((gap - shingle.final_gauge) / shingle.gauge))
    even = gap / eased
    if even > shingle.final_gauge:
        even = (gap - shingle.final_gauge) / (eased - 1)
    for course in range(1, count + 1):
        v0 = (course - 1) * even
        v1, nailed = min(v0 + shingle.height, slope.length), v0 + shingle.cut_out + 25
        u0 = min(_left(slope, v0), _left(slope, v1))
        u1 = max(_right(slope, v0), _right(slope, v1))
        yield (
            course,
            RowToLay(
                u0,
                u1,
                shingle.tab / 2 if course % 2 else Fraction(0),
                _left(slope, nailed) - u0,
                u1 - _right(slope, nailed),
            ),
        )


def _left(slope: Slope, v: Fraction) -> Fraction:
    return slope.inset * v / slope.length


def _right(slope: Slope, v: Fraction) -> Fraction:
    return slope.eaves + (slope.inset + slope.top - slope.eaves) * v / slope.length


def _cut(way: Mapping[str, Any], shingle: Shingle) -> Iterator[tuple[str, float]]:
    """The parts of a strip, each where such a part can be had from it."""
    ends = [0.0, *way["cuts_mm"], float(shingle.width)]
    assert ends == sorted(set(ends))
    spans = list(pairwise(ends))
    assert len(spans) == len(way["kinds"])
    assert set(way["kinds"]) - {"spare"}, "nothing of it is needed"
    for (begin, end), kind, follower in zip(
        spans, way["kinds"], [*way["kinds"][1:], ""], strict=True
    ):
        on_line = [_is_multiple(each, shingle.tab) for each in (begin, end)]
        if kind == "run":
            assert all(on_line)
        if kind == "right":
            assert on_line == [True, False]
            assert follower in {"left", "spare"}
        if kind == "left":
            assert on_line == [False, True]
        yield kind, round(end - begin, 2)


def _lay(
    lines: Sequence[Mapping[str, Any]],
    rows: Mapping[tuple[int, int], RowToLay],
    slopes: Sequence[Slope],
    shingle: Shingle,
) -> tuple[Counter[tuple[str, float]], int, int, int]:
    """Lay every row once; what parts that takes, whole strips, pieces and nails."""
    left = set(rows)
    taken = Counter[tuple[str, float]]()
    whole = pieces = nails = 0
    for line in lines:
        assert len({slopes[at - 1] for at in line["slopes"]}) == 1, "they are not of one shape"
        for place in ((at, course) for at in line["slopes"] for course in line["courses"]):
            left.remove(place)
            nails += _lay_row(line, rows[place], shingle)
            pieces += len(line["lay_mm"])
            for kind, length in zip(line["kinds"], line["from_mm"], strict=True):
                if (kind, length) == ("run", float(shingle.width)):
                    whole += 1
                else:
                    taken[kind, length] += 1
    assert not left, f"not laid: {sorted(left)}"
    return taken, whole, pieces, nails


def _lay_row(line: Mapping[str, Any], row: RowToLay, shingle: Shingle) -> int:
    """Lay one row from the left, each piece from its part; how many nails it takes."""
    lay, from_, kinds = line["lay_mm"], line["from_mm"], line["kinds"]
    assert abs(row.u1 - row.u0 - sum(map(Fraction, lay))) <= _ROUNDED * len(lay)
    ends = list(accumulate(map(Fraction, lay), initial=row.u0))
    if len(lay) == 1:
        start = (row.u0 - row.offset) % shingle.tab
        assert abs(start - Fraction(line["start_mm"])) <= _ROUNDED
        assert kinds == ["run"]
        assert from_[0] >= lay[0] + line["start_mm"] - _ROUNDED
    else:
        assert "start_mm" not in line
        assert kinds[0] in {"run", "left"}
        assert kinds[-1] in {"run", "right"}
        for joint in ends[1:-1]:
            assert _is_multiple(joint - row.offset, shingle.tab)
        for kind, length, part in list(zip(kinds, lay, from_, strict=True))[1:-1]:
            assert (kind, length, part) == ("run", float(shingle.width), float(shingle.width))
        assert all(part >= length for part, length in zip(from_, lay, strict=True))
        assert _is_firm(row, Fraction(lay[0]), Fraction(lay[-1])) or not _firm_lays(row, shingle)
    assert max(lay) <= shingle.width
    return sum(_cutouts(a, b, row.offset, shingle) + 2 for a, b in pairwise(ends))


def _is_firm(row: RowToLay, left: Fraction, right: Fraction) -> bool:
    """Whether both ends are 100 mm where they are nailed."""
    return min(left - row.left_loss, right - row.right_loss) >= 100 - _ROUNDED


def _firm_lays(row: RowToLay, shingle: Shingle) -> list[Fraction]:
    """The left pieces with which both ends are; a row that one piece does has one such."""
    width, first = row.u1 - row.u0, (row.offset - row.u0) % shingle.tab or shingle.tab
    if shingle.tab - first + width <= shingle.width:
        return [width]
    lefts = (first + count * shingle.tab for count in range(shingle.tabs))
    return [
        left
        for left in lefts
        if left <= shingle.width
        and left < width
        and _is_firm(row, left, (width - left) % shingle.width or shingle.width)
    ]


def _cutouts(begin: Fraction, end: Fraction, offset: Fraction, shingle: Shingle) -> int:
    """Lattice lines strictly inside a piece."""
    first = math.floor((begin + _ROUNDED - offset) / shingle.tab) + 1
    last = math.ceil((end - _ROUNDED - offset) / shingle.tab) - 1
    return max(0, last - first + 1)


def _is_multiple(length: float | Fraction, tab: Fraction) -> bool:
    off = Fraction(length) % tab
    return min(off, tab - off) <= _ROUNDED
