"""Felt in rolls: its measures, its laps at the sides and ends, and the rules it is laid by.

Every figure is common practice and a default: the maker's instructions come first. Lengths are
exact millimetres, angles exact degrees. Nails and lap adhesive hold it; it lies on no underlay.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Felt:
    """Felt in rolls and the rules it is laid by, in lengths along the eaves."""

    key: str = "felt"
    """What it is called in the book."""
    words: str = "felt"
    """What people call it."""
    width: Fraction = Fraction(1000)
    """Of a length, up the slope."""
    turned_down: Fraction = Fraction(50)
    """Over every free edge."""
    side_lap: Fraction = Fraction(75)
    """Of one row over the row below."""
    end_lap: Fraction = Fraction(150)
    """Within a row or a run of capping, where one piece follows another."""
    capping: Fraction = Fraction(300)
    """Width of the strips over ridges and hips."""
    short_of_ridge: Fraction = Fraction(50)
    """What the last row stops short of a ridge or a point: half the capping laps the rest."""
    off_break: Fraction = Fraction(75)
    """No side lap lies so near to where a barn roof changes its pitch."""
    capping_end: Fraction = Fraction(50)
    """What a run of capping goes on at each of its ends."""
    nailed_through: Fraction = Fraction(3)
    """What a nail goes through above the deck."""
    nail_centres: Fraction = Fraction(50)
    """Along free edges, side laps and both edges of the capping."""
    advised_pitch: Fraction = Fraction(5)
    """Degrees; under it there is a caution."""
    least_pitch: Fraction = Fraction(3, 2)
    """Degrees, a fall of about 1 in 40; under it the covering is refused."""

    roll: Fraction = Fraction(10_000)
    """Length of a roll, where a price does not say."""
    unit_kg: Fraction = Fraction("3.5")
    """Kilograms of a metre, where a price does not say what a roll weighs."""

    unit: ClassVar[str] = "m"
    """What it is counted in on the roof, singular."""
    pack_word: ClassVar[str] = "roll"
    """What it is bought in, singular."""

    @property
    def name(self) -> str:
        """What it is called beside other coverings."""
        return self.words

    @property
    def per_pack(self) -> Fraction:
        """Metres on a roll, where a price does not say."""
        return self.roll / 1000

    @property
    def capping_strips(self) -> int:
        """How many strips of capping a roll gives side by side."""
        return int(self.width // self.capping)


FELT = Felt()
