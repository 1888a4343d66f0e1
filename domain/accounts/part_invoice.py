"""The invoice for the part that is done when a job is called off midway.

The customer pays for what was done, as a part of the whole that was agreed (Consumer Contracts
Regulations 2013 reg. 36: from memory). Work done while they could still cancel, without their
request in writing, cannot be charged (the same): it is refused.
"""

from datetime import timedelta
from decimal import Decimal

from domain.accounts.agreed import less_deposit, sums_of
from domain.accounts.cis import cis_on
from domain.accounts.invoice import (
    Invoice,
    accepted_option,
    buyer_of,
    deduction_of,
    less_credit,
    seller_of,
)
from domain.accounts.vat_since import as_if_rated, bears_no_vat, vat_words
from domain.days.cancellation import right_lasts
from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.estimate.scope import DEPOSIT, Item
from domain.estimate.work_in_words import work_in_words
from domain.job import Closing, DocumentKind, Job
from domain.money import Pence, show_money
from domain.tax import VatTotals, part_of, totals_of
from domain.trader import Trader


def most_for_part(job: Job) -> Pence:
    """The most that the part done of a job can be charged at: all that was agreed.

    Nothing before the work has begun.
    """
    option = job.quote.accepted if job.quote else None
    if job.stripping is None or option is None:
        return 0
    return option_total(option).gross


def part_invoice_for(job: Job, closing: Closing, trader: Trader, number: int) -> Invoice:
    """The invoice for what the customer pays in all, less what their deposit invoice asked for.

    Raises :class:`Refused` where it cannot be charged, :class:`NotNow` as every invoice does.
    """
    _demand_chargeable(job, closing)
    option, on = accepted_option(job, trader), closing.on
    since = bears_no_vat(job, trader)
    whole = option_total(as_if_rated(job, option, on)[1] if since else option)
    totals = _part(whole, closing.kept, with_vat=job.customer.is_householder)
    cis = cis_on(job, totals, trader, on)
    deposit = deduction_of(job, job.deposit_invoice) if job.deposit_invoice else None
    with_vat = job.customer.is_householder
    terms = sums_of(totals, with_vat=with_vat)
    words = f"Part of the roof done: {closing.kept_why.strip()}"
    invoice = Invoice(
        kind=DocumentKind.INVOICE,
        number=number,
        issued_on=on,
        tax_point=on,
        due_on=on + timedelta(days=trader.days_to_pay),
        seller=seller_of(trader),
        buyer=buyer_of(job),
        ref=job.ref,
        place=job.site.on_a_line,
        lines=tuple(Item(words, Decimal(1), DEPOSIT, s.net, s.rate) for s in totals.vat),
        totals=totals,
        deduction=deposit,
        done_on=job.stripping.on if job.stripping else None,
        roof=work_in_words(job).roof,
        cis=cis,
        terms=less_deposit(terms, deposit.totals, with_vat=with_vat) if deposit else terms,
        vat_words=vat_words(job) if since else "",
    )
    return less_credit(invoice, job)


def _part(whole: VatTotals, gross: Pence, *, with_vat: bool) -> VatTotals:
    """A part of the whole; VAT on its net sums for whom they were agreed before VAT."""
    part = part_of(whole, gross)
    return part if with_vat else totals_of((each.rate, each.net) for each in part.vat)


def _demand_chargeable(job: Job, closing: Closing) -> None:
    acceptance = job.quote.acceptance if job.quote else None
    if acceptance is None:
        raise NotNow("No quote has been accepted yet, so there is nothing to invoice.")
    told = closing.told_on or closing.on
    asked = acceptance.early_request_on is not None and acceptance.request_means is not None
    if right_lasts(job, acceptance, told) and not asked:
        words = "They could still cancel and never asked in writing for an early start: keep less."
        raise Refused("kept", show_money(closing.kept), words)
