"""Hexagonal shingles. Every figure is common practice."""

from fractions import Fraction

from domain.coverings.shingle import Shingle

HEXAGONAL = Shingle(
    key="hexagonal",
    words="hexagonal shingles",
    width=Fraction(1000),
    height=Fraction(340),
    tabs=3,
    cut_out=Fraction(140),
    gauge=Fraction(135),
    final_gauge=Fraction(135),
    unit_kg=Fraction("1.2"),
    foot=Fraction(1, 2),  # half of a regular hexagon; its height would be √3/4 of a tab, 144
)
