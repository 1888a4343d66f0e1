"""The pages a record is kept on, named once for everything that points at one."""

from enum import StrEnum


class PageName(StrEnum):
    """The name of a page, as checks and tasks point at it."""

    ENQUIRY = "enquiry"
    SURVEY = "survey"
    QUOTE = "quote"
    BOOKING = "booking"
    STRIP = "strip"
    MATERIALS = "materials"
    """What was used: materials and hours."""
    LAYING = "laying"
    SIGN_OFF = "signoff"
    MONEY = "money"
    TRADER = "trader"
    """The trader's details: no page of a job."""
