"""Lists one more shingle before the felt: a plugin of pytest, so that it comes before all else."""

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from domain.coverings import registry
from domain.coverings.felt import FELT
from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.square_butt import SQUARE_BUTT

ROUND = replace(
    SQUARE_BUTT,
    key="round-butt",
    words="round butt shingles",
    tabs=5,
    gauge=Fraction(140),
    final_gauge=Fraction(140),
    per_pack=18,
)

_ALL = (SQUARE_BUTT, HEXAGONAL, ROUND, FELT)
vars(registry).update(
    ALL=_ALL,
    COVERINGS=MappingProxyType({each.key: each for each in _ALL}),
    SHINGLES=MappingProxyType({each.key: each for each in _ALL[:-1]}),
)
