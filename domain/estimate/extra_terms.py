"""What an extra costs, in the terms that the customer was told: with VAT inside or before it."""

from dataclasses import dataclass

from domain.job import Extra, Job
from domain.money import Pence, share, times
from domain.tax import VatBand, rate_on, vat_in
from domain.trader import Trader

METRES = ("m", "metre", "metres")
"""What the unit of boards may be called."""


@dataclass(frozen=True, slots=True)
class Terms:
    """How extras of a job are priced."""

    metre: Pence
    """A metre of board, as the quote shows it."""
    with_vat: bool
    """Whether sums have VAT inside: to a householder, of a trader who is registered."""


def terms_of(job: Job, trader: Trader) -> Terms:
    """The terms of a job's extras; before there is a quote, by the trader's own rate of today.

    VAT inside the rate is at the standard rate of the day the quote was drafted.
    """
    quote = job.quote
    metre = quote.deck_rate if quote else trader.rates.deck_metre
    if not (trader.vat_registered and job.customer.is_householder):
        return Terms(metre, with_vat=False)
    day = quote.drafted_on if quote else job.enquiry.received_on
    return Terms(metre + share(metre, rate_on(VatBand.STANDARD, day)), with_vat=True)


def net_of(extra: Extra) -> Pence:
    """What an extra costs before VAT."""
    return extra.price - vat_in(extra.price, extra.vat_rate) if extra.with_vat else extra.price


def gross_of(extra: Extra, metre: Pence) -> Pence:
    """What an extra costs with VAT; ``metre`` is the net rate a metre that the quote names.

    One kept before VAT that was priced by the metre costs the rate that the quote showed, VAT
    included, for each metre.
    """
    if extra.with_vat:
        return extra.price
    if is_by_the_metre(extra, metre):
        return times(metre + share(metre, extra.vat_rate), extra.quantity)
    return extra.price + share(extra.price, extra.vat_rate)


def is_by_the_metre(extra: Extra, metre: Pence) -> bool:
    """Whether it was priced at the net rate a metre that the quote names."""
    shown = metre + share(metre, extra.vat_rate) if extra.with_vat else metre
    return extra.unit in METRES and extra.price == times(shown, extra.quantity)
