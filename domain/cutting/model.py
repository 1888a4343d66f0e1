"""The cut plan as an integer programme: how many of each lay, each shared tab and each strip.

The unknowns are counts: how often each class of rows takes each of its lays, how many end pieces
of each sort share a tab, and how many strips are cut into each set of runs. A run is some tabs
side by side: lays and shares take runs, strips give them.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from domain.coverings.shingle import Shingle
from domain.cutting.lays import Lay, RowClass
from domain.cutting.sharing import End, Share, Step, carried, paired, steps_of
from domain.integer_programme import Draft, Limit, Programme

Pattern = tuple[int, ...]
"""The runs a strip is cut into, in tabs, longest first; together they are the whole strip."""


@dataclass(frozen=True, slots=True)
class CountedPlan:
    """A plan in counts, each beside what it counts."""

    lays: tuple[tuple[RowClass, tuple[int, ...]], ...]
    """How many rows of each class take each of its lays."""
    shares: tuple[tuple[Share, int], ...]
    patterns: tuple[tuple[Pattern, int], ...]

    @property
    def strips(self) -> int:
        """How many strips are cut or laid whole."""
        return sum(count for _, count in self.patterns)


@dataclass(frozen=True, slots=True)
class _Channel:
    """The end pieces of so many tabs each that share a tab, and the unknowns that count them."""

    steps: tuple[Step, ...]
    lefts: Mapping[End, int]
    """Index of the unknown that counts each sort."""
    rights: Mapping[End, int]
    waiting: tuple[int, ...]
    """Index of the left pieces that wait on after each step but the last."""


class CutModel:
    """The rows of a roof, its ridge pieces, and everything that can be chosen about them."""

    def __init__(
        self, classes: Sequence[RowClass], ridge_pieces: int, shingle: Shingle, strips: int
    ) -> None:
        """``strips`` are as many as a plan may use: those of any plan that is known."""
        self._classes, self._shingle = classes, shingle
        self._draft = Draft()
        for size in range(1, shingle.tabs + 1):
            self._draft.limit(("runs", size), ridge_pieces if size == 1 else 0, None)
        self._lays = tuple(self._add_lays())
        self._channels = tuple(self._add_channels())
        self._patterns = {
            pattern: self._draft.unknown(strips, _runs_named(Counter(pattern)))
            for pattern in partitions(shingle.tabs, shingle.tabs)
        }

    def fewest_strips(self) -> Programme:
        """The programme whose cost is the number of strips."""
        return self._draft.programme(dict.fromkeys(self._patterns.values(), 1))

    def fewest_pieces(self, strips: int) -> Programme:
        """The programme whose cost is the number of pieces laid, from no more than ``strips``."""
        enough = Limit(0, strips, dict.fromkeys(self._patterns.values(), 1))
        lays = (lay for rows in self._classes for lay in rows.lays)
        indexes = (index for row in self._lays for index in row)
        costs = {index: lay.pieces for index, lay in zip(indexes, lays, strict=True)}
        return self._draft.programme(costs, enough)

    def values(self, choice: CountedPlan) -> tuple[int, ...]:
        """The unknowns of a plan."""
        known: dict[int, int] = {}
        for indexes, (_, counts) in zip(self._lays, choice.lays, strict=True):
            known.update(zip(indexes, counts, strict=True))
        for channel in self._channels:
            lefts, rights = Counter[End](), Counter[End]()
            for share, count in choice.shares:
                if share.left in channel.lefts and share.right in channel.rights:
                    lefts[share.left] += count
                    rights[share.right] += count
            known |= {index: lefts[end] for end, index in channel.lefts.items()}
            known |= {index: rights[end] for end, index in channel.rights.items()}
            waiting = carried(channel.steps, lefts, rights)
            known.update(zip(channel.waiting, waiting, strict=True))
        strips = dict(choice.patterns)
        known |= {index: strips.get(pattern, 0) for pattern, index in self._patterns.items()}
        return tuple(known[index] for index in range(len(known)))

    def choice(self, values: Sequence[int]) -> CountedPlan:
        """The plan that the values of the unknowns stand for."""
        lays = tuple(
            (rows, tuple(values[index] for index in indexes))
            for rows, indexes in zip(self._classes, self._lays, strict=True)
        )
        shares: Counter[Share] = Counter()
        for channel in self._channels:
            lefts = {end: values[index] for end, index in channel.lefts.items()}
            rights = {end: values[index] for end, index in channel.rights.items()}
            shares += paired(channel.steps, lefts, rights)
        patterns = tuple((pattern, values[index]) for pattern, index in self._patterns.items())
        return CountedPlan(lays, tuple(shares.items()), patterns)

    @cached_property
    def _row_count(self) -> int:
        return sum(len(rows.rows) for rows in self._classes)

    @cached_property
    def _lefts(self) -> tuple[End, ...]:
        """Every sort of left piece; a row in one piece has none."""
        ends = (End(lay.left, c.lead) for c in self._classes for lay in c.lays if not lay.row)
        return tuple(dict.fromkeys(ends))

    @cached_property
    def _rights(self) -> tuple[End, ...]:
        """Every sort of right piece."""
        ends = (End(lay.right, c.tail) for c in self._classes for lay in c.lays if not lay.row)
        return tuple(dict.fromkeys(ends))

    def _add_lays(self) -> Iterator[tuple[int, ...]]:
        """Each row takes one lay of its class; an end piece that is laid may share a tab."""
        for end in self._lefts:
            self._draft.limit(("left", end), 0, None)
        for end in self._rights:
            self._draft.limit(("right", end), 0, None)
        for number, rows in enumerate(self._classes):
            count = len(rows.rows)
            self._draft.limit(("rows", number), count, count)
            yield tuple(self._add_lay(rows, lay, number) for lay in rows.lays)

    def _add_lay(self, rows: RowClass, lay: Lay, number: int) -> int:
        taken = Counter(runs_of(lay, self._shingle.tabs))
        terms = [(("rows", number), 1), *_runs_named(taken, -1)]
        ends = (
            []
            if lay.row
            else [
                (("left", End(lay.left, rows.lead)), 1),
                (("right", End(lay.right, rows.tail)), 1),
            ]
        )
        return self._draft.unknown(len(rows.rows), [*terms, *ends])

    def _add_channels(self) -> Iterator[_Channel]:
        """A channel for every two numbers of tabs whose run is no longer than a strip."""
        tabs = self._shingle.tabs
        for right in range(1, tabs + 1):
            rights = [end for end in self._rights if end.tabs == right]
            for left in range(1, tabs + 2 - right):
                lefts = [end for end in self._lefts if end.tabs == left]
                steps = steps_of(rights, lefts, self._shingle.tab)
                if steps:
                    yield self._add_channel(steps, right, left)

    def _add_channel(self, steps: tuple[Step, ...], right: int, left: int) -> _Channel:
        """Left pieces wait from step to step until a right piece takes them.

        A left piece that waits gives its tabs back and takes the run of both; a right piece gives
        its own back.
        """
        for number in range(len(steps)):
            self._draft.limit((right, left, number), 0, 0)
        lefts, rights = {}, {}
        for number, step in enumerate(steps):
            here = (right, left, number)
            for end in step.lefts:
                saved = Counter({left: 1})
                saved.subtract({right + left - 1: 1})
                terms = [(here, 1), (("left", end), -1), *_runs_named(saved)]
                lefts[end] = self._draft.unknown(self._row_count, terms)
            for end in step.rights:
                terms = [(here, -1), (("right", end), -1), (("runs", right), 1)]
                rights[end] = self._draft.unknown(self._row_count, terms)
        waiting = tuple(
            self._draft.unknown(
                self._row_count, [((right, left, n), -1), ((right, left, n + 1), 1)]
            )
            for n in range(len(steps) - 1)
        )
        return _Channel(steps, lefts, rights, waiting)


def runs_of(lay: Lay, tabs: int) -> tuple[int, ...]:
    """The runs that a lay takes when it shares no tab, of strips with so many."""
    if lay.row:
        return (lay.row,)
    return (lay.left, *(tabs for _ in range(lay.wholes)), lay.right)


def _runs_named(runs: Mapping[int, int], sign: int = 1) -> Iterator[tuple[tuple[str, int], int]]:
    """What runs add to the limits that there are enough of each length."""
    return ((("runs", size), sign * count) for size, count in runs.items())


def partitions(total: int, longest: int) -> Iterator[Pattern]:
    """Every way to write ``total`` as a sum of whole numbers up to ``longest``, longest first."""
    if total == 0:
        yield ()
    for first in range(min(total, longest), 0, -1):
        for rest in partitions(total - first, first):
            yield (first, *rest)
