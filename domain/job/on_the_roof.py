"""What lies on the roof: the old covering, and what the deck was left under once it was off."""

from dataclasses import dataclass
from datetime import date
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
    """As it was recorded before samples were: the form no longer offers it."""


class Sample(StrEnum):
    """What the laboratory found in a sample of the old covering."""

    CLEAR = "clear"
    FOUND = "asbestos found"


@dataclass(frozen=True, slots=True)
class OldCovering:
    """What is stripped."""

    kind: OldKind | None = None
    layers: int | None = None
    suspicion: Suspicion | None = None
    cleared_by: str = ""
    """The accredited laboratory that tested a sample of it."""
    sample: Sample | None = None
    """None while none was tested."""
    sample_number: str = ""
    """The laboratory's number of it."""
    tested_on: date | None = None
    removed_by: str = ""
    """Who took it off, licensed or trained for it, where asbestos was found."""
    removed_on: date | None = None
    consignment_note: str = ""
    """Number of the consignment note that went with it as hazardous waste."""
    taken_by: str = ""
    """Who takes the old covering away if the trader does not; empty means the trader."""

    @property
    def is_fragile(self) -> bool:
        """Whether it breaks under a person: cement sheet always does, and cannot bear weight."""
        return self.kind is OldKind.CEMENT_SHEET

    @property
    def may_hold_asbestos(self) -> bool:
        """Whether nothing may be done to it yet: suspected, and neither found clear nor removed.

        Cement sheet is suspected whatever its year, and asbestos that was found at any age.
        """
        if self.kind is OldKind.NONE:
            return False
        suspected = self.suspicion in (Suspicion.BEFORE, Suspicion.CLEARED) or self.is_fragile
        settled = self.is_found_clear or self.is_removed
        return (suspected or self.sample is Sample.FOUND) and not settled

    @property
    def is_found_clear(self) -> bool:
        """Whether a laboratory found a sample clear: which, its number and when.

        What was recorded before samples were has only who found it clear.
        """
        if self.sample is None:
            return self.suspicion is Suspicion.CLEARED and bool(self.cleared_by.strip())
        named = bool(self.cleared_by.strip() and self.sample_number.strip())
        return self.sample is Sample.CLEAR and named and self.tested_on is not None

    @property
    def is_removed(self) -> bool:
        """Whether the asbestos that was found is gone: by whom, when, and its consignment note."""
        named = bool(self.removed_by.strip() and self.consignment_note.strip())
        return self.sample is Sample.FOUND and named and self.removed_on is not None


class Cover(StrEnum):
    """How the deck was left at the end of the day it was stripped."""

    LAID = "laid the same day"
    SHEETED = "sheeted"
    OPEN = "open"
    """Stripped and not sheeted: the dearest thing to leave overnight."""
