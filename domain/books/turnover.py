"""What a trader who is not registered for VAT supplies, and on which days: it counts for VAT.

A VAT invoice names the supplier's VAT number (VAT Regulations 1995 reg. 14(1): read), so they issue
none, and no invoice of theirs makes a tax point. Where the agreement asks for a deposit and then
for the rest, what is left of "the earliest of each payment received and each VAT invoice issued"
is the payments (reg. 93(1): read). With one payment for the whole it is the day of the work, and
for what came before that the day of the money (VAT Act 1994 s. 6(3), (4): from memory); the 14 days
of s. 6(5) are for a VAT invoice alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from domain.books.watched import Supply
from domain.money import Pence


@dataclass(frozen=True, slots=True)
class Work:
    """How the work of a job is paid, and when it was done."""

    asks_first: bool
    """Whether the agreement asks for a deposit and then for the rest."""
    done: date | None
    """None while it is not known."""

    def brings(self, on: date) -> bool:
        """Whether money of a day has a tax point of its own."""
        return self.asks_first or self.done is None or on < self.done


@dataclass(frozen=True, slots=True)
class Billed:
    """An invoice: what it asks for, less what was credited on it."""

    document_id: int
    work: Work
    pence: Pence
    tax_point: date
    """As it says: counted on where the day of the work is not known."""


@dataclass(frozen=True, slots=True)
class Came:
    """What of a payment stands with an invoice, or lies there for work that is not invoiced."""

    work: Work
    on: date
    pence: Pence
    document_id: int | None = None


def supplies(billed: Iterable[Billed], came: Iterable[Came]) -> Iterator[Supply]:
    """The sums that count, each on its day: no part of the work twice."""
    before: Counter[int | None] = Counter()
    for each in came:
        if each.work.brings(each.on):
            before[each.document_id] += each.pence
            yield Supply(each.on, each.pence)
    for invoice in billed:
        if not invoice.work.asks_first:
            rest = invoice.pence - before[invoice.document_id]
            yield Supply(invoice.work.done or invoice.tax_point, rest)
