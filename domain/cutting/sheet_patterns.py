"""The ways in which a strip can be cut for the plan to work by.

A strip is cut into items: a run of whole tabs, or a pair, a right and a left part that share one
tab, cut apart within it at one of a few places.
"""

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from domain.coverings.shingle import Shingle
from domain.cutting.working import CutPart, PartKind


@dataclass(frozen=True, slots=True)
class Item:
    """Some tabs of a strip side by side."""

    tabs: int
    parts: tuple[CutPart, ...]
    """From left to right: a run, or a right part and its left."""


Pattern: TypeAlias = tuple[Item, ...]
"""The items that a strip is cut into, those with most tabs first; together they fill it."""


def patterns_of(
    shingle: Shingle, places: Sequence[Fraction], wanted: Set[CutPart]
) -> Iterator[Pattern]:
    """Every pattern but the uncut strip, shared tabs cut at these places.

    A place is a distance from the tab's left end. Of pairs only those both of whose parts are
    ``wanted``: where one is not, a run does as well.
    """
    items = _items(shingle, places, wanted)
    whole = (Item(shingle.tabs, (run_of(shingle.tabs, shingle),)),)
    return (pattern for pattern in _filled(items, shingle.tabs) if pattern != whole)


def run_of(tabs: int, shingle: Shingle) -> CutPart:
    """A run of so many tabs."""
    return CutPart(PartKind.RUN, tabs * shingle.tab)


def pairs_of(shingle: Shingle, place: Fraction) -> Iterator[Item]:
    """Every right and left part that share a tab cut at a place, no longer than a strip."""
    tab = shingle.tab
    for right in range(1, shingle.tabs + 1):
        for left in range(1, shingle.tabs + 2 - right):
            parts = (
                CutPart(PartKind.RIGHT, (right - 1) * tab + place),
                CutPart(PartKind.LEFT, left * tab - place),
            )
            yield Item(right + left - 1, parts)


def _items(shingle: Shingle, places: Sequence[Fraction], wanted: Set[CutPart]) -> tuple[Item, ...]:
    """Every item, those with most tabs first."""
    runs = [Item(tabs, (run_of(tabs, shingle),)) for tabs in range(1, shingle.tabs + 1)]
    pairs = [
        pair for place in places for pair in pairs_of(shingle, place) if set(pair.parts) <= wanted
    ]
    return tuple(sorted([*runs, *pairs], key=lambda item: -item.tabs))


def _filled(items: Sequence[Item], tabs: int) -> Iterator[Pattern]:
    """Every choice of items, each as often as it fits, that fills so many tabs."""
    if not tabs:
        yield ()
    for index, item in enumerate(items):
        if item.tabs <= tabs:
            for rest in _filled(items[index:], tabs - item.tabs):
                yield (item, *rest)
