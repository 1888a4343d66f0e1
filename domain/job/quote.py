"""What was offered and accepted. A sent quote never changes; a revision has a new number."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.money import Pence
from domain.snapshot import kept_as


class LineKind(StrEnum):
    """What a line pays for."""

    MATERIALS = "materials"
    LABOUR = "labour"
    TRAVEL = "travel"
    DISPOSAL = "disposal"
    DECK = "deck repair"
    MINIMUM_CHARGE = "least charge"
    """What brings a small job up to the trader's minimum charge."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of an option, at the prices of its day."""

    kind: LineKind
    words: str
    quantity: Decimal
    unit: str
    """"pack", "roll", "hour", "mile", "m", "sack" and the like, singular."""
    cost: Pence
    """What it costs the trader for the whole quantity. Never on a paper a customer sees."""
    price: Pence
    """What the customer pays for the whole quantity, net of VAT: cost, contingency and markup."""
    vat_rate: Decimal
    """Per cent: 20, 5 or 0; 0 throughout when the trader is not registered."""
    id: int | None = None


MOST_OPTIONS = 3
"""Coverings that a quote can offer side by side."""


@dataclass(frozen=True, slots=True)
class Option:
    """One covering of a quote, with its lines."""

    covering: str
    colour: str
    lines: tuple[Line, ...]
    basis: str
    """The prices, rates and quantities it was made from, as JSON text: never looked up again."""
    plans: str = ""
    """How its roof is cut and laid, as JSON text; empty in felt, and in quotes of older books."""
    own_gross: Pence | None = None
    """What the trader asks instead of the price worked out, VAT included; None: as worked out."""
    id: int | None = None


class Means(StrEnum):
    """How the customer said yes."""

    SIGNED = "signed"
    EMAIL = "e-mail"
    TEXT = "text"
    SPOKEN = "spoken"


WRITTEN = (Means.SIGNED, Means.EMAIL, Means.TEXT)
"""What stays with the customer: a word that is only spoken does not."""


class MadeAt(StrEnum):
    """Where the agreement was made: the right to cancel hangs on it.

    Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013.
    """

    AWAY = "at the customer's home"
    DISTANCE = "at a distance (telephone, e-mail, post)"
    PREMISES = "at the trader's own premises"


@dataclass(frozen=True, slots=True)
class Acceptance:
    """The customer's yes."""

    option_id: int
    who: str
    on: date
    means: Means
    made_at: MadeAt
    notice_on: date | None = None
    """When the notice of the right to cancel was given; None if it was not."""
    early_request_on: date | None = None
    """When the customer expressly asked for work to begin inside the cancellation period."""
    request_means: Means | None = None
    """How they asked: signed, e-mail or text; None if it is not known to be in writing."""
    knows_right_ends: bool = False
    """The customer's word that the right to cancel ends when the work is complete."""
    materials_on: date | None = None
    """When the last of the materials reached the customer; None until it is recorded."""
    urgent_why: str = ""
    """Why it is an urgent repair that they asked the trader to come for; empty if it is none."""

    @property
    def asked_in_writing_on(self) -> date | None:
        """When they asked for an early start in writing; None if they did not."""
        return self.early_request_on if self.request_means in WRITTEN else None


@dataclass(frozen=True, slots=True)
class Quote:
    """An offer of one to three options."""

    number: int
    """1 for the first of the job, 2 for its revision."""
    options: tuple[Option, ...]
    """The covering of the survey first."""
    drafted_on: date
    deposit: Pence = 0
    """Asked for before the work, VAT included."""
    deck_rate: Pence = 0
    """Net pence a metre for boards found rotten, named beforehand."""
    sent_on: date | None = None
    """None while it is a draft that can still be changed."""
    valid_until: date | None = field(default=None, metadata=kept_as("holds_until"))
    """The last day on which it can be accepted at these prices."""
    acceptance: Acceptance | None = None
    sent_as: str = ""
    """What it says besides its prices, as JSON text from the day it was sent; empty until then."""
    id: int | None = None

    @property
    def accepted(self) -> Option | None:
        """The option the customer took, or None."""
        if self.acceptance is None:
            return None
        return next(o for o in self.options if o.id == self.acceptance.option_id)

    @property
    def counting(self) -> Option:
        """The option that the work goes by: the accepted one, or the first while none is."""
        return self.accepted or self.options[0]
