"""How far a job has come, and how it can end."""

from enum import StrEnum


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
        return list(Stage).index(self)


class Ending(StrEnum):
    """How a job can end before it is done."""

    DECLINED = "declined"
    CALLED_OFF = "called off"
