"""Which right and left pieces can share a tab, and how many do.

A right piece is trimmed at its right end, a left piece at its left: cut from one run they can stand
in the same tab if together they fill no more of it. Whoever fits with a piece also fits with
every piece that fills less, so it is enough to go through the pieces in order: left pieces wait,
those that fill least first, and each right piece takes one that waits. What is counted grows
with the sorts of pieces, not with the pairs of them.
"""

from bisect import bisect_right
from collections import Counter, deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby


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
        """Tabs of the run: one fewer than the two pieces would take apart."""
        return self.right.tabs + self.left.tabs - 1


@dataclass(frozen=True, slots=True)
class Step:
    """Left pieces that begin to wait, and the right pieces that may take whatever waits then."""

    lefts: tuple[End, ...]
    rights: tuple[End, ...]


def steps_of(rights: Sequence[End], lefts: Sequence[End], tab: Fraction) -> tuple[Step, ...]:
    """The order in which pieces that share a tab find each other.

    A left piece that no right piece fits is in no step, nor is a right piece that fits no left.
    """
    waiting = sorted(lefts, key=lambda end: end.filled)
    filled = [end.filled for end in waiting]

    def fitting(right: End) -> int:
        return bisect_right(filled, tab - right.filled)

    steps, before = [], 0
    for count, group in groupby(sorted(rights, key=fitting), key=fitting):
        if count:
            steps.append(Step(tuple(waiting[before:count]), tuple(group)))
            before = count
    return tuple(steps)


def carried(
    steps: Sequence[Step], lefts: Mapping[End, int], rights: Mapping[End, int]
) -> Iterator[int]:
    """How many left pieces wait on after each step but the last, which leaves none."""
    waiting = 0
    for step in steps[:-1]:
        waiting += sum(lefts[end] for end in step.lefts) - sum(rights[end] for end in step.rights)
        yield waiting


def paired(
    steps: Sequence[Step], lefts: Mapping[End, int], rights: Mapping[End, int]
) -> Counter[Share]:
    """The pairs that so many of each sort make."""
    pairs: Counter[Share] = Counter()
    waiting: deque[End] = deque()
    for step in steps:
        waiting.extend(end for end in step.lefts for _ in range(lefts[end]))
        for right in step.rights:
            pairs.update(Share(right, waiting.popleft()) for _ in range(rights[right]))
    return pairs
