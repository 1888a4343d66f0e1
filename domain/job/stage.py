"""How far a job has come, how it can end, and how the work of a day went."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Stage(StrEnum):
    """How far a job has come: the word says what is already true. In order."""

    ENQUIRY = "enquiry"
    SURVEY = "survey"
    QUOTED = "quoted"
    BOOKED = "booked"
    STRIPPED = "stripped"
    LAID = "laid"
    SIGNED_OFF = "signed off"

    @property
    def rank(self) -> int:
        """0 for an enquiry, 6 for signed off."""
        return _RANKS[self]

    @property
    def done(self) -> str:
        """As it is said of a job: marked as surveyed."""
        return "surveyed" if self is Stage.SURVEY else self.value


_RANKS: Mapping[Stage, int] = MappingProxyType({stage: rank for rank, stage in enumerate(Stage)})


class Ending(StrEnum):
    """How a job can end before it is done."""

    DECLINED = "declined"
    CALLED_OFF = "called off"


class WentAhead(StrEnum):
    """How the work of a booked day went."""

    DONE = "done"
    """As planned: it was stripped, laid, or both, as the day was booked for."""
    RAINED_OFF = "rained off"
    """Nothing was done: the day is to be booked again."""
    CUSTOMER_OUT = "customer out"
    """Nobody was there to let one in: as rained off, like those that follow."""
    ILL = "I was ill"
    VAN = "van broken down"
    NO_MATERIALS = "materials did not come"
    """They are no longer counted on either: they are to be ordered, or asked after."""
    PART_DONE = "part done"
    """Not finished, and sheeted for the night: the laying is to be booked."""
