"""Money that a merchant gave back of a purchase: goods returned, or too much paid."""

from dataclasses import dataclass
from datetime import date

from domain.money import Pence


@dataclass(frozen=True, slots=True)
class MoneyBack:
    """One sum that came back of a purchase; what it says can be put right."""

    on: date
    """The day the money came: on the cash basis it counts then (GOV.UK, cash basis: read)."""
    pence: Pence
    """As it came, VAT included; 0: nothing came back after all."""
    reason: str
    purchase_id: int
    id: int | None = None
    version: int = 0
