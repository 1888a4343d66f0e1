"""Money that comes before an invoice asks for it, and what of VAT it brings to tax by coming."""

from datetime import date

from domain.estimate.quoting import option_total
from domain.job import Job
from domain.money import Pence
from domain.tax import VatBand, VatSum, VatTotals, added_up, part_of, rate_on, vat_in
from domain.trader import Trader


def brought_to_tax(job: Job, pence: Pence, on: date, trader: Trader) -> VatTotals | None:
    """The part of the work that money for no invoice brings to tax on its day; None for none.

    Where the agreement asks for a deposit and then for the rest, each payment does until the work
    is invoiced (VAT Regulations 1995 reg. 93(1): read); with one payment for the whole only money
    that comes before the work is done (VAT Act 1994 s. 6(4); that a later one makes no tax point,
    HMRC VATTOS5105: read). It holds VAT by the fraction.
    """
    if job.invoice is not None:
        return None
    quote = job.quote if job.quote is not None and job.quote.acceptance is not None else None
    asks_first = quote is not None and quote.deposit > 0
    if not asks_first and job.laying is not None and on >= job.laying.on:
        return None
    if not trader.vat_registered:
        return added_up((VatSum(rate_on(VatBand.ZERO, on), pence, 0),))
    if quote is not None and quote.accepted is not None:
        return part_of(option_total(quote.accepted), pence)
    rate = rate_on(VatBand.STANDARD, on)
    vat = vat_in(pence, rate)
    return added_up((VatSum(rate, pence - vat, vat),))
