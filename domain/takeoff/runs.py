"""Runs cut one after another from what is bought in lengths: edge strips, rolls of underlay."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, repeat


@dataclass(frozen=True, slots=True)
class RunPiece:
    """One piece of a run, in millimetres."""

    run: int
    """Which run it is of, from 0."""
    stock: int
    """From which strip or roll it is cut, from 1."""
    start: Fraction
    """How far from the beginning of the run it begins."""
    length: Fraction
    """As it is cut: with what it laps the piece before."""

    @property
    def end(self) -> Fraction:
        """How far from the beginning of the run it reaches."""
        return self.start + self.length


@dataclass(frozen=True, slots=True)
class Runs:
    """What a number of runs takes."""

    pieces: tuple[RunPiece, ...]
    """In the order in which they are cut and laid."""

    @property
    def bought(self) -> int:
        """Strips or rolls begun."""
        return self.pieces[-1].stock if self.pieces else 0

    @property
    def laid(self) -> Fraction:
        """Millimetres laid, laps included and waste not."""
        return sum((piece.length for piece in self.pieces), Fraction(0))

    @property
    def laps(self) -> int:
        """Pieces that follow another within a run."""
        return sum(piece.start > 0 for piece in self.pieces)


def cut_runs(
    needs: Iterable[Fraction],
    stock: Fraction,
    lap: Fraction,
    worth_laying: Callable[[Fraction, Fraction], bool],
    first: Iterable[Fraction] = (),
) -> Runs:
    """Cut runs of the needed lengths, in order, from stock of one length; all in millimetres.

    Pieces of stock of other lengths may come ``first``.

    Each piece of a run after the first laps the one before. A remnant begins the next run if
    ``worth_laying(remnant, need)``, and is waste otherwise. ``stock`` must be longer than ``lap``.
    """
    return Runs(tuple(_pieces(needs, chain(first, repeat(stock)), lap, worth_laying)))


def _pieces(
    needs: Iterable[Fraction],
    stock: Iterator[Fraction],
    lap: Fraction,
    worth_laying: Callable[[Fraction, Fraction], bool],
) -> Iterator[RunPiece]:
    """Give the pieces in the order in which they are cut."""
    bought, remnant = 0, Fraction(0)
    for run, need in enumerate(needs):
        if not worth_laying(remnant, need):
            bought, remnant = bought + 1, next(stock)
        start = Fraction(0)
        while remnant < need - start:
            yield RunPiece(run, bought, start, remnant)
            start += remnant - lap
            bought, remnant = bought + 1, next(stock)
        yield RunPiece(run, bought, start, need - start)
        remnant -= need - start
