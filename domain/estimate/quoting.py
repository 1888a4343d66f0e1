"""The quote: drafted from a take-off, and what its options come to."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from domain.errors import NotNow, Refused
from domain.estimate.basis import Basis
from domain.estimate.pricing import basis_for, quantities_of, quote_lines
from domain.estimate.stock import Price, StockLine
from domain.estimate.supplies import Sources
from domain.job import CoveringChoice, Job, Option, Quote, Survey
from domain.money import Pence, show_money
from domain.quantity import to_decimal
from domain.setting_out.roof import build_roof
from domain.snapshot import from_json, to_json
from domain.takeoff.take_off import TakeOff
from domain.tax import Totals, totals_of
from domain.trader import Trader


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


def draft_quote(
    job: Job,
    take_off: TakeOff,
    trader: Trader,
    prices: Sequence[Price],
    stock: Sequence[StockLine],
    miles: Decimal,
    today: date,
    deposit: Pence = 0,
) -> Quote:
    """A quote at today's prices and rates; ``miles`` there and back, ``deposit`` VAT included.

    A draft that is there already is drafted anew; after a sent one it is the next number. Raises
    :class:`NotNow` for what is not on record yet and :class:`Refused` for a deposit over the whole.
    """
    if job.survey is None:
        raise NotNow("The roof is not surveyed yet: write up the survey first.")
    sources = Sources(prices, stock, today)
    basis = basis_for(take_off, job.survey, trader, sources, miles)
    option = Option(basis.covering, basis.colour, quote_lines(basis))
    _check_deposit(deposit, option_total(option).gross)
    newest = job.quotes[-1] if job.quotes else None
    draft = newest if newest and newest.sent_on is None else None
    return Quote(
        number=draft.number if draft else len(job.quotes) + 1,
        options=(option,),
        drafted_on=today,
        basis=to_json(basis),
        deposit=deposit,
        deck_rate=trader.rates.deck_metre,
        id=draft.id if draft else None,
    )


def basis_of(quote: Quote) -> Basis | None:
    """What a quote was made from; None if it was not kept in a form that can be read."""
    return kept_basis(quote.basis)


def kept_basis(text: str) -> Basis | None:
    """The basis that was kept with a quote as JSON text; None if it cannot be read."""
    try:
        return from_json(Basis, text)
    except (KeyError, ValueError):
        return None


def is_priced_from(quote: Quote, survey: Survey) -> bool:
    """Tell whether a quote was priced from what the survey comes to now.

    Raises :class:`Refused` for a roof that cannot be drawn and :class:`NotNow` while the old
    covering is not written up: there is nothing then to hold the quote against.
    """
    roof, basis = build_roof(survey.measures), basis_of(quote)
    now = quantities_of(roof, survey.old, survey.deck.replace_m)
    if basis is None or survey.covering is None:
        return False
    covering = CoveringChoice(basis.covering, basis.colour)
    return (basis.quantities, covering) == (now, survey.covering)


def option_total(option: Option) -> Totals:
    """What the customer pays for an option: net, VAT by rate, gross."""
    return totals_of((line.vat_rate, line.price) for line in option.lines)


def cost_and_margin(option: Option) -> Margin:
    """What an option costs the trader, and what it leaves."""
    cost = sum(line.cost for line in option.lines)
    return Margin(cost, sum(line.price for line in option.lines))


def _check_deposit(deposit: Pence, whole: Pence) -> None:
    """Refuse a deposit that is no part of the whole."""
    if not 0 <= deposit <= whole:
        remedy = f"Give from £0.00 to {show_money(whole)}, the whole of the quote."
        raise Refused("Deposit", show_money(deposit), remedy)
