"""A day kept for a job."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class BookedDay:
    """A day, or part of one, kept for the job."""

    day: date
    hours: Decimal
    task: str = "strip, lay"
    """A few words for the week: "strip", "lay", "ridge"."""
    id: int | None = None
