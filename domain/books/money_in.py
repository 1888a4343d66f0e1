"""What the customers paid, as it came: a mistake never came, money paid back goes out again."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from domain.books.held_vat import HeldVat
from domain.job import DocumentKind, Payment
from domain.money import Pence
from domain.tax import VatSum


@dataclass(frozen=True, slots=True)
class MoneyIn:
    """One sum received, or paid back (less than 0)."""

    on: date
    pence: Pence
    """As it came: VAT inside, a deduction under CIS already taken off."""
    words: str
    """How it came: "bank transfer"; or "paid back"."""
    customer: str
    ref: str
    """The reference of its job."""
    cis: Pence = 0
    """What a contractor deducted from it and paid to HMRC."""
    vat: tuple[VatSum, ...] = ()
    """What it holds, by rate, 0 of what is for no supply; nothing while not registered."""

    @property
    def income(self) -> Pence:
        """What counts: turnover is before deduction (HMRC online help, self-employment: read)."""
        return self.pence + self.cis


def money_in(
    payments: Iterable[Payment], customer: str, ref: str, held: HeldVat | None = None
) -> Iterator[MoneyIn]:
    """The sums of a job's payments, each on the day it came or went back.

    ``held`` is the VAT that each of them holds; None while not registered.

    A payment that was a mistake is left out: it leaves the day on which it stood.
    """
    for payment in payments:
        if payment.is_mistake:
            continue
        vat, gone = held.whole if held else (), 0
        yield MoneyIn(
            payment.received_on, payment.money, payment.method, customer, ref, payment.cis, vat
        )
        for entry in payment.counter_entries:
            if entry.kind is DocumentKind.REFUND:
                vat = held.paid_back(gone, entry.pence) if held else ()
                yield MoneyIn(entry.on, -entry.pence, "paid back", customer, ref, vat=vat)
                gone += entry.pence
