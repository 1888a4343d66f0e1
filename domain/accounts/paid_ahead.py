"""Money that comes before an invoice asks for it, and what of VAT it brings to tax by coming."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from domain.accounts.own_receipts import Brought, with_receipts
from domain.books.held_vat import first_of
from domain.estimate.quoting import option_total
from domain.job import Job, Payment
from domain.money import Pence
from domain.snapshot import from_json
from domain.tax import VatBand, VatSum, VatTotals, added_up, part_of, rate_on, vat_in
from domain.trader import Trader


def brought_to_tax(job: Job, pence: Pence, on: date, trader: Trader) -> VatTotals | None:
    """The part of the work that money for no invoice brings to tax on its day; None for none.

    Where the agreement asks for a deposit and then for the rest, each payment does until the work
    is invoiced (VAT Regulations 1995 reg. 93(1): read); with one payment for the whole only money
    that comes before the work is done (VAT Act 1994 s. 6(4); that a later one makes no tax point,
    HMRC VATTOS5105: read). It holds VAT by the fraction, that of the standard rate where nothing is
    agreed, or was before the trader registered: so it does with VAT inside the price and added.
    """
    if job.invoice is not None:
        return None
    quote = job.quote if job.quote is not None and job.quote.acceptance is not None else None
    asks_first = quote is not None and quote.deposit > 0
    if not asks_first and job.laying is not None and on >= job.laying.on:
        return None
    if not trader.vat_registered:
        return added_up((VatSum(rate_on(VatBand.ZERO, on), pence, 0),))
    agreed = quote.accepted if quote is not None else None
    if agreed is not None and option_total(agreed).rated:
        return part_of(option_total(agreed), pence)
    rate = rate_on(VatBand.STANDARD, on)
    vat = vat_in(pence, rate)
    return added_up((VatSum(rate, pence - vat, vat),))


@dataclass(frozen=True, slots=True)
class Ahead:
    """Money that an invoice takes, and that was brought to tax as it came."""

    on: date
    """The tax point of it."""
    totals: VatTotals


def taxed_before(job: Job, taken: Mapping[int, Pence], tax_point: date) -> tuple[Ahead, ...]:
    """What VAT was accounted for before an invoice's tax point, of what it takes by payment."""
    found = []
    for payment, brought in _receipts(job):
        whole, pence = brought.brings, taken.get(payment.id or 0, 0)
        if whole is not None and whole.rated and pence and payment.received_on < tax_point:
            found.append(Ahead(payment.received_on, first_of(whole, pence)))
    return tuple(found)


def untaxed_ahead(job: Job, deposit_id: int | None = None) -> Pence:
    """What came before the trader registered for VAT, and lies there or pays the deposit invoice.

    The part of the work that it is for was supplied then, and so bears none: its tax point is the
    day of the money, as it is that of a deposit invoice (VAT Regulations 1995 reg. 93(1), VAT Act
    1994 s. 6(4): read).
    """
    sums = 0
    for payment, brought in _receipts(job):
        if brought.brings is not None and not brought.seller.vat_number:
            paid = sum(p.pence for p in payment.standing if p.document_id == deposit_id)
            sums += min(payment.unallocated + paid, brought.brings.gross)
    return sums


def _receipts(job: Job) -> Iterator[tuple[Payment, Brought]]:
    """Each payment with what its receipt says."""
    for payment, receipt in with_receipts(job):
        yield payment, from_json(Brought, receipt.snapshot)
