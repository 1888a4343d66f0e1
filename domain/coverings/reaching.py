"""Shingles laid past the edges of a roof, where water is to drip clear of it."""

from dataclasses import replace

from domain.coverings.felt import Felt
from domain.coverings.registry import Covering
from domain.coverings.shingle import MOST_PAST_EDGE
from domain.errors import Refused
from domain.units import Length, show_mm


def reaching(covering: Covering, past_edge: Length | None) -> Covering:
    """Return a covering laid so far past eaves and verges; None is not at all, as felt always is.

    Raises :class:`Refused` for strips further out than they hold.
    """
    if isinstance(covering, Felt) or past_edge is None:
        return covering
    if past_edge.mm > MOST_PAST_EDGE:
        raise Refused("past_edge", past_edge.typed, f"Give {show_mm(MOST_PAST_EDGE)} or less.")
    return replace(covering, past_edge=past_edge.mm)
