"""What the week is made from: a light reading of the book."""

from dataclasses import dataclass, field, replace
from datetime import date, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from domain.days.calendar import bank_holidays, right_to_cancel_ends
from domain.days.forecast import Forecast
from domain.job.booked_day import BookedDay
from domain.job.chase import Chase
from domain.job.on_the_roof import Cover, OldCovering
from domain.job.rung import Rung
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
    number: int = 0
    unsent: bool = False
    """Whether it waits to be sent."""
    cis: Pence = 0
    """What a contractor is reckoned to deduct of it."""


@dataclass(frozen=True, slots=True)
class WeekLine:
    """One job as the week needs it."""

    job_id: int
    ref: str
    place: str
    customer: str
    phone: str
    email: str
    address: str
    """Of the roof; the customer's own if it is not another one."""
    stage: Stage
    ended: Ending | None
    told_on: date | None
    """When the customer said that it ends."""
    credit: Pence
    """What of their payments stands to the customer's credit."""
    received_on: date
    """When it was asked for."""
    visit_on: date | None
    visit_at: time | None
    survey_answered: bool
    """Whether the survey answers all that is asked before a quote is sent."""
    old_covering: OldCovering | None
    """What lies on the roof; None until the survey is recorded."""
    quote_sent_on: date | None
    """The day that it bears."""
    quote_number: int | None
    quote_unsent: bool
    """Whether it is final and waits to be sent."""
    valid_until: date | None = field(metadata=kept_as("holds_until"))
    accepted_on: date | None
    may_cancel: bool
    """Whether the customer has a right to cancel: a householder who did not come to the trader."""
    notice_on: date | None
    """When they were told of it."""
    early_request_on: date | None
    """When they asked in writing for the work to start before that right ends."""
    knows_right_ends: bool
    """Whether they gave their word that the right ends when the work is done."""
    materials_on: date | None
    """When the last of the materials reached them, as far as it is recorded."""
    quote_gross: Pence | None
    """What the quote that counts asks for, VAT included: its accepted or its first option."""
    deposit: Pence
    """What that quote asks for before the work, VAT included; 0 for none."""
    ruled_out: str
    """Days they do not want work, as typed."""
    days: tuple[BookedDay, ...]
    rung: tuple[Rung, ...]
    """Of those days the ones that the customer wants to stay."""
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
    chased: tuple[Chase, ...]
    """How often one of them was chased, the last one last."""
    paid: tuple[tuple[date, Pence], ...]
    """Payments received: day and pence."""
    statements: tuple[tuple[date, Pence], ...] = ()
    """Of payments whose statement of deduction is awaited: day, and pence deducted."""

    @property
    def surveyed(self) -> bool:
        """Whether the survey is recorded."""
        return self.old_covering is not None

    @property
    def service_ends(self) -> date | None:
        """The last day to cancel reckoned from the agreement; None without such a right."""
        if not self.may_cancel or self.accepted_on is None:
            return None
        return right_to_cancel_ends(self.accepted_on, self.notice_on)

    @property
    def right_ends(self) -> date | None:
        """The later of that and 14 days after the last materials, once they came."""
        service, came = self.service_ends, self.materials_on
        if service is None or came is None or self.accepted_on is None:
            return service
        goods = right_to_cancel_ends(max(self.accepted_on, came), self.notice_on)
        return max(service, goods)

    @property
    def to_be_tested(self) -> bool:
        """Whether what is still on the roof may hold asbestos."""
        waits = self.stripped_on is None and self.laid_on is None
        return waits and self.old_covering is not None and self.old_covering.may_hold_asbestos


class Delivery(NamedTuple):
    """Something ordered at a merchant that should be here by now."""

    merchant: str
    expected_on: date
    job_id: int
    """The first of the jobs it is for."""
    part: bool
    """Whether some of it is here."""


@dataclass(frozen=True, slots=True)
class WeekData:
    """All that the first screen needs."""

    lines: tuple[WeekLine, ...]
    forecasts: tuple[Forecast, ...]
    trader: Trader
    put_off: frozenset[tuple[int, str]] = frozenset()
    """Jobs and kinds of task that were put off to a day that has not come."""
    ordered: frozenset[int] = frozenset()
    """Jobs for which nothing is left to order."""
    deliveries: tuple[Delivery, ...] = ()
    """What should have come by today and is not here, or not all of it."""
    second_backup_on: date | None = None
    """The last day a backup reached the second folder, or the first that it was tried; None
    before that."""
    holidays: frozenset[date] = frozenset()
    """Bank holidays of the trader's nation, as far as they are known: :func:`with_holidays`."""


def with_holidays(data: WeekData, first: date) -> WeekData:
    """Return the data with the bank holidays of the year, or two, of seven days.

    What knows them is heavy: it is loaded here, once the week stands.
    """
    years = {first.year, (first + timedelta(days=6)).year}
    known = (bank_holidays(data.trader.nation, year) for year in years)
    return replace(data, holidays=frozenset(day for year in known for day in year))
