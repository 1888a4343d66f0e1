"""The quote: drafted from a take-off, and what its options come to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import partial

from domain.cutting.plan import TIME_LIMIT_S
from domain.cutting.remembered import cuts_of
from domain.errors import NotNow, Refused
from domain.estimate.basis import PricingBasis, read_basis
from domain.estimate.job_takeoff import takeoff_in
from domain.estimate.kept_plans import plans_to_keep
from domain.estimate.pricing import basis_for, option_of, surveyed_quantities
from domain.estimate.stock import Price, StockLine
from domain.estimate.supplies import PricesAndStock
from domain.job import MOST_OPTIONS, CoveringChoice, Job, LineKind, Option, Quote, Survey
from domain.money import Pence, apportion, share, show_money
from domain.quantity import to_decimal
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.roof_takeoff import TakeOff
from domain.tax import VatTotals, part_of, totals_of
from domain.trader import Trader

_NO_SURVEY = "No survey of the roof yet: fill in the survey first."


@dataclass(frozen=True, slots=True)
class Margin:
    """What an option leaves. The trader's alone: on no paper that a customer sees."""

    cost: Pence
    price: Pence
    """Net of VAT."""

    @property
    def pence(self) -> Pence:
        """The price less the cost."""
        return self.price - self.cost

    @property
    def percent(self) -> Decimal:
        """The margin as per cent of the price; 0 where there is no price."""
        return to_decimal(Fraction(100 * self.pence, self.price)) if self.price else Decimal(0)


def price_job(
    job: Job,
    trader: Trader,
    sources: PricesAndStock,
    miles: Decimal,
    deposit: Pence = 0,
    own_price: Pence | None = None,
) -> Quote:
    """Draft a quote from the survey's take-off in each covering to be offered, at today's prices.

    ``miles`` are there and back, a day; ``deposit`` includes VAT; ``own_price`` is asked instead of
    the one worked out, as the customer reads it. All the cut plans share the time of one. Raises
    :class:`NotNow` for what is not recorded yet, and :class:`Refused` for a measure, a deposit or
    a price that is not valid.
    """
    survey = job.survey
    if survey is None or survey.covering is None:
        raise NotNow("Nothing to price yet: fill in the survey and choose the covering.")
    choices = offered(survey.covering, job.quotes)
    plan = partial(cuts_of, time_limit_s=TIME_LIMIT_S / len(choices))
    take_offs = [takeoff_in(choice, survey, sources, plan) for choice in choices]
    prices, stock, today = sources.prices, sources.stock, sources.today
    worked_out = draft_quote(job, take_offs, trader, prices, stock, miles, today)
    asked = worked_out if own_price is None else at_own_price(job, worked_out, own_price)
    _check_deposit(deposit, min(option_total(option).gross for option in asked.options))
    return replace(asked, deposit=deposit)


def at_own_price(job: Job, quote: Quote, price: Pence) -> Quote:
    """A draft at the trader's own price: with VAT for a householder, before it for a business.

    Raises :class:`Refused` for nothing, and for one price for several coverings.
    """
    if len(quote.options) > 1:
        raise Refused("own_price", show_money(price), "Offer one covering, or leave it empty.")
    if price <= 0:
        raise Refused("own_price", show_money(price), "Give a sum over £0.00, or leave it empty.")
    (option,) = quote.options
    gross = price
    if not job.customer.is_householder:
        whole = option_total(option)
        nets = apportion([Decimal(price) * each.net / (whole.net or 1) for each in whole.vat])
        rates = [each.rate for each in whole.vat]
        gross = totals_of(zip(rates, nets, strict=True)).gross
    return replace(quote, options=(replace(option, own_gross=gross),))


def draft_quote(
    job: Job,
    take_offs: Sequence[TakeOff],
    trader: Trader,
    prices: Sequence[Price],
    stock: Sequence[StockLine],
    miles: Decimal,
    today: date,
    deposit: Pence = 0,
) -> Quote:
    """A quote at today's prices and rates, an option for each take-off.

    ``miles`` are there and back, ``deposit`` includes VAT. Raises :class:`NotNow` for what is not
    recorded yet, and :class:`Refused` for too many options or a deposit over the least of them.
    """
    if job.survey is None:
        raise NotNow(_NO_SURVEY)
    sources = PricesAndStock(prices, stock, today)
    options = [
        option_of(basis_for(each, job.survey, trader, sources, miles), plans_to_keep(each, today))
        for each in take_offs
    ]
    return offer(job, options, trader, today, deposit)


def offer(
    job: Job, options: Sequence[Option], trader: Trader, today: date, deposit: Pence = 0
) -> Quote:
    """A draft of one to three options, that in the covering of the survey first.

    A draft that is there already is drafted again; after a sent one it is the next number. Raises
    :class:`NotNow` without a survey, :class:`Refused` for more options or a deposit over the whole
    of one of them.
    """
    if job.survey is None:
        raise NotNow(_NO_SURVEY)
    if not 1 <= len(options) <= MOST_OPTIONS:
        raise Refused("coverings", len(options), f"Offer from 1 to {MOST_OPTIONS}.")
    _check_deposit(deposit, min(option_total(option).gross for option in options))
    own = job.survey.covering.key if job.survey.covering else ""
    newest = job.quotes[-1] if job.quotes else None
    draft = newest if newest and newest.sent_on is None else None
    return Quote(
        number=draft.number if draft else len(job.quotes) + 1,
        options=tuple(sorted(options, key=lambda option: option.covering != own)),
        drafted_on=today,
        deposit=deposit,
        deck_rate=trader.rates.deck_metre,
        id=draft.id if draft else None,
    )


def offered(own: CoveringChoice, quotes: Sequence[Quote]) -> tuple[CoveringChoice, ...]:
    """The coverings that a quote of now is to be in: ``own`` is that of the survey and first.

    Those that the newest version has side by side stay beside it until one is accepted, in the
    colour of the survey. Where they are too many, the one that was the survey's before gives way.
    """
    newest = quotes[-1] if quotes else None
    beside = newest.options if newest and newest.acceptance is None else ()
    others = (option.covering for option in beside) if len(beside) > 1 else ()
    beside_it = [key for key in dict.fromkeys(others) if key != own.key][-(MOST_OPTIONS - 1) :]
    return tuple(CoveringChoice(key, own.colour) for key in (own.key, *beside_it))


def basis_of(quote: Quote) -> PricingBasis | None:
    """What the option that counts was made from; None if it cannot be read."""
    return kept_basis(quote.counting.basis)


def kept_basis(text: str) -> PricingBasis | None:
    """The basis that was kept with an option as JSON text; None if it cannot be read."""
    try:
        return read_basis(text)
    except (KeyError, ValueError):
        return None


def is_priced_from(quote: Quote, survey: Survey) -> bool:
    """Tell whether every option was priced from what the survey comes to now, its covering first.

    Raises :class:`Refused` for a roof that cannot be drawn and :class:`NotNow` while the old
    covering is not recorded: there is nothing then to hold the quote against.
    """
    now = surveyed_quantities(build_roof(survey.measures), survey)
    first = CoveringChoice(quote.options[0].covering, quote.options[0].colour)
    bases = [kept_basis(option.basis) for option in quote.options]
    return first == survey.covering and all(
        basis and basis.quantities.agrees(now) for basis in bases
    )


def in_covering_of(survey: Survey, option: Option) -> Survey:
    """The survey once an option is taken: in its covering, so that the work goes by it.

    Where it is in that covering already, a colour chosen since stays.
    """
    if survey.covering is not None and survey.covering.key == option.covering:
        return survey
    return replace(survey, covering=CoveringChoice(option.covering, option.colour))


def option_total(option: Option) -> VatTotals:
    """What the customer pays for an option: net, VAT by rate, gross; the trader's own price first.

    An own price holds VAT by the VAT fraction, so that it comes to what was agreed to the penny.
    """
    worked_out = totals_of((line.vat_rate, line.price) for line in option.lines)
    return worked_out if option.own_gross is None else part_of(worked_out, option.own_gross)


def to_pay(job: Job, option: Option) -> Pence:
    """Return what the customer pays: with VAT for a householder, net for a business."""
    totals = option_total(option)
    return totals.gross if job.customer.is_householder else totals.net


def cost_and_margin(option: Option) -> Margin:
    """What an option costs the trader, and what it leaves."""
    cost = sum(line.cost for line in option.lines)
    return Margin(cost, option_total(option).net)


def own_over(option: Option) -> Pence:
    """What the trader's own price adds to the price worked out, before VAT; less than 0: takes."""
    return option_total(option).net - sum(line.price for line in option.lines)


@dataclass(frozen=True, slots=True)
class MarginParts:
    """What a margin is made of; the three add up to it."""

    contingency: Pence
    markup: Pence
    least: Pence
    """What brings a small job up to the minimum charge."""


def parts_of_margin(option: Option, basis: PricingBasis) -> MarginParts:
    """Split the margin of an option by the rates of its basis.

    Boards replaced are at a rate named to the customer, so there is no contingency on them.
    """
    at_risk = sum(line.cost for line in option.lines if line.kind is not LineKind.DECK)
    contingency = share(at_risk, basis.rates.contingency)
    least = sum(line.price for line in option.lines if line.kind is LineKind.MINIMUM_CHARGE)
    markup = cost_and_margin(option).pence - own_over(option) - contingency - least
    return MarginParts(contingency, markup, least)


def _check_deposit(deposit: Pence, least: Pence) -> None:
    """Refuse a deposit that is no part of the whole, whichever option is taken."""
    if not 0 <= deposit <= least:
        remedy = f"Give from £0.00 to {show_money(least)}, the lowest price in the quote."
        raise Refused("deposit", show_money(deposit), remedy)
