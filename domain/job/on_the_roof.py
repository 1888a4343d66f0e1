"""What lies on the roof: the old covering, and what the deck was left under once it was off."""

from dataclasses import dataclass
from enum import StrEnum


class OldKind(StrEnum):
    """What lies on the roof now."""

    FELT = "felt"
    SHINGLES = "shingles"
    CEMENT_SHEET = "looks like cement sheet"
    OTHER = "other"
    NONE = "bare deck"


class Suspicion(StrEnum):
    """Whether the old covering may be from before 2000, when asbestos was still in use."""

    AFTER = "from 2000 or later"
    BEFORE = "may be from before 2000"
    CLEARED = "before 2000, tested and clear"


@dataclass(frozen=True, slots=True)
class OldCovering:
    """What is stripped."""

    kind: OldKind | None = None
    layers: int | None = None
    suspicion: Suspicion | None = None
    cleared_by: str = ""
    """The licensed or trained person who tested it, when suspicion is CLEARED."""

    @property
    def may_hold_asbestos(self) -> bool:
        """Whether it is to be tested before anything is done to it.

        Cement sheet is suspected whatever its year. Once tested, only a named person clears it.
        """
        if self.kind is OldKind.NONE:
            return False
        if self.suspicion is Suspicion.CLEARED:
            return not self.cleared_by.strip()
        return self.suspicion is Suspicion.BEFORE or self.kind is OldKind.CEMENT_SHEET


class Cover(StrEnum):
    """How the deck was left at the end of the day it was stripped."""

    LAID = "laid the same day"
    SHEETED = "sheeted"
    OPEN = "open"
    """Stripped and not sheeted: the dearest thing to leave overnight."""
