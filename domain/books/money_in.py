"""What the customers paid, as it came: a mistake never came, money paid back goes out again."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

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
    """Of what of it settles invoices, by rate; nothing while not registered."""

    @property
    def income(self) -> Pence:
        """What counts: turnover is before deduction (HMRC online help, self-employment: read)."""
        return self.pence + self.cis


def money_in(
    payments: Iterable[Payment], customer: str, ref: str, vat: tuple[VatSum, ...] = ()
) -> Iterator[MoneyIn]:
    """The sums of a job's payments, each on the day it came or went back.

    ``vat`` is what each of them holds of it.

    A payment that was a mistake is left out: it leaves the day on which it stood.
    """
    for payment in payments:
        if payment.is_mistake:
            continue
        yield MoneyIn(
            payment.received_on, payment.money, payment.method, customer, ref, payment.cis, vat
        )
        for entry in payment.counter_entries:
            if entry.kind is DocumentKind.REFUND:
                yield MoneyIn(entry.on, -entry.pence, "paid back", customer, ref)
