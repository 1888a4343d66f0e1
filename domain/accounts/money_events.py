"""The events of money, as they were recorded: the ledger is made from them."""

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from domain.job import CounterEntry, Document, WriteOff
from domain.money import Pence
from domain.tax import VatTotals


@dataclass(frozen=True, slots=True)
class OfJob:
    """What is known of a job as an event of it is recorded."""

    ref: str
    customer_id: int
    customer: str
    customer_kind: str
    deposit_asked: bool
    """Whether the agreement asks for a deposit and then for the rest."""
    done: date | None
    """The day of the work, once it is known."""


@dataclass(frozen=True, slots=True)
class Issued:
    """An invoice or a credit note."""

    of: OfJob
    document: Document


@dataclass(frozen=True, slots=True)
class CameIn:
    """A payment, under the number of its receipt."""

    of: OfJob
    payment_id: int
    number: str
    on: date
    pence: Pence
    """What it settles: the money that came, and what was deducted from it."""
    cis: Pence
    """What a contractor deducted of it."""
    on_account: bool
    """Whether it came for no invoice."""
    brings: VatTotals | None
    """What of the work it brings to tax, where it came before the invoice."""


@dataclass(frozen=True, slots=True)
class Moved:
    """Money that goes to an invoice, or is taken off it again."""

    of: OfJob
    payment_id: int
    document_id: int
    pence: Pence
    freed: bool
    on: date
    cis: Pence
    """What of it a contractor deducted."""
    never_came: bool = False
    """Whether it is taken off because the payment was a mistake."""


@dataclass(frozen=True, slots=True)
class GoneBack:
    """A payment that was a mistake, or money paid back, under the number of its note."""

    of: OfJob
    payment_id: int
    number: str
    entry: CounterEntry


@dataclass(frozen=True, slots=True)
class GivenUp:
    """What was owed on an invoice and is written off, or a write-off that is taken back."""

    of: OfJob
    entry: WriteOff


Event: TypeAlias = Issued | CameIn | Moved | GoneBack | GivenUp
