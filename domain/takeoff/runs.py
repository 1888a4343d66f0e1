"""Runs cut one after another from what is bought in lengths: edge strips, rolls of underlay."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Runs:
    """What a number of runs takes."""

    bought: int
    """Strips or rolls begun."""
    laid: Fraction
    """Millimetres laid, laps included and waste not."""
    laps: int
    """Pieces that follow another within a run."""


def cut_runs(
    needs: Iterable[Fraction],
    stock: Fraction,
    lap: Fraction,
    worth_laying: Callable[[Fraction, Fraction], bool],
) -> Runs:
    """Cut runs of the needed lengths, in order, from stock of one length; all in millimetres.

    Each piece of a run after the first laps the one before. A remnant begins the next run if
    ``worth_laying(remnant, need)``, and is waste otherwise. ``stock`` must be longer than ``lap``.
    """
    bought, laps, laid, remnant = 0, 0, Fraction(0), Fraction(0)
    for run in needs:
        need = run
        if not worth_laying(remnant, need):
            bought, remnant = bought + 1, stock
        while remnant < need:
            laid += remnant
            need = need - remnant + lap
            bought, laps, remnant = bought + 1, laps + 1, stock
        laid += need
        remnant -= need
    return Runs(bought, laid, laps)
