"""Every covering there is, listed once.

To add a covering, write its file and name it here: the survey's choice, prices, stock, comparison,
quote and papers follow.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeAlias

from domain.coverings.felt import FELT, Felt
from domain.coverings.hexagonal import HEXAGONAL
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT

Covering: TypeAlias = Shingle | Felt

ALL: tuple[Covering, ...] = (SQUARE_BUTT, HEXAGONAL, FELT)
"""Every covering, in the order in which they are chosen and compared."""

COVERINGS: Mapping[str, Covering] = MappingProxyType({each.key: each for each in ALL})
"""Every covering by its key."""

SHINGLES: Mapping[str, Shingle] = MappingProxyType(
    {each.key: each for each in ALL if isinstance(each, Shingle)}
)
"""Every kind of shingle by its key."""


def name_of(key: str) -> str:
    """Return what a covering is called beside others; one that is not known by its key."""
    return COVERINGS[key].name if key in COVERINGS else key
