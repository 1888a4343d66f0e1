"""What is written on a piece so that it is found in the cut list, and the other way round."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count, product
from string import ascii_lowercase, digits


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """Which pile of cut parts a piece is from, A2; in felt, which length of which roll, 3b."""

    strip: int
    """In felt, the number of the roll; 0 for a pile, which may be of many strips."""
    letter: str
    """The name of the pile; in felt the letter of the length, from the left end."""

    def __str__(self) -> str:
        return "".join(self.halves)

    @property
    def halves(self) -> tuple[str, str]:
        """What can be written over one another where there is little room: A and 2, 3 and b."""
        if self.strip:
            return str(self.strip), self.letter
        way = self.letter.rstrip(digits)
        return way, self.letter.removeprefix(way)


def each_letter() -> Iterator[str]:
    """Give a, b and so on to z, then aa: there is no end to what a roll can be cut into."""
    return ("".join(more) for size in count(1) for more in product(ascii_lowercase, repeat=size))
