"""What was measured and seen at the visit. None always means: not recorded yet."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from domain.job.on_the_roof import OldCovering
from domain.setting_out.measures import RoofMeasures
from domain.snapshot import kept_as
from domain.units import Length


class DeckKind(StrEnum):
    """What the covering is nailed to."""

    BOARDS = "boards"
    SHEET = "sheet"


class DeckState(StrEnum):
    """What looking at the deck from above and below came to."""

    SOUND = "sound"
    REPLACE = "metres to replace"
    UNSAFE = "unsafe to load"


@dataclass(frozen=True, slots=True)
class CoveringChoice:
    """The covering the customer is offered first."""

    key: str
    """Key in :data:`domain.coverings.registry.COVERINGS`: "square-butt", "felt"."""
    colour: str = ""


@dataclass(frozen=True, slots=True)
class Deck:
    """The deck, looked at from both sides."""

    kind: DeckKind | None = None
    thickness: Length | None = None
    profile: str = ""
    """Boards: tongue and groove, shiplap, square edge."""
    cover_width: Length | None = None
    """Boards: what one board covers of the slope."""
    seen_above: bool | None = None
    seen_below: bool | None = None
    nails_inside: bool | None = None
    """Whether nails show inside: the customer may mind, and new ones must not be longer."""
    state: DeckState | None = None
    replace_m: Decimal | None = None
    """Metres of board to replace that can be seen now; None unless state is REPLACE."""
    works_off: bool | None = None
    """Strong enough to work off; if not, the work is done from the side or from boards."""
    nail_mm: int | None = None
    """Length of the shingle nails chosen for this deck; None for the trader's usual, if it fits."""


NONE_THERE = "none"
"""What was looked for and is not there."""


@dataclass(frozen=True, slots=True)
class Edges:
    """What stands at the edges, in the trader's words; empty means not noted.

    What begins with "renew" is bought and fitted anew (:mod:`domain.estimate.edge_parts`).
    """

    barge_boards: str = ""
    fascia: str = ""
    finials: str = ""
    drip_trim: str = ""
    gutter: str = ""
    slope_one: str = ""
    """What slope 1 looks to: the gate, north."""
    wind_from: str = ""
    """Where the wind mostly comes from at the roof; empty for south-west."""
    ventilation: str = ""
    """Only asked when the building is lined."""
    lined: bool | None = None
    past_edge: Length | None = None
    """What strips reach past eaves and verges; None counts as nothing."""


@dataclass(frozen=True, slots=True)
class Around:
    """What is looked for before stripping: empty is not looked, :data:`NONE_THERE` none there."""

    wildlife: str = ""
    """Bats, signs of them, nests in use."""
    cables: str = ""
    """To or over the building."""
    shared: str = ""
    """A wall or roof shared with a neighbour, or the neighbour's side needed."""
    footing: str = ""
    """What a ladder would not stand firm on."""

    def is_open(self, name: str) -> bool:
        """Tell whether something was not looked for yet."""
        return not getattr(self, name).strip()

    def found(self, name: str) -> str:
        """Return what is there of something, in the trader's words; empty if nothing is."""
        words: str = getattr(self, name).strip()
        return "" if words.casefold() == NONE_THERE else words


@dataclass(frozen=True, slots=True)
class AccessPlan:
    """How the roof is reached and worked on."""

    means: str = ""
    """Ladder and roof ladder, hop-ups, tower, boards from the side."""
    two_people: bool | None = None
    photos: str = ""
    """Where the photographs are kept, or what they show; empty means none."""


AROUND_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "wildlife": "bats and nests",
        "cables": "cables",
        "shared": "shared wall or roof",
        "footing": "bad ladder footing",
    }
)
"""What each is called among other words."""


@dataclass(frozen=True, slots=True)
class Survey:
    """The survey as far as it is recorded."""

    measures: RoofMeasures = field(metadata=kept_as("roof"))
    covering: CoveringChoice | None = None
    deck: Deck = field(default_factory=Deck)
    old: OldCovering = field(default_factory=OldCovering, metadata=kept_as("old_covering"))
    edges: Edges = field(default_factory=Edges)
    around: Around = field(default_factory=Around)
    access: AccessPlan = field(default_factory=AccessPlan)
    visited_on: date | None = None
