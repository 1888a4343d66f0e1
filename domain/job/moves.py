"""What is asked of the book about one job, each as one value: a new field changes no call."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from domain.job.account import Allocation
from domain.job.booked_day import BookedDay
from domain.job.job import Enquiry
from domain.job.people import Customer, Site
from domain.job.stage import Ending, Stage, WentAhead
from domain.money import Pence


@dataclass(frozen=True, slots=True)
class EnquiryRecord:
    """Who asks, where the roof is, and what they say."""

    customer: Customer
    site: Site
    enquiry: Enquiry


@dataclass(frozen=True, slots=True)
class Booking:
    """The days of a job, in place of those booked before."""

    days: tuple[BookedDay, ...]
    materials_in_hand: bool


@dataclass(frozen=True, slots=True)
class DayAnswer:
    """Whether the work of a booked day went ahead."""

    day: date
    went: WentAhead
    found: str = ""
    """What was found under the old covering, where the day is the first; empty: not said yet."""


@dataclass(frozen=True, slots=True)
class DaysMoved:
    """Booked days moved to others, so many days on."""

    days: tuple[BookedDay, ...]
    """As they were booked."""
    by: int
    """How many days later, 1 or more."""


@dataclass(frozen=True, slots=True)
class Sending:
    """What is recorded when the newest quote was sent."""

    on: date
    valid_until: date
    notes: Mapping[str, str]
    """Passes cautions, by check id."""


@dataclass(frozen=True, slots=True)
class Received:
    """Money that came in."""

    document_id: int | None
    """The invoice it is for; None for none, such as money before any is issued."""
    pence: Pence
    on: date
    method: str
    """One of :data:`domain.job.PAYMENT_METHODS`."""
    cis: Pence = 0
    """What a contractor deducted of it, besides."""
    shares: tuple[Allocation, ...] = ()
    """How it is shared over invoices of several jobs of the customer's; none for one job's."""


@dataclass(frozen=True, slots=True)
class StageMove:
    """A step on to the next stage."""

    to: Stage
    on: date
    notes: Mapping[str, str]
    """Passes cautions, by check id."""


@dataclass(frozen=True, slots=True)
class StageBack:
    """A job taken back to an earlier stage."""

    to: Stage
    why: str
    on: date


@dataclass(frozen=True, slots=True)
class Closing:
    """The end of a job before it is done."""

    ending: Ending
    why: str
    on: date
    told_on: date | None = None
    """When the customer said so; None: the day on which it is recorded."""
    kept: Pence = 0
    """What of the money asked for is kept, VAT included."""
    kept_why: str = ""
    """What that pays for."""


@dataclass(frozen=True, slots=True)
class Reopening:
    """The taking up of a job that had ended."""

    why: str
    on: date
