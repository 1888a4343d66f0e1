"""What stands along the edges of a roof by the metre: drip trim, fascia, barge boards, gutter.

Common practice: a drip trim along eaves and verges, a fascia along the eaves and the high edge of
a pent, barge boards along the verges, a gutter along the eaves. Lengths are exact millimetres;
what joints and corners take is not counted.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from domain.coverings.materials import Material
from domain.job.survey import Edges
from domain.quantity import to_decimal
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.kinds import EdgeKind

_ALONG: Mapping[Material, frozenset[EdgeKind]] = MappingProxyType(
    {
        Material.DRIP_TRIM: frozenset({EdgeKind.EAVES, EdgeKind.VERGE}),
        Material.FASCIA: frozenset({EdgeKind.EAVES, EdgeKind.TOP}),
        Material.BARGE_BOARDS: frozenset({EdgeKind.VERGE}),
        Material.GUTTER: frozenset({EdgeKind.EAVES}),
    }
)
_NONE = re.compile(r"(?:none|no|nil)\b[^a-z]*", re.I)
_RENEW = re.compile(r"(?:renew|replace|new|to (?:be )?(?:renew|replace)(?:e?d)?)\b", re.I)


class EdgeState(StrEnum):
    """What is to become of what stands along an edge."""

    NOT_NOTED = "not noted"
    NONE = "none"
    STAYS = "stays"
    RENEW = "renew"


@dataclass(frozen=True, slots=True)
class EdgePart:
    """One thing along the edges."""

    material: Material
    metres: Decimal
    """Of all the edges that it stands along, to a hundredth."""
    state: EdgeState
    noted: str
    """In the trader's words."""


def edge_parts(roof: Roof, edges: Edges) -> tuple[EdgePart, ...]:
    """Every part with its metres on this roof and what the survey says of it."""
    noted = {
        Material.DRIP_TRIM: edges.drip_trim,
        Material.FASCIA: edges.fascia,
        Material.BARGE_BOARDS: edges.barge_boards,
        Material.GUTTER: edges.gutter,
    }
    return tuple(
        EdgePart(material, _metres(roof, material), state_of(text), text.strip())
        for material, text in noted.items()
    )


def to_renew(roof: Roof, edges: Edges) -> tuple[EdgePart, ...]:
    """The parts that are bought and fitted anew, where this roof has such an edge."""
    return tuple(
        part for part in edge_parts(roof, edges) if part.state is EdgeState.RENEW and part.metres
    )


def stay_on_verges(roof: Roof, edges: Edges) -> bool:
    """Tell whether barge boards stand there that stay: the old covering is turned down behind."""
    return any(
        part.material == Material.BARGE_BOARDS and part.state is EdgeState.STAYS and part.metres
        for part in edge_parts(roof, edges)
    )


def state_of(text: str) -> EdgeState:
    """What a note begins with: ``renew``, ``replace`` or ``new``; ``none``; else it stays."""
    words = text.strip()
    if not words:
        return EdgeState.NOT_NOTED
    if _RENEW.match(words):
        return EdgeState.RENEW
    return EdgeState.NONE if _NONE.fullmatch(words) else EdgeState.STAYS


def _metres(roof: Roof, material: Material) -> Decimal:
    edges = (edge for slope in roof.slopes for edge in slope.edges)
    along = sum((e.length for e in edges if e.kind in _ALONG[material]), Fraction(0))
    return to_decimal(along / 1000)
