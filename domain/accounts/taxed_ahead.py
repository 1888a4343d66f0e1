"""Money that was taxed as it came, and is not taxed again with the invoice that it pays.

Each part of the work has one tax point, the earlier of the money and the VAT invoice (VAT
Regulations 1995 reg. 93(1): read). An invoice puts all that it asks for at its own tax point; what
came before it is taken off there. Where the invoice is the earlier of the two, as it is if it was
recorded with an older day, what is taken off is what came with the money. Money that goes to the
invoice of another job, or back to the customer, is no longer paid for the work it came for: its VAT
falls back on that day (reg. 24A to 24C: read). Money that never came takes its VAT off the day on
which it stood, and the invoice bears all of its own again.
"""

from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from domain.money import Pence, part_of


@dataclass(frozen=True, slots=True)
class TaxMoved:
    """So much that is taken off what was brought to tax, or is brought to it again."""

    pence: Pence
    """VAT included."""
    vat: Pence
    on: date
    """The tax point at which it is."""


@dataclass(slots=True)
class _Part:
    """A sum with VAT in it, of which parts are taken: together they are the whole."""

    pence: Pence
    vat: Pence
    on: date

    def take(self, pence: Pence) -> TaxMoved:
        taken = min(pence, self.pence)
        vat = part_of(self.vat, Fraction(taken, self.pence)) if taken else 0
        self.pence, self.vat = self.pence - taken, self.vat - vat
        return TaxMoved(taken, vat, self.on)


@dataclass(slots=True)
class _Money:
    """What of a payment has gone nowhere yet: first goes what was not taxed as it came."""

    untaxed: Pence
    ahead: _Part

    def go(self, pence: Pence) -> TaxMoved:
        """Let so much go; returns what of it was taxed ahead."""
        first = min(pence, self.untaxed)
        self.untaxed -= first
        return self.ahead.take(pence - first)


@dataclass(slots=True)
class TaxedAhead:
    """What was taxed ahead, while the events of money are gone through."""

    _money: dict[int, _Money] = field(default_factory=dict)
    """By payment."""
    _taken: dict[tuple[int, int], _Part] = field(default_factory=dict)
    """By payment and the invoice that took it."""

    def come(self, payment_id: int, on: date, pence: Pence, taxed: Pence, vat: Pence) -> None:
        """A payment comes, of which a part is taxed as it comes, with so much VAT in that."""
        self._money[payment_id] = _Money(pence - taxed, _Part(taxed, vat, on))

    def reaches(self, payment_id: int, pence: Pence) -> bool:
        """Whether so much of it goes beyond what was not taxed ahead."""
        money = self._money[payment_id]
        return bool(money.ahead.pence) and pence > money.untaxed

    def use(self, payment_id: int, document_id: int, pence: Pence, on: date) -> TaxMoved:
        """It pays an invoice that bears its tax ``on``: what was taxed ahead is not taxed again."""
        money = self._money[payment_id]
        taken, later = money.go(pence), max(money.ahead.on, on)
        if taken.pence:
            self._taken[payment_id, document_id] = _Part(taken.pence, taken.vat, later)
        return TaxMoved(taken.pence, taken.vat, later)

    def free(self, payment_id: int, document_id: int, pence: Pence, *, gone: bool) -> TaxMoved:
        """It is taken off an invoice, which bears its tax itself again if the money is ``gone``."""
        money, taken = self._money[payment_id], self._taken.get((payment_id, document_id))
        again = taken.take(pence) if gone and taken else TaxMoved(0, 0, money.ahead.on)
        money.untaxed += pence - again.pence
        money.ahead.pence += again.pence
        money.ahead.vat += again.vat
        return again

    def pay_back(self, payment_id: int, pence: Pence, on: date) -> TaxMoved:
        """So much of it is paid back on a day."""
        return replace(self._money[payment_id].go(pence), on=on)

    def never_came(self, payment_id: int) -> TaxMoved:
        """It was a mistake: what was taxed ahead leaves the day on which it stood."""
        ahead = self._money[payment_id].ahead
        return ahead.take(ahead.pence)
