"""What stripping found, laying, what was used, and signing off."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.job.on_the_roof import Cover
from domain.job.quote import Means
from domain.money import Pence


@dataclass(frozen=True, slots=True)
class Stripping:
    """What stripping found."""

    on: date
    found: str
    """In the trader's words; "nothing" is an answer, empty is not."""
    cover: Cover
    waste_kg: Decimal | None = None
    waste_to: str = ""
    """Where the old covering went."""
    transfer_note: str = ""
    """Reference of the waste transfer note."""
    suspect: bool | None = None
    """Whether anything that may hold asbestos lay underneath; None while it was not asked."""


class ExtraState(StrEnum):
    """Whether an extra is still to be agreed, agreed, or not charged."""

    OPEN = "to agree"
    AGREED = "agreed"
    NOT_CHARGED = "not charged"


@dataclass(frozen=True, slots=True)
class Extra:
    """Work found on the day that was not in the quote."""

    words: str
    quantity: Decimal
    unit: str
    price: Pence
    """For the whole quantity, as the customer was told it."""
    vat_rate: Decimal
    state: ExtraState = ExtraState.OPEN
    agreed_by: str = ""
    agreed_on: date | None = None
    means: Means | None = None
    begun_before: bool = False
    """Begun before it was agreed."""
    with_vat: bool = False
    """Whether ``price`` has VAT inside; without, it is net."""
    id: int | None = None


@dataclass(frozen=True, slots=True)
class Laying:
    """The laying day: ticks and the weather as it was."""

    on: date
    ticks: frozenset[str] = frozenset()
    """Keys of :data:`domain.checks.stages.LAYING_TICKS` that were looked at and found right."""
    temperature_c: Decimal | None = None
    wind_mph: Decimal | None = None
    deck_dry: bool | None = None


@dataclass(frozen=True, slots=True)
class Usage:
    """One material or labour element: estimated against taken.

    taken = used + wasted + left + returned, all in ``unit``.
    """

    element: str
    """Key of :data:`domain.estimate.usage.ELEMENTS`: "strips", "underlay", "hours-strip"."""
    unit: str
    """"strip", "m", "roll" or "hour": never a pack."""
    estimated: Decimal
    used: Decimal
    wasted: Decimal = Decimal(0)
    left: Decimal = Decimal(0)
    """Left over and carried to stock."""
    returned: Decimal = Decimal(0)
    """Taken back to the merchant."""
    id: int | None = None

    @property
    def taken(self) -> Decimal:
        """All that left the van: used, wasted, left over, returned; in the element's unit."""
        return self.used + self.wasted + self.left + self.returned


@dataclass(frozen=True, slots=True)
class Snag:
    """Something to put right after the work; putting it right is a callback."""

    words: str
    done_on: date | None = None
    """None: still to do."""
    hours: Decimal = Decimal(0)
    """What the callback took."""
    materials: str = ""
    """What it took of materials, in the trader's words."""
    cost: Pence = 0
    """What the trader paid for them."""
    id: int | None = None


@dataclass(frozen=True, slots=True)
class SignOff:
    """The customer's word that it is done, and a guarantee if one is given."""

    who: str
    on: date
    guarantee_until: date | None = None
    """None: no guarantee beyond what the law gives."""
    guarantee_words: str = ""
