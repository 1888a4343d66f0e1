"""A day kept for a job."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

LAY = "lay"
TASKS = ("strip, lay", "strip", LAY, "ridge", "snags")
"""What a day is kept for, as it can be chosen; the first is that of a day of which nothing is said.
Older days may have other words."""


@dataclass(frozen=True, slots=True)
class BookedDay:
    """A day, or part of one, kept for the job."""

    day: date
    hours: Decimal
    task: str = TASKS[0]
    """A few words for the week."""
    id: int | None = None
