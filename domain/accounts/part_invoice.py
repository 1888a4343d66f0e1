"""The invoice for the part that is done when a job is called off midway.

The customer pays for what was done, as a part of the whole that was agreed (Consumer Contracts
Regulations 2013 reg. 36: from memory). Work done while they could still cancel, without their
request in writing, cannot be charged (the same): it is refused.
"""

from dataclasses import replace
from datetime import date

from domain.accounts.agreed import agreed_sums, less_deposit
from domain.accounts.cis import cis_on
from domain.accounts.invoice import (
    Invoice,
    accepted_option,
    deduction_of,
    for_a_part,
    less_credit,
)
from domain.accounts.vat_since import as_if_rated, bears_no_vat
from domain.days.cancellation import right_lasts
from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.job import Closing, Job, VatTerms
from domain.money import Pence, show_money
from domain.tax import VatTotals, part_of, totals_of
from domain.trader import Trader


def most_for_part(job: Job) -> Pence:
    """The most that the part done of a job can be charged at: all that was agreed, extras too.

    Nothing before the work has begun.
    """
    option = job.quote.accepted if job.quote else None
    if job.stripping is None or option is None:
        return 0
    registered = bool(option_total(option).rated)
    return agreed_sums(job, option, registered=registered).totals.gross


def part_invoice_for(job: Job, closing: Closing, trader: Trader, number: int) -> Invoice:
    """The invoice for what the customer pays in all, less what their deposit invoice asked for.

    Raises :class:`Refused` where it cannot be charged, :class:`NotNow` as every invoice does.
    """
    _demand_chargeable(job, closing)
    whole = _whole(job, trader, closing.on)
    with_vat = job.customer.is_householder
    totals = _part(whole, closing.kept, with_vat=with_vat)
    words = f"Part of the roof done: {closing.kept_why.strip()}"
    invoice = replace(
        for_a_part(job, trader, totals, words, number, closing.on),
        done_on=job.stripping.on if job.stripping else None,
        cis=cis_on(job, totals, trader, closing.on),
    )
    if job.deposit_invoice is not None:
        deposit = deduction_of(job, job.deposit_invoice)
        terms = less_deposit(invoice.terms, deposit.totals, with_vat=with_vat)
        invoice = replace(invoice, deduction=deposit, terms=terms)
    return less_credit(invoice, job)


def _whole(job: Job, trader: Trader, on: date) -> VatTotals:
    """What was agreed in all, with its extras: the part bears the VAT of it."""
    option, inside = accepted_option(job, trader), job.vat_terms is VatTerms.INSIDE
    since = bears_no_vat(job, trader)
    agreed, rated = as_if_rated(job, option, on) if since else (job, option)
    registered = trader.vat_registered
    return agreed_sums(agreed, rated, registered=registered, inclusive=since and inside).totals


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
