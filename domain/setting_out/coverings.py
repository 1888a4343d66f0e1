"""Coverings: what a strip of shingles or a sheet of felt measures, and how it is laid.

Every figure is common practice and a default: the maker's instructions come first, and each is a
field that can be changed. Lengths are exact millimetres, angles exact degrees.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from types import MappingProxyType
from typing import TypeAlias

from domain.errors import Refused
from domain.units import Angle


@dataclass(frozen=True, slots=True)
class Shingle:
    """One kind of strip shingle and the rules it is laid by."""

    key: str
    """What it is called on record: "square-butt"."""
    words: str
    """What people call it: "square butt shingles"."""
    width: Fraction
    """Length of a strip along the course."""
    height: Fraction
    """Of a strip up the slope, tabs included."""
    tabs: int
    """Tabs in a strip."""
    cut_out: Fraction
    """Depth of the cut-outs between the tabs."""
    gauge: Fraction
    """The greatest exposure of any course."""
    final_gauge: Fraction
    """The greatest exposure of the final course."""
    nail_line: Fraction = Fraction(25)
    """How far above the cut-outs a strip is nailed."""
    least_end: Fraction = Fraction(100)
    """Least width of the end pieces of a row where they are nailed."""
    turned_down: Fraction = Fraction(50)
    """What an edge strip turns down at a top edge."""
    flashing: Fraction = Fraction(100)
    """What a flashing covers of the slope at an abutment."""
    ridge_exposure: Fraction = Fraction(145)
    """Of ridge and hip pieces, along the run."""
    edge_corner: Fraction = Fraction(50)
    """What an edge strip runs on at each end of its edge, for the corner."""
    edge_lap: Fraction = Fraction(50)
    """What one edge strip laps the one before."""
    edge_remnant: Fraction = Fraction(200)
    """Least length of an edge strip's remainder that is worth laying."""
    breakage_percent: int = 3
    """Strips bought over what is laid, rounded up."""
    advised_pitch: Fraction = Fraction(15)
    """Degrees; under it there is a caution."""
    least_pitch: Fraction = Fraction(19, 2)
    """Degrees; under it the covering is refused."""

    @property
    def tab(self) -> Fraction:
        """Width of one tab, the cut-out counted with it."""
        return self.width / self.tabs

    @property
    def half_tab(self) -> Fraction:
        """What the first strip of an odd course is trimmed by, so that courses break joint."""
        return self.tab / 2

    @property
    def nailed_at(self) -> Fraction:
        """Height of the nails above the butt."""
        return self.cut_out + self.nail_line

    def with_breakage(self, laid: int) -> int:
        """Strips to have in hand for so many laid: the breakage is rounded up."""
        return laid + ceil(Fraction(laid * self.breakage_percent, 100))


SQUARE_BUTT = Shingle(
    key="square-butt",
    words="square butt shingles",
    width=Fraction(1000),
    height=Fraction(340),
    tabs=4,
    cut_out=Fraction(150),
    gauge=Fraction(145),
    final_gauge=Fraction(143),
)

HEXAGONAL = Shingle(
    key="hexagonal",
    words="hexagonal shingles",
    width=Fraction(1000),
    height=Fraction(340),
    tabs=3,
    cut_out=Fraction(140),
    gauge=Fraction(135),
    final_gauge=Fraction(135),
)

SHINGLES: Mapping[str, Shingle] = MappingProxyType({s.key: s for s in (SQUARE_BUTT, HEXAGONAL)})
"""Every shingle by its key."""


@dataclass(frozen=True, slots=True)
class Felt:
    """Felt in rolls and the rules it is laid by, in sheets along the eaves."""

    key: str = "felt"
    """What it is called on record."""
    words: str = "felt"
    """What people call it."""
    width: Fraction = Fraction(1000)
    """Of a sheet, up the slope."""
    turned_down: Fraction = Fraction(50)
    """Over every free edge."""
    side_lap: Fraction = Fraction(75)
    """Of one row over the row below."""
    end_lap: Fraction = Fraction(150)
    """Within a row or a run of capping, where one piece follows another."""
    capping: Fraction = Fraction(300)
    """Width of the strips over ridges and hips."""
    capping_end: Fraction = Fraction(50)
    """What a run of capping goes on at each of its ends."""
    nail_centres: Fraction = Fraction(50)
    """Along free edges, side laps and both edges of the capping."""
    advised_pitch: Fraction = Fraction(5)
    """Degrees; under it there is a caution."""
    least_pitch: Fraction = Fraction(3, 2)
    """Degrees, a fall of about 1 in 40; under it the covering is refused."""

    @property
    def capping_strips(self) -> int:
        """How many strips of capping a roll gives side by side."""
        return int(self.width // self.capping)


FELT = Felt()

Covering: TypeAlias = Shingle | Felt

COVERINGS: Mapping[str, Covering] = MappingProxyType({**SHINGLES, FELT.key: FELT})
"""Every covering by its key."""


def check_pitch(covering: Covering, pitch: Angle | None) -> tuple[str, ...]:
    """Return the cautions about a covering at a pitch, each a sentence; None is a pitch not known.

    Raises :class:`Refused` under the least pitch the covering keeps water out at.
    """
    least, advised = float(covering.least_pitch), float(covering.advised_pitch)
    if pitch is None:
        return (f"Pitch not known: {advised:g}° or more is advised for {covering.words}.",)
    if pitch.degrees < covering.least_pitch:
        remedy = f"Choose another covering: {least:g}° is the very least for {covering.words}."
        raise Refused("Pitch", pitch.typed, remedy)
    if pitch.degrees < covering.advised_pitch:
        return (f"Pitch {pitch.typed} is under the {advised:g}° advised for {covering.words}.",)
    return ()
