"""What a quote says besides its prices, as it stood on the day it was sent.

Kept with the quote, so that it prints as it did whatever becomes of the trader's details, of the
customer's, or of the survey.
"""

from dataclasses import dataclass, replace
from math import ceil

from domain.accounts.invoice import Buyer, Seller, as_seller, buyer_of
from domain.estimate.quoting import basis_of
from domain.estimate.work_in_words import WorkInWords, work_in_words
from domain.job import Job, Quote
from domain.look import Look
from domain.snapshot import from_json
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class AsSent:
    """From whom and for whom, where and what."""

    seller: Seller
    buyer: Buyer
    is_householder: bool
    place: str
    """Where the roof is: its address in a line, or what the place is called."""
    work: WorkInWords
    may_hold_asbestos: bool
    """Whether the old covering was suspected."""
    days_to_pay: int
    work_days: int = 0
    """Whole days that the work takes at the trader's hours a day; 0 where it is not told."""
    guarantee_years: int = 0
    """For how long the work is guaranteed; 0 for not at all."""


def as_it_stands(job: Job, trader: Trader, quote: Quote | None = None) -> AsSent:
    """What a quote of the job says if it is sent now: ``quote``, or that which counts."""
    return AsSent(
        seller=as_seller(trader),
        buyer=buyer_of(job),
        is_householder=job.customer.is_householder,
        place=job.site.on_a_line,
        work=work_in_words(job),
        may_hold_asbestos=job.survey is not None and job.survey.old.may_hold_asbestos,
        days_to_pay=trader.days_to_pay,
        work_days=_work_days(quote or job.quote, trader),
        guarantee_years=trader.guarantee_years,
    )


def _work_days(quote: Quote | None, trader: Trader) -> int:
    basis = basis_of(quote) if quote else None
    return ceil(basis.hours.whole / trader.hours_a_day) if basis and trader.hours_a_day else 0


def as_sent(job: Job, quote: Quote, trader: Trader) -> AsSent:
    """What a quote says: as it was sent, or as things stand while it is a draft.

    A quote of an older book kept nothing of it; it never had a colour or a logo.
    """
    if quote.sent_as:
        return from_json(AsSent, quote.sent_as)
    now = as_it_stands(job, trader, quote)
    if quote.sent_on is None:
        return now
    return replace(now, seller=replace(now.seller, look=Look()))


def guarantee_given(job: Job, trader: Trader) -> int:
    """For how many years the work of a job is guaranteed: as its quote gave, else as now."""
    given = as_sent(job, job.quote, trader).guarantee_years if job.quote else 0
    return given or trader.guarantee_years
