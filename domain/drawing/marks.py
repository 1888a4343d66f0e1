"""What is written on a piece so that it is found in the cut list, and the other way round."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, product
from string import ascii_lowercase

from domain.cutting.plan import CutStrip, Part, Piece


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """Which part of which strip a piece is: strip 12, part a."""

    strip: int
    """Its number in the cut list, from 1; in felt, of the roll; 0 for a pile of many."""
    letter: str
    """Of the part within its strip or roll, from the left end; of a pile."""

    def __str__(self) -> str:
        return f"{self.strip or ''}{self.letter}"


def each_letter() -> Iterator[str]:
    """Give a, b and so on to z, then aa: there is no end to what a roll can be cut into."""
    return ("".join(more) for size in count(1) for more in product(ascii_lowercase, repeat=size))


def lettered(strip: CutStrip) -> Iterator[tuple[str, Part]]:
    """Give every part of a strip behind its letter; ridge pieces and spare have none: empty."""
    letters = each_letter()
    for part in strip.parts:
        yield (next(letters) if part.piece else "", part)


def marks(cut_list: Sequence[CutStrip]) -> Mapping[Piece, Mark]:
    """Return the mark of every piece that is cut from a strip of the list."""
    return {
        part.piece: Mark(number, letter)
        for number, strip in enumerate(cut_list, start=1)
        for letter, part in lettered(strip)
        if part.piece
    }
