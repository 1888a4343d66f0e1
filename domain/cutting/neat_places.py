"""Where a tab that two pieces share is cut: at as few places, and as easily taped, as will do.

A place is a distance from the tab's left end. Of a pair any place will do from where its right
piece ends to where its left one begins.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import TypeAlias

STEPS = (Fraction(25), Fraction(5))
"""Millimetres: where the middle will not do, shared tabs are cut at a multiple of the first, else
of the second."""

Window: TypeAlias = tuple[Fraction, Fraction]
"""From the first to the last place that will do."""


def neat_places(windows: Iterable[Window], middle: Fraction) -> Mapping[Window, Fraction]:
    """A place for each window; those that have one in common share it, the middle before others."""
    chosen, places = [middle], {}
    for window in sorted(set(windows), key=lambda each: (each[1], each[0])):
        first, last = window
        place = next((each for each in chosen if first <= each <= last), None)
        if place is None:
            place = _last_within(window)
            chosen.append(place)
        places[window] = place
    return places


def _last_within(window: Window) -> Fraction:
    """The last place that is easily taped: those of the next windows begin no sooner."""
    first, last = window
    multiples = (last // step * step for step in STEPS)
    return next((each for each in multiples if each >= first), last)
