"""Whether slopes close with their neighbours: a ridge, hip or valley is as long on both sides.

A run is known twice, once from each of the slopes that meet in it. Where the two disagree the
measures do too, and the longer counts. What is too far apart is common practice.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from domain.setting_out.flat_slopes import Edge, Slope
from domain.setting_out.kinds import EdgeKind
from domain.units import show_mm

_APART = 20  # mm


@dataclass(frozen=True, slots=True)
class Meeting:
    """One edge of a slope where another slope meets it."""

    number: int
    """Of the slope; the first is 1."""
    where: str
    """"left", "right" or "top"."""
    edge: Edge
    up: Fraction
    """Length of the slope."""


Joint: TypeAlias = tuple[Meeting, Meeting | None]
"""Two edges that are one run; None if nothing meets the first."""


def meetings(number: int, slope: Slope, kind: EdgeKind) -> Iterator[Meeting]:
    """Give the edges of a slope that are of a kind."""
    names = ("eaves", "left", "right", "top")
    for where, edge in zip(names, slope.edges, strict=False):  # a triangle has no top
        if edge.kind is kind:
            yield Meeting(number, where, edge, slope.length)


def joints(slopes: Sequence[Slope], kind: EdgeKind) -> tuple[Joint, ...]:
    """Find which edges of a kind are one run: ridge, hip or valley.

    The slopes stand as one walks round the roof to the right, so that the right side of each meets
    the left side of the next that has such a side. Ridges meet the ridge nearest in length.
    """
    met = [m for number, s in enumerate(slopes, start=1) for m in meetings(number, s, kind)]
    found: list[Joint] = []
    for right in [m for m in met if m.where == "right"]:
        lefts = [m for m in met if m.where == "left" and m.number != right.number]
        if lefts:
            ahead = min(lefts, key=lambda left: (left.number - right.number) % len(slopes))
            found.append((right, ahead))
            met.remove(right)
            met.remove(ahead)
    return (*found, *_pairs(sorted(met, key=lambda m: m.edge.length)))


def run_lengths(met: Iterable[Joint]) -> tuple[Fraction, ...]:
    """Return the length of every run, the longer where two slopes disagree."""
    return tuple(max(m.edge.length for m in joint if m) for joint in met)


def gaps(met: Iterable[Joint], check: str = "") -> Iterator[str]:
    """Tell of every run that two slopes disagree about, and of edges that nothing meets.

    ``check`` names the measure to look at; without it, it is found from the two slopes.
    """
    for one, other in met:
        if other is None:
            yield (
                f"Slope {one.number}: no other slope meets its {_named(one)}. "
                "Check the edges and the finish of its neighbours."
            )
        elif abs(one.edge.length - other.edge.length) > _APART:
            first, second = sorted((one, other), key=lambda m: m.number)
            yield (
                f"Slopes {first.number} and {second.number} do not meet: the {one.edge.kind} is "
                f"{_shown(first)} on slope {first.number} and {_shown(second)} on slope "
                f"{second.number}. Check {check or _doubtful(first, second)}."
            )


def _pairs(met: Sequence[Meeting]) -> Iterator[Joint]:
    """Give them two by two, the last alone if they are odd."""
    for at in range(0, len(met), 2):
        yield met[at], met[at + 1] if at + 1 < len(met) else None


def _named(one: Meeting) -> str:
    """A ridge is always at the top; the others say on which side."""
    kind = one.edge.kind.value
    return kind if one.where == "top" else f"{one.where} {kind}"


def _shown(one: Meeting) -> str:
    return show_mm(one.edge.length)


def _doubtful(one: Meeting, other: Meeting) -> str:
    """Which measures most likely keep two slopes apart."""
    if one.where == "top":
        return "the top of both"
    if abs(one.up - other.up) > _APART:
        return "the slope length of both"
    return "eaves, top and inset of both"
