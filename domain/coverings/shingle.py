"""Strip shingles: what every kind of them is described by, and the rules they are laid by.

Every figure is common practice and a default: the maker's instructions come first. Lengths are
exact millimetres, angles exact degrees. Under them goes underlay; nails and mastic hold them.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil
from typing import ClassVar

MOST_PAST_EDGE = Fraction(30)
"""Millimetres that a strip may reach past an edge; further out it bends. Common practice."""


@dataclass(frozen=True, slots=True)
class Shingle:
    """One kind of strip shingle and the rules it is laid by."""

    key: str
    """What it is called in the book: "square-butt"."""
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
    unit_kg: Fraction
    """Kilograms of a strip, where a price does not say what a pack weighs."""
    foot: Fraction = Fraction(1)
    """What a tab keeps of its width at the butt: all of it, or less where its sides slant."""
    per_pack: int = 21
    """Strips in a pack, where a price does not say."""
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
    edge_nail_centres: Fraction = Fraction(50)
    """Between the nails of an edge strip."""
    edge_lap: Fraction = Fraction(50)
    """What one edge strip laps the one before."""
    edge_remnant: Fraction = Fraction(200)
    """Least length of an edge strip's remainder that is worth laying."""
    nailed_through: Fraction = Fraction(6)
    """What a nail goes through above the deck: two strips of 3."""
    breakage_percent: int = 3
    """Strips bought over what is laid, rounded up."""
    advised_pitch: Fraction = Fraction(15)
    """Degrees; under it there is a caution."""
    least_pitch: Fraction = Fraction(19, 2)
    """Degrees; under it the covering is refused."""
    past_edge: Fraction = Fraction(0)
    """What strips reach past eaves and verges: 6 to 10 mm where there is a drip trim."""
    tab: Fraction = field(init=False, repr=False, compare=False)
    """Width of one tab, the cut-out counted with it."""

    unit: ClassVar[str] = "strip"
    """What it is counted in on the roof, singular."""
    pack_word: ClassVar[str] = "pack"
    """What it is bought in, singular."""

    def __post_init__(self) -> None:
        # Worked out once: every cut and every joint of a roof asks for it.
        object.__setattr__(self, "tab", self.width / self.tabs)

    @property
    def name(self) -> str:
        """What it is called beside other coverings: "square butt"."""
        return self.words.removesuffix(" shingles")

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
