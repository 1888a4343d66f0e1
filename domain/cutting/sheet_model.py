"""The shortest sheet as an integer programme: which ways of cutting and of laying it has.

The unknowns say how many strips are cut by each pattern, and how many courses take each lay with
its pieces from which parts; beside each, yes or no, whether there is a line of it at all. Where
only one course can be laid a way, its line is there however it is laid, and parts are only counted.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import chain, islice, product

from domain.coverings.shingle import Shingle
from domain.cutting.alike import AlikeRows, Wanted
from domain.cutting.lays import Lay
from domain.cutting.part_pool import PartPool
from domain.cutting.sheet_patterns import Pattern, patterns_of, run_of
from domain.cutting.working import CutPart, PartKind
from domain.integer_programme import Draft, Limit, Programme

_WITHIN = 2
"""A piece is cut from a part that is the shortest of its kind to do, or the next, or a strip."""


@dataclass(frozen=True, slots=True)
class _LayChoice:
    """A lay, the unknown that counts its courses, and the parts that its pieces are from."""

    index: int
    lay: Lay
    parts: tuple[CutPart, ...] | None
    """For each piece wanted; None for a lay of one course, whose parts are counted with others."""


@dataclass(frozen=True, slots=True)
class ChosenLay:
    """So many courses laid one way."""

    rows: AlikeRows
    lay: Lay
    parts: tuple[CutPart, ...]
    """What the pieces that are not whole strips are from."""
    count: int


@dataclass
class _Sums:
    """What each unknown adds to the sums that the limits are about."""

    strips: Counter[int] = field(default_factory=Counter)
    """Strips, by unknown."""
    lines: list[int] = field(default_factory=list)
    cutting: list[int] = field(default_factory=list)
    """Those of the lines that are of cutting."""
    pieces: Counter[int] = field(default_factory=Counter)
    cuts: Counter[int] = field(default_factory=Counter)


class SheetModel:
    """The rows of a roof, and everything that can be chosen about cutting and laying them."""

    def __init__(
        self,
        rows: Sequence[AlikeRows],
        shingle: Shingle,
        ridge_pieces: int,
        strips: tuple[int, int],
        places: Sequence[Fraction],
        most_unknowns: int,
    ) -> None:
        """``strips`` are as few as any plan takes and as many as this may; cut at ``places``.

        Raises :class:`domain.integer_programme.TooLarge` for more than ``most_unknowns``.
        """
        self._shingle, self._draft, self._sums = shingle, Draft(most_unknowns), _Sums()
        self._strip = run_of(shingle.tabs, shingle)
        self._rows, self._most, self._places = rows, strips[1], places
        patterns = tuple(patterns_of(shingle, places, self._parts_wanted()))
        one_tab = run_of(1, shingle)
        self._needed = self._most_needed(one_tab, ridge_pieces)
        self._made = dict.fromkeys(p for each in patterns for item in each for p in item.parts)
        for part in self._made:
            self._draft.limit(part, ridge_pieces if part == one_tab else 0, None)
        self._cut = {pattern: self._add_pattern(pattern) for pattern in patterns}
        alone = Counter(alike.times for alike in rows if alike.count == 1)
        self._pools = {slopes: self._add_pool(slopes, count) for slopes, count in alone.items()}
        self._lays = tuple(tuple(self._add_rows(n, alike)) for n, alike in enumerate(rows))
        self._enough = Limit(*strips, self._sums.strips)

    def shortest(self) -> Programme:
        """The programme whose cost is the sheet's length; of equal ones that of fewest strips."""
        weight = self._most + 1
        costs = Counter({index: count * (weight + 1) for index, count in self._sums.strips.items()})
        for index in self._sums.lines:
            costs[index] += weight
        return self._draft.programme(costs, self._enough)

    def with_room(self, most_cut: int, most: int) -> Programme:
        """The programme of fewest strips with at most so many lines of cutting, and in all."""
        return self._draft.programme(
            self._sums.strips,
            self._enough,
            Limit(0, most_cut, dict.fromkeys(self._sums.cutting, 1)),
            Limit(0, most, dict.fromkeys(self._sums.lines, 1)),
        )

    def lines(self, values: Sequence[int]) -> int:
        """How many lines there are, but for courses that are laid once, of which each is one."""
        return sum(values[index] for index in self._sums.lines)

    def neatest(self, shortest: Sequence[int]) -> Programme:
        """The programme of fewest pieces, then cuts, with no longer a sheet and no more strips."""
        strips = sum(count * shortest[index] for index, count in self._sums.strips.items())
        weight = 1 + self._most * max(self._sums.cuts.values(), default=0)
        costs = Counter({index: count * weight for index, count in self._sums.pieces.items()})
        costs.update(self._sums.cuts)
        return self._draft.programme(
            costs,
            Limit(0, strips, self._sums.strips),
            Limit(0, self.lines(shortest), dict.fromkeys(self._sums.lines, 1)),
        )

    def strips_cut(self, values: Sequence[int]) -> Mapping[Pattern, int]:
        """How many strips are cut by each pattern that is."""
        return {p: values[index] for p, index in self._cut.items() if values[index]}

    def laid(self, values: Sequence[int]) -> Iterator[ChosenLay]:
        """Each way in which rows are laid."""
        alone: dict[int, list[ChosenLay]] = {slopes: [] for slopes in self._pools}
        for alike, choices in zip(self._rows, self._lays, strict=True):
            for choice in choices:
                if not values[choice.index]:
                    continue
                each = ChosenLay(alike, choice.lay, choice.parts or (), values[choice.index])
                if choice.parts is None:
                    alone[alike.times].append(each)
                else:
                    yield each
        for slopes, pool in self._pools.items():
            pieces = [each.rows.wanted(each.lay, self._shingle) for each in alone[slopes]]
            parts = iter(pool.parts_of(values, list(chain(*pieces)), self._shingle))
            for each, wanted in zip(alone[slopes], pieces, strict=True):
                yield replace(each, parts=tuple(islice(parts, len(wanted))))

    def _parts_wanted(self) -> set[CutPart]:
        """Every part that some piece may be from."""
        return {
            part
            for alike in self._rows
            for lay in alike.rows.lays
            for wanted in alike.wanted(lay, self._shingle)
            for part in self._parts_for(wanted)
        }

    def _most_needed(self, one_tab: CutPart, ridge_pieces: int) -> Counter[CutPart]:
        """As many of each part as rows can take, and ridges."""
        needed = Counter({one_tab: ridge_pieces})
        for alike in self._rows:
            rows, most = alike.times * alike.count, Counter[CutPart]()
            for lay in alike.rows.lays:
                wanted = alike.wanted(lay, self._shingle)
                most |= Counter(part for each in wanted for part in self._parts_for(each))
            needed.update({part: rows * count for part, count in most.items()})
        return needed

    def _add_pattern(self, pattern: Pattern) -> int:
        """The unknown that counts the strips cut so, and the one that says if there are any."""
        terms = Counter(part for item in pattern for part in item.parts)
        needed = max(-(-self._needed[part] // count) for part, count in terms.items())
        most = max(1, min(self._most_cut, needed))  # more would give nothing that is needed
        self._draft.limit(pattern, -most, 0)
        index = self._draft.unknown(most, [*terms.items(), (pattern, 1)])
        self._sums.cutting.append(self._draft.unknown(1, [(pattern, -most)]))
        self._sums.lines.append(self._sums.cutting[-1])
        self._sums.strips[index] = 1
        self._sums.cuts[index] = terms.total() - 1
        return index

    @property
    def _most_cut(self) -> int:
        """As many strips as can be cut: all but those that every lay takes whole."""
        whole = sum(
            alike.times * alike.count * min(lay.wholes for lay in alike.rows.lays)
            for alike in self._rows
        )
        return max(1, self._most - whole)

    def _add_rows(self, number: int, alike: AlikeRows) -> Iterator[_LayChoice]:
        count = alike.count
        self._draft.limit(number, count, count)
        add = self._add_alone if count == 1 else self._add_with_parts
        for lay in alike.rows.lays:
            yield from add(number, alike, lay)

    def _add_pool(self, slopes: int, rows: int) -> PartPool:
        """The parts that courses laid once each take, of so many like slopes."""
        pool = PartPool(
            self._draft,
            slopes,
            (*self._made, self._strip),
            rows,
            lambda part: self._taken(part, slopes),
        )
        for index, part in pool.counts:
            self._count_strip(index, part, slopes)
        return pool

    def _add_alone(self, number: int, alike: AlikeRows, lay: Lay) -> Iterator[_LayChoice]:
        """A lay of one course: a line, whichever parts its pieces are from."""
        pool = self._pools[alike.times]
        wanted = alike.wanted(lay, self._shingle)
        needs = [term for each in wanted for term in pool.needs(each, self._shingle)]
        index = self._draft.unknown(1, [(number, 1), *needs])
        self._count_lay(index, alike, lay)
        yield _LayChoice(index, lay, None)

    def _add_with_parts(self, number: int, alike: AlikeRows, lay: Lay) -> Iterator[_LayChoice]:
        """A lay of several courses, once for each choice of parts: each is a line by itself."""
        count = alike.count
        wanted = alike.wanted(lay, self._shingle)
        for parts in product(*(tuple(self._parts_had_for(each)) for each in wanted)):
            name = (number, lay, parts)
            self._draft.limit(name, -count, 0)
            taken = [term for part in parts for term in self._taken(part, alike.times)]
            index = self._draft.unknown(count, [(number, 1), (name, 1), *taken])
            self._sums.lines.append(self._draft.unknown(1, [(name, -count)]))
            self._count_lay(index, alike, lay)
            for part in parts:
                self._count_strip(index, part, alike.times)
            yield _LayChoice(index, lay, parts)

    def _count_lay(self, index: int, alike: AlikeRows, lay: Lay) -> None:
        self._sums.pieces[index] = alike.times * lay.pieces
        self._sums.strips[index] = alike.times * lay.wholes

    def _count_strip(self, index: int, part: CutPart, slopes: int) -> None:
        if part == self._strip:
            self._sums.strips[index] += slopes

    def _taken(self, part: CutPart, slopes: int) -> list[tuple[CutPart, int]]:
        """What is taken from the pile of a part, once a slope; an uncut strip is in none."""
        return [] if part == self._strip else [(part, -slopes)]

    def _parts_had_for(self, wanted: Wanted) -> Iterator[CutPart]:
        """The parts that serve a piece, and that strips are cut into."""
        return (p for p in self._parts_for(wanted) if p in self._made or p == self._strip)

    def _parts_for(self, wanted: Wanted) -> Iterator[CutPart]:
        """The parts that serve a piece."""
        tab, tabs = self._shingle.tab, self._shingle.tabs
        runs = range(wanted.tabs, tabs)
        yield from (run_of(size, self._shingle) for size in runs[:_WITHIN])
        yield self._strip
        for place in self._places:
            lengths = {
                PartKind.LEFT: [size * tab - place for size in range(1, tabs + 1)],
                PartKind.RIGHT: [(size - 1) * tab + place for size in range(1, tabs + 1)],
            }
            for kind, serves in (
                (PartKind.LEFT, wanted.is_left),
                (PartKind.RIGHT, wanted.is_right),
            ):
                long_enough = [each for each in lengths[kind] if each >= wanted.length]
                yield from (CutPart(kind, each) for each in long_enough[: _WITHIN * serves])
