"""Square butt shingles. Every figure is common practice."""

from fractions import Fraction

from domain.coverings.shingle import Shingle

SQUARE_BUTT = Shingle(
    key="square-butt",
    words="square butt shingles",
    width=Fraction(1000),
    height=Fraction(340),
    tabs=4,
    cut_out=Fraction(150),
    gauge=Fraction(145),
    final_gauge=Fraction(143),
    unit_kg=Fraction("1.3"),
)
