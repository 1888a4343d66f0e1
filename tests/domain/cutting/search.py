"""Every lay, every sharing of tabs and every packing, tried one after another.

Nothing here is taken from the cut plan: lays are walked along the row, not counted in classes, and
strips are filled piece by piece. It is slow, and meant for roofs of a few rows.
"""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache
from itertools import combinations, product
from typing import NamedTuple

from domain.coverings.shingle import Shingle
from domain.setting_out.courses import Row

Lengths = tuple[Fraction, ...]


class Way(NamedTuple):
    """The pieces of a row, or of some rows together."""

    lefts: Lengths = ()
    rights: Lengths = ()
    ones: Lengths = ()
    """Rows in one piece, from the tab line before them."""
    wholes: int = 0


def ways(row: Row, shingle: Shingle) -> list[Way]:
    """Every allowed lay of a row, found by walking the lattice."""
    line = next(u for u in _lattice(row, shingle) if u > row.u0)
    before = row.u1 - (line - shingle.tab)
    one = [Way(ones=(before,))] if before <= shingle.width else []
    several = list(_several(row, shingle))
    firm = [
        way
        for way in several
        if way.lefts[0] - row.left_loss >= 100 and way.rights[0] - row.right_loss >= 100
    ]
    return one + firm or several


def fewest(rows: Sequence[Row], shingle: Shingle, ridge_pieces: int) -> tuple[int, int]:
    """The fewest strips, and the fewest pieces with so few."""
    return min(
        (strips, pieces)
        for mixture, pieces in _mixtures(rows, shingle)
        for strips in _strips(mixture, shingle, ridge_pieces)
    )


def _lattice(row: Row, shingle: Shingle) -> Iterator[Fraction]:
    """The lattice from just before the row's left end, rightwards."""
    first = math.floor((row.u0 - row.offset) / shingle.tab)
    return (row.offset + (first + i) * shingle.tab for i in range(10_000))


def _several(row: Row, shingle: Shingle) -> Iterator[Way]:
    """The lays with a left and a right piece."""
    for joint in _lattice(row, shingle):
        if joint >= row.u1 or joint - row.u0 > shingle.width:
            return
        right, wholes = row.u1 - joint, 0
        while right > shingle.width:
            right, wholes = right - shingle.width, wholes + 1
        if joint > row.u0:
            yield Way((joint - row.u0,), (right,), wholes=wholes)


def _mixtures(rows: Sequence[Row], shingle: Shingle) -> set[tuple[Way, int]]:
    """What one lay of every row asks for together, and in how many pieces."""
    found = set()
    for lays in product(*(ways(row, shingle) for row in rows)):
        mixture = Way(
            tuple(sorted(length for lay in lays for length in lay.lefts)),
            tuple(sorted(length for lay in lays for length in lay.rights)),
            tuple(sorted(length for lay in lays for length in lay.ones)),
            sum(lay.wholes for lay in lays),
        )
        ended = len(mixture.lefts) + len(mixture.rights) + len(mixture.ones)
        found.add((mixture, ended + mixture.wholes))
    return found


def _strips(mixture: Way, shingle: Shingle, ridge_pieces: int) -> Iterator[int]:
    """The strips that a mixture takes, once for every way to share its tabs."""
    lefts, rights, ones, wholes = mixture
    alone = tuple(_tabs(length, shingle) for length in ones)
    for runs in set(_sharings(lefts, rights, shingle)):
        packed = _packed(tuple(sorted(runs + alone)), shingle.tabs)
        # Ridge pieces of one tab fill whatever is spare, and take new strips for the rest.
        filled = math.ceil(Fraction(sum(runs) + sum(alone) + ridge_pieces, shingle.tabs))
        yield wholes + max(packed, filled)


def _sharings(lefts: Lengths, rights: Lengths, shingle: Shingle) -> Iterator[tuple[int, ...]]:
    """The runs for these end pieces, for every choice of which two share a run."""
    if not rights:
        yield tuple(sorted(_tabs(length, shingle) for length in lefts))
        return
    right, others = rights[0], rights[1:]
    for runs in _sharings(lefts, others, shingle):
        yield tuple(sorted((*runs, _tabs(right, shingle))))
    for i, left in enumerate(lefts):
        together = _tabs(right + left, shingle)
        if together <= shingle.tabs and left not in lefts[:i]:
            for runs in _sharings(lefts[:i] + lefts[i + 1 :], others, shingle):
                yield tuple(sorted((*runs, together)))


def _tabs(length: Fraction, shingle: Shingle) -> int:
    """Tabs that a length takes."""
    return math.ceil(length / shingle.tab)


@cache
def _packed(runs: tuple[int, ...], tabs: int) -> int:
    """The fewest strips for these runs (shortest first): the last goes with every set of others."""
    if not runs:
        return 0
    others, last = runs[:-1], runs[-1]
    least = len(runs)
    for size in range(tabs - last + 1):
        for joined in combinations(range(len(others)), size):
            if sum(others[i] for i in joined) + last <= tabs:
                rest = tuple(run for i, run in enumerate(others) if i not in joined)
                least = min(least, 1 + _packed(rest, tabs))
    return least
