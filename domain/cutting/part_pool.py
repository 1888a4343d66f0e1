"""From which parts the pieces of courses are that are laid once each: in counts, not one by one.

Such a course is a line of the sheet whatever its pieces are from. A piece may be from any part of
its kind, or run of whole tabs, that is long enough; so it is enough that of every length there are
as many parts so long or longer as pieces that need them.
"""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import TypeAlias

from domain.coverings.shingle import Shingle
from domain.cutting.alike import Wanted
from domain.cutting.working import CutPart, PartKind
from domain.integer_programme import Draft

_USES = (PartKind.LEFT, PartKind.RIGHT, PartKind.RUN)
"""What a piece is: a left piece, a right piece, or a row in one piece."""

Taken: TypeAlias = Callable[[CutPart], Iterable[tuple[Hashable, int]]]
"""What a part takes from the piles, by the name of the limit."""


class PartPool:
    """The parts that such courses take, on as many slopes of a shape each."""

    def __init__(
        self, draft: Draft, slopes: int, parts: Iterable[CutPart], rows: int, taken: Taken
    ) -> None:
        """Of all ``parts`` as many as ``rows`` take, on so many ``slopes`` each."""
        self._slopes = slopes
        by_length = sorted(parts, key=lambda part: part.length)
        self._orders: Mapping[PartKind, Sequence[CutPart]] = {
            use: [part for part in by_length if part.kind in {use, PartKind.RUN}] for use in _USES
        }
        self._counts: dict[PartKind, dict[int, CutPart]] = {}
        for use, order in self._orders.items():
            for at in range(len(order)):
                draft.limit(self._name(use, at), 0, None)
            self._counts[use] = {
                draft.unknown(rows, [*self._so_long(use, at, 1), *taken(part)]): part
                for at, part in enumerate(order)
            }

    @property
    def counts(self) -> Iterator[tuple[int, CutPart]]:
        """The unknown that counts what is taken of each part, for each use."""
        for counts in self._counts.values():
            yield from counts.items()

    def needs(self, wanted: Wanted, shingle: Shingle) -> Iterator[tuple[Hashable, int]]:
        """What a piece adds to the limits: one part less of each length up to its own."""
        use, order = _use(wanted), self._orders[_use(wanted)]
        first = next(at for at, part in enumerate(order) if _serves(part, wanted, shingle))
        return self._so_long(use, first, -1)

    def parts_of(
        self, values: Sequence[int], pieces: Sequence[Wanted], shingle: Shingle
    ) -> list[CutPart]:
        """A part for each piece: the shortest that is left, those who need most first."""
        left = {
            use: [part for index, part in counts.items() for _ in range(values[index])]
            for use, counts in self._counts.items()
        }
        found: dict[int, CutPart] = {}
        for at in sorted(range(len(pieces)), key=lambda at: -_need(pieces[at], shingle)):
            piece = pieces[at]
            parts = left[_use(piece)]
            found[at] = next(part for part in parts if _serves(part, piece, shingle))
            parts.remove(found[at])
        return [found[at] for at in range(len(pieces))]

    def _so_long(self, use: PartKind, last: int, count: int) -> Iterator[tuple[Hashable, int]]:
        return ((self._name(use, at), count) for at in range(last + 1))

    def _name(self, use: PartKind, at: int) -> Hashable:
        return self._slopes, use, at


def _use(wanted: Wanted) -> PartKind:
    if wanted.is_left:
        return PartKind.LEFT
    return PartKind.RIGHT if wanted.is_right else PartKind.RUN


def _need(wanted: Wanted, shingle: Shingle) -> Fraction:
    """How long a part a piece needs: a row in one piece takes the whole tabs it touches."""
    return wanted.length if _use(wanted) is not PartKind.RUN else wanted.tabs * shingle.tab


def _serves(part: CutPart, wanted: Wanted, shingle: Shingle) -> bool:
    return part.length >= _need(wanted, shingle)
