"""The cut plan as an integer programme: how many of each lay, each shared tab and each strip.

The unknowns are counts: how often each class of rows takes each of its lays, how often each sort
of right piece shares a tab with each sort of left piece, and how many strips are cut into each
set of runs. A run is some tabs side by side: lays and shares take runs, strips give them.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from domain.cutting.lays import Lay, RowClass
from domain.integer_programme import Limit, Programme
from domain.setting_out.coverings import Shingle

Pattern = tuple[int, ...]
"""The runs a strip is cut into, in tabs, longest first; together they are the whole strip."""


@dataclass(frozen=True, slots=True)
class End:
    """A sort of end piece, as far as sharing a tab goes."""

    tabs: int
    filled: Fraction
    """What it fills of its outer tab, mm."""


@dataclass(frozen=True, slots=True)
class Share:
    """A right and a left piece cut from one run, with one tab between them."""

    right: End
    left: End

    @property
    def tabs(self) -> int:
        """Of the run: one fewer than the two pieces take apart."""
        return self.right.tabs + self.left.tabs - 1


@dataclass(frozen=True, slots=True)
class Choice:
    """A plan in counts, each beside what it counts."""

    lays: tuple[tuple[RowClass, tuple[int, ...]], ...]
    """How many rows of each class take each of its lays."""
    shares: tuple[tuple[Share, int], ...]
    patterns: tuple[tuple[Pattern, int], ...]


@dataclass(frozen=True)
class CutModel:
    """The rows of a roof, its ridge pieces, and everything that can be chosen about them."""

    classes: tuple[RowClass, ...]
    ridge_pieces: int
    shingle: Shingle

    @cached_property
    def lays(self) -> tuple[tuple[RowClass, Lay], ...]:
        """Every lay of every class: the first unknowns."""
        return tuple((rows, lay) for rows in self.classes for lay in rows.lays)

    @cached_property
    def shares(self) -> tuple[Share, ...]:
        """Every two sorts of end piece that can share a tab: the next unknowns.

        They can when what they fill of their outer tabs is together no more than a tab, and the
        run they make no longer than a strip.
        """
        tab, tabs = self.shingle.tab, self.shingle.tabs
        pairs = (Share(right, left) for right in self._rights for left in self._lefts)
        return tuple(
            pair
            for pair in pairs
            if pair.right.filled + pair.left.filled <= tab and pair.tabs <= tabs
        )

    @cached_property
    def patterns(self) -> tuple[Pattern, ...]:
        """Every way to cut a strip into runs: the last unknowns."""
        return tuple(_partitions(self.shingle.tabs, self.shingle.tabs))

    def fewest_strips(self) -> Programme:
        """The programme whose cost is the number of strips."""
        costs = (0,) * self._first_pattern + (1,) * len(self.patterns)
        return Programme(costs, self._most(), self._limits())

    def fewest_pieces(self, strips: int) -> Programme:
        """The programme whose cost is the number of pieces laid, from no more than ``strips``."""
        costs = [lay.pieces for _, lay in self.lays]
        costs += [0] * (len(self.shares) + len(self.patterns))
        columns = range(self._first_pattern, len(costs))
        enough = Limit(0, strips, dict.fromkeys(columns, 1))
        return Programme(tuple(costs), self._most(), (*self._limits(), enough))

    def row_by_row(self) -> tuple[int, ...]:
        """A plan by hand: each row in the fewest pieces, no tab shared, the longest runs first."""
        lays: list[int] = []
        runs = Counter({1: self.ridge_pieces})
        for rows in self.classes:
            chosen = min(rows.lays, key=lambda lay: lay.pieces)
            lays += [len(rows.rows) if lay is chosen else 0 for lay in rows.lays]
            for size in self._runs(chosen):
                runs[size] += len(rows.rows)
        strips = Counter(_packed(runs, self.shingle.tabs))
        return (*lays, *(0 for _ in self.shares), *(strips[pattern] for pattern in self.patterns))

    def choice(self, values: Sequence[int]) -> Choice:
        """The values of the unknowns, each beside what it counts."""
        counts = iter(values)
        lays = tuple((rows, tuple(next(counts) for _ in rows.lays)) for rows in self.classes)
        shares = tuple((share, next(counts)) for share in self.shares)
        return Choice(lays, shares, tuple((pattern, next(counts)) for pattern in self.patterns))

    @property
    def _first_pattern(self) -> int:
        """Index of the first unknown that counts strips."""
        return len(self.lays) + len(self.shares)

    @cached_property
    def _lefts(self) -> dict[End, list[int]]:
        """Each sort of left piece, with the indexes of the lays that have it."""
        return _by_end((lay.left, rows.lead) for rows, lay in self.lays)

    @cached_property
    def _rights(self) -> dict[End, list[int]]:
        """Each sort of right piece, with the indexes of the lays that have it."""
        return _by_end((lay.right, rows.tail) for rows, lay in self.lays)

    def _most(self) -> tuple[int, ...]:
        """The greatest use of each lay, share and pattern."""
        lays = [len(rows.rows) for rows, _ in self.lays]
        rows = sum(len(rows.rows) for rows in self.classes)
        strips = sum(self.row_by_row()[self._first_pattern :])
        return (*lays, *(rows for _ in self.shares), *(strips for _ in self.patterns))

    def _limits(self) -> tuple[Limit, ...]:
        """Every row is laid once, no end piece is shared twice, and there are runs enough."""
        return (*self._rows_laid(), *self._ends_shared(), *self._runs_cut())

    def _rows_laid(self) -> Iterator[Limit]:
        """Each row of a class takes one of its lays."""
        first = 0
        for rows in self.classes:
            columns = range(first, first + len(rows.lays))
            yield Limit(len(rows.rows), len(rows.rows), dict.fromkeys(columns, 1))
            first += len(rows.lays)

    def _ends_shared(self) -> Iterator[Limit]:
        """No more pieces of a sort share a tab than are laid."""
        shared: dict[tuple[str, End], dict[int, int]] = {}
        for column, share in enumerate(self.shares, start=len(self.lays)):
            shared.setdefault(("left", share.left), {})[column] = -1
            shared.setdefault(("right", share.right), {})[column] = -1
        for (side, end), terms in shared.items():
            laid = self._lefts[end] if side == "left" else self._rights[end]
            yield Limit(0, None, terms | dict.fromkeys(laid, 1))

    def _runs_cut(self) -> Iterator[Limit]:
        """Of each length of run, the strips give at least what lays, shares and ridge take."""
        asked: list[Counter[int]] = [Counter(self._runs(lay)) for _, lay in self.lays]
        for share in self.shares:
            saved = Counter((share.right.tabs, share.left.tabs))
            asked.append(Counter({share.tabs: 1}))
            asked[-1].subtract(saved)
        given = [Counter(pattern) for pattern in self.patterns]
        for size in range(1, self.shingle.tabs + 1):
            terms = {i: -runs[size] for i, runs in enumerate(asked) if runs[size]}
            strips = enumerate(given, start=self._first_pattern)
            terms |= {i: runs[size] for i, runs in strips if runs[size]}
            yield Limit(self.ridge_pieces if size == 1 else 0, None, terms)

    def _runs(self, lay: Lay) -> tuple[int, ...]:
        """The runs that a lay takes when it shares no tab."""
        if lay.row:
            return (lay.row,)
        return (lay.left, *(self.shingle.tabs for _ in range(lay.wholes)), lay.right)


def _by_end(ends: Iterable[tuple[int, Fraction]]) -> dict[End, list[int]]:
    """The indexes at which each sort of end piece stands; a row in one piece has none."""
    found: dict[End, list[int]] = {}
    for index, (tabs, filled) in enumerate(ends):
        if tabs:
            found.setdefault(End(tabs, filled), []).append(index)
    return found


def _partitions(total: int, longest: int) -> Iterator[Pattern]:
    """Every way to write ``total`` as a sum of whole numbers up to ``longest``, longest first."""
    if total == 0:
        yield ()
    for first in range(min(total, longest), 0, -1):
        for rest in _partitions(total - first, first):
            yield (first, *rest)


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
