"""What the week is made from: a light reading of the book."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from domain.days.forecast import Forecast
from domain.job.booked_day import BookedDay
from domain.job.on_the_roof import Cover, OldCovering
from domain.job.stage import Ending, Stage
from domain.money import Pence
from domain.snapshot import kept_as
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Bill:
    """An issued invoice, as the week needs it."""

    id: int
    label: str
    issued_on: date
    due_on: date
    gross: Pence
    owed: Pence
    deposit: bool
    """Whether it is the deposit's, not the work's."""


@dataclass(frozen=True, slots=True)
class WeekLine:
    """One job as the week needs it."""

    job_id: int
    ref: str
    place: str
    customer: str
    stage: Stage
    ended: Ending | None
    received_on: date
    """When it was asked for."""
    visit_on: date | None
    old_covering: OldCovering | None
    """What lies on the roof; None until the survey is recorded."""
    quote_sent_on: date | None
    valid_until: date | None = field(metadata=kept_as("holds_until"))
    accepted_on: date | None
    quote_gross: Pence | None
    """What the quote that counts asks for, VAT included: its accepted or its first option."""
    deposit: Pence
    """What that quote asks for before the work, VAT included; 0 for none."""
    days: tuple[BookedDay, ...]
    materials_in_hand: bool
    stripped_on: date | None
    cover: Cover | None
    extras_open: int
    """Extras still to agree."""
    laid_on: date | None
    usage_recorded: bool = field(metadata=kept_as("usage_written"))
    hours_used: Decimal
    """Hours recorded."""
    open_snags: tuple[str, ...]
    """What is still to put right, in the trader's words."""
    bills: tuple[Bill, ...]
    paid: tuple[tuple[date, Pence], ...]
    """Payments received: day and pence."""

    @property
    def surveyed(self) -> bool:
        """Whether the survey is recorded."""
        return self.old_covering is not None

    @property
    def to_be_tested(self) -> bool:
        """Whether what is still on the roof may hold asbestos."""
        waits = self.stripped_on is None and self.laid_on is None
        return waits and self.old_covering is not None and self.old_covering.may_hold_asbestos


@dataclass(frozen=True, slots=True)
class WeekData:
    """All that the first screen needs."""

    lines: tuple[WeekLine, ...]
    forecasts: tuple[Forecast, ...]
    trader: Trader
    second_backup_on: date | None = None
    """The last day a backup reached the second folder, or the first that it was tried; None
    before that."""
