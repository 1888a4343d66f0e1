"""A stop or a caution, and what it looks at."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from domain.days.forecast import Forecast
from domain.job import DocumentKind, Job, Stage
from domain.page_names import PageName
from domain.trader import Trader


class Severity(StrEnum):
    """Whether a check that does not hold can be passed."""

    STOP = "stop"
    """Never."""
    CAUTION = "caution"
    """With a note that stays on the job."""


class Part(StrEnum):
    """Checks that are asked together: one question, answered at one place in one go."""

    ENQUIRY = "The enquiry"
    SIZES = "The roof"
    EDGES = "The edges"
    DECK = "The deck"
    OLD = "The old covering"
    ASBESTOS = "Asbestos"
    AROUND = "Before stripping"
    ACCESS = "Access"
    AGREED = "The acceptance"
    DAY = "The day"


@dataclass(frozen=True, slots=True)
class OtherWork:
    """A day kept for another job that is not laid yet."""

    day: date
    hours: Decimal
    ref: str
    place: str
    kg: Fraction | None = None
    """What goes on the van for it; None where no quote says, or the day is not one of this job."""


@dataclass(frozen=True, slots=True)
class Situation:
    """A job and everything outside it that a check looks at."""

    job: Job
    trader: Trader
    today: date
    forecasts: Mapping[date, Forecast]
    """The recorded forecasts, by day; at least those of the booked days."""
    others: tuple[OtherWork, ...] = ()
    """What is booked for other jobs, from today on."""
    last_issued: Mapping[DocumentKind, date] = field(default_factory=dict)
    """The day of the last paper of each series, of all jobs: numbers run by the day."""
    photographs: int = 0
    """Pictures in the folder of the job."""


Holds: TypeAlias = Callable[[Situation], bool]
"""Tells whether what a check asks for is so.

A caution about something not recorded at all holds: it is too soon to ask.
"""


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that must be so before a job is marked as a stage."""

    id: str
    """Stays the same for good: recorded notes name it."""
    stage: Stage
    """The stage it stands before: asked once the job is to be marked as that."""
    severity: Severity
    holds: Holds
    words: str
    """A short plain question."""
    remedy: str
    """What settles it, in a sentence or two."""
    page: PageName
    """Where it is settled."""
    part: Part | None = None
    """With what it is asked; None is by itself."""
    figures: Callable[[Situation], str] | None = None
    """Says the figures it goes by, in a sentence that stands before the remedy."""
    remedy_now: Callable[[Situation], str] | None = None
    """Says the remedy where it hangs on what is recorded of it by now."""

    def told_of(self, situation: Situation) -> "Check":
        """Return the check as it is shown for a job: its figures, if any, before its remedy."""
        remedy = self.remedy if self.remedy_now is None else self.remedy_now(situation)
        figures = "" if self.figures is None else f"{self.figures(situation)} "
        return replace(self, remedy=f"{figures}{remedy}", figures=None, remedy_now=None)
