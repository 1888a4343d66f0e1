"""The invoice for the part that is done when a job is called off midway.

The customer pays for what was done, as a part of the whole that was agreed (Consumer Contracts
Regulations 2013 reg. 36: from memory). Work done while they could still cancel, without their
request in writing, cannot be charged (the same): it is refused.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.accounts.agreed import less_deposit
from domain.accounts.cis import NOTHING_PAID, cis_on
from domain.accounts.invoice import (
    Deduction,
    Invoice,
    accepted_option,
    agreed_in_all,
    deduction_of,
    for_a_part,
    less_credit,
    untaxed_before,
)
from domain.accounts.vat_since import as_if_said, asks_for_vat_terms
from domain.books.margin import Paid
from domain.days.cancellation import right_lasts
from domain.errors import NotNow, Refused
from domain.job import Closing, Job
from domain.money import Pence, show_money
from domain.tax import VatSum, VatTotals, added_up, part_of, totals_of
from domain.trader import Trader


def most_for_part(job: Job, trader: Trader, on: date) -> Pence:
    """The most that the part done of a job can be charged at: all that was agreed, extras too.

    With VAT on top where that was said after the trader registered. Nothing before the work has
    begun.
    """
    option = job.quote.accepted if job.quote else None
    if job.stripping is None or option is None:
        return 0
    said = as_if_said(job) if asks_for_vat_terms(job, trader) else job
    return agreed_in_all(said, option, trader, _deposit(job), on).totals.gross


def part_invoice_for(
    job: Job, closing: Closing, trader: Trader, number: int, paid: Paid = NOTHING_PAID
) -> Invoice:
    """The invoice for what the customer pays in all, less what their deposit invoice asked for.

    Raises :class:`Refused` where it cannot be charged, :class:`NotNow` as every invoice does.
    """
    _demand_chargeable(job, closing)
    deposit, with_vat = _deposit(job), job.customer.is_householder
    option = accepted_option(job, trader)
    whole = agreed_in_all(job, option, trader, deposit, closing.on).totals
    untaxed = min(closing.kept, untaxed_before(job, trader, deposit))
    totals = _part(whole, closing.kept, untaxed, with_vat=with_vat)
    words = f"Part of the roof done: {closing.kept_why.strip()}"
    invoice = replace(
        for_a_part(job, trader, totals, words, number, closing.on),
        done_on=job.stripping.on if job.stripping else None,
        cis=cis_on(job, totals, trader, closing.on, paid),
    )
    if deposit is not None:
        terms = less_deposit(invoice.terms, deposit.totals, with_vat=with_vat)
        invoice = replace(invoice, deduction=deposit, terms=terms)
    return less_credit(invoice, job)


def _deposit(job: Job) -> Deduction | None:
    return deduction_of(job, job.deposit_invoice) if job.deposit_invoice else None


def _part(whole: VatTotals, gross: Pence, untaxed: Pence, *, with_vat: bool) -> VatTotals:
    """A part of the whole; VAT on its net sums for whom they were agreed before VAT.

    What is ``untaxed`` of it was invoiced or paid and stays so: the part is of the rest.
    """
    rated = added_up(tuple(each for each in whole.vat if each.rate)) if untaxed else whole
    part = part_of(rated, gross - untaxed)
    if not with_vat:
        part = totals_of((each.rate, each.net) for each in part.vat)
    return added_up((*part.vat, VatSum(Decimal(0), untaxed, 0))) if untaxed else part


def _demand_chargeable(job: Job, closing: Closing) -> None:
    acceptance = job.quote.acceptance if job.quote else None
    if acceptance is None:
        raise NotNow("No quote has been accepted yet, so there is nothing to invoice.")
    told = closing.told_on or closing.on
    asked = acceptance.early_request_on is not None and acceptance.request_means is not None
    if right_lasts(job, acceptance, told) and not asked:
        words = "They could still cancel and never asked in writing for an early start: keep less."
        raise Refused("kept", show_money(closing.kept), words)
