"""Plans that a person makes on the roof: at once, without a proof.

They are what the search for the fewest strips begins with, what stands if its time ends, and what
its saving is counted against.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import ceil

from domain.coverings.shingle import Shingle
from domain.cutting.lays import Lay, RowClass
from domain.cutting.model import CountedPlan, Pattern, runs_of
from domain.cutting.sharing import End, Share


def row_by_row(classes: Sequence[RowClass], ridge_pieces: int, shingle: Shingle) -> int:
    """Strips if every row is cut from fresh ones by itself, in the lay that takes fewest.

    A row may have both its ends from one strip; nothing it leaves goes into another row, and the
    ridge pieces have strips of their own.
    """
    rows = sum(
        len(alike.rows) * min(_alone(lay, alike, shingle) for lay in alike.lays)
        for alike in classes
    )
    return rows + ceil(Fraction(ridge_pieces, shingle.tabs))


def least_strips(classes: Sequence[RowClass], ridge_pieces: int, shingle: Shingle) -> int:
    """What no plan can do with fewer than: strips as long as all rows and ridge pieces together."""
    laid = sum(row.u1 - row.u0 for alike in classes for row in alike.rows)
    return ceil((laid + ridge_pieces * shingle.tab) / shingle.width)


def least_pieces(classes: Sequence[RowClass]) -> int:
    """What no plan can do with fewer than, however many strips it takes."""
    return sum(len(alike.rows) * min(lay.pieces for lay in alike.lays) for alike in classes)


def by_hand(classes: Sequence[RowClass], ridge_pieces: int, shingle: Shingle) -> CountedPlan:
    """A good plan at once: every row in a simple lay, off-cuts shared as far as they go.

    Of four such plans, the one with the fewest strips.
    """
    simple: tuple[Callable[[Lay], int], ...] = (
        lambda lay: lay.pieces,
        lambda lay: sum(runs_of(lay, shingle.tabs)),
    )
    plans = [
        _planned(classes, ridge_pieces, shingle, least, shared)
        for least in simple
        for shared in (True, False)
    ]
    return min(plans, key=lambda plan: plan.strips)


def _alone(lay: Lay, alike: RowClass, shingle: Shingle) -> int:
    """Strips for one row by itself."""
    if lay.row:
        return 1
    tabs = lay.left + lay.right - (alike.lead + alike.tail <= shingle.tab)
    return lay.wholes + (1 if tabs <= shingle.tabs else 2)


def _planned(
    classes: Sequence[RowClass],
    ridge_pieces: int,
    shingle: Shingle,
    least: Callable[[Lay], int],
    shared: bool,
) -> CountedPlan:
    """The plan in which each row takes the first lay that is ``least``, off-cuts shared or not."""
    chosen = [(alike, min(alike.lays, key=least)) for alike in classes]
    shares = _shares(chosen, shingle) if shared else Counter()
    runs = Counter({1: ridge_pieces})
    for alike, lay in chosen:
        for size in runs_of(lay, shingle.tabs):
            runs[size] += len(alike.rows)
    for share, count in shares.items():
        runs.subtract({share.right.tabs: count})
        runs.subtract({share.left.tabs: count})
        runs[share.tabs] += count
    lays = tuple(
        (alike, tuple(len(alike.rows) * (lay is taken) for lay in alike.lays))
        for alike, taken in chosen
    )
    strips = Counter(_packed(runs, shingle.tabs))
    return CountedPlan(lays, tuple(shares.items()), tuple(strips.items()))


def _shares(chosen: Sequence[tuple[RowClass, Lay]], shingle: Shingle) -> Counter[Share]:
    """Right pieces, those that fill most first, each with the left piece that fills it best."""
    lefts: Counter[End] = Counter()
    rights: Counter[End] = Counter()
    for alike, lay in chosen:
        if not lay.row:
            lefts[End(lay.left, alike.lead)] += len(alike.rows)
            rights[End(lay.right, alike.tail)] += len(alike.rows)
    shares: Counter[Share] = Counter()
    closest = sorted(lefts, key=lambda end: (-end.filled, -end.tabs))
    for right in sorted(rights, key=lambda end: (-end.filled, end.tabs)):
        wanted = rights[right]
        place = bisect_left(closest, right.filled - shingle.tab, key=lambda end: -end.filled)
        while wanted and place < len(closest):
            share = Share(right, closest[place])
            count = min(wanted, lefts[share.left]) if share.tabs <= shingle.tabs else 0
            shares[share] += count
            lefts[share.left] -= count
            wanted -= count
            if lefts[share.left]:
                place += 1
            else:
                del closest[place]
    return +shares


def _packed(runs: Counter[int], tabs: int) -> Iterator[Pattern]:
    """Strips for these runs, each filled with the longest that still fits; spare tabs are ones."""
    left = Counter(runs)
    while left.total():
        strip: list[int] = []
        for size in range(tabs, 0, -1):
            while left[size] and sum(strip) + size <= tabs:
                left[size] -= 1
                strip.append(size)
        yield (*strip, *(1 for _ in range(tabs - sum(strip))))
