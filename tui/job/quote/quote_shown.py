"""What a quote shows: the customer's part from its own paper, and what is the trader's alone."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from domain.checks.sending import waiting, went_out_on
from domain.days.calendar import show_date
from domain.estimate.basis import PricingBasis
from domain.estimate.old_prices import OLD_AFTER, old_prices
from domain.estimate.quoting import (
    cost_and_margin,
    kept_basis,
    option_total,
    own_over,
    parts_of_margin,
    to_pay,
)
from domain.estimate.starting_prices import STARTING_WORDS
from domain.job import Job, LineKind, Option, Outgoing, Quote
from domain.money import show_money
from domain.papers.blocks import Block, Column, Details, Offers, Paper, Steps, Table, Words
from domain.papers.quote_paper import covering_words, quote_paper
from domain.papers.shared_parts import sentence, show_percent
from domain.papers.since_sent import since_sent
from domain.quantity import show_amount
from domain.signs import Sign
from domain.starting_rates import WORK_RATES, starting_rates
from domain.tone import Tone
from domain.trader import Trader
from tui.frame.commands import key_of
from tui.your_details.details_fields import RATES

_MADE_OF = "What makes up the cost"


def quote_standing(job: Job, quote: Quote) -> tuple[str, Tone]:
    """The version, what the customer pays, and what has become of it; and if another one counts."""
    words, tone = _become_of(job, quote)
    total, counts = _total(job, quote), job.quote
    other = ""
    if counts is not None and counts.number != quote.number:
        other = f" Version {counts.number} is the accepted one."
    return f"Version {quote.number}, {total}. {words}{other}", tone


def price_to_send(job: Job) -> str:
    """What the newest quote comes to, and what the one sent before it came to: ``£8, was £7``."""
    *before, newest = job.quotes
    sent = [each for each in before if each.sent_on is not None]
    was = f", was {_total(job, sent[-1])}" if sent else ""
    return f"{_total(job, newest)}{was}"


def _total(job: Job, quote: Quote) -> str:
    *others, least = sorted((to_pay(job, each) for each in _open(quote)), reverse=True)
    return f"{'from ' if others else ''}{show_money(least)}"


def two_versions(accepted: Quote, newest: Quote) -> str:
    """What to say where the paper of an accepted version is shown and there is a newer one."""
    state = "went out and was not accepted" if newest.sent_on else "is a draft"
    return (
        f"Version {accepted.number} is the accepted one. Version {newest.number} {state} "
        f"({key_of('paper', 'turn_over')} to see it)."
    )


def customer_part(job: Job, quote: Quote, trader: Trader) -> Paper:
    """The work and the price as the customer's paper has them, and the versions before."""
    options = _open(quote)
    if len(options) > 1:
        return Paper("The customer picks one", (*_choice(job, options), *_older(job, quote)))
    blocks = quote_paper(job, replace(quote, options=options), trader).blocks
    steps = (replace(block, heading="") for block in blocks if isinstance(block, Steps))
    prices = (block for block in blocks if isinstance(block, Offers))
    return Paper(covering_words(options[0]), (*steps, *prices, *_older(job, quote)))


def own_part(job: Job, quote: Quote) -> Paper:
    """What is the trader's alone of a quote: of each option, and what came after it was sent.

    It stands on no paper that a customer gets.
    """
    options = _open(quote)
    if len(options) > 1:
        named = [(option, covering_words(option)) for option in options]
        figures = [_own_figures(option, words, quote) for option, words in named]
        made_of = [_made_of(option, f"{_MADE_OF}: {words}") for option, words in named]
    else:
        figures, made_of = [_own_figures(options[0], "", quote)], [_made_of(options[0], _MADE_OF)]
    since = since_sent(job, quote)
    return Paper("For your eyes only", (*figures, *((since,) if since else ()), *made_of))


def _own_figures(option: Option, heading: str, quote: Quote) -> Details:
    """What an option costs and leaves."""
    margin, basis = cost_and_margin(option), kept_basis(option.basis)
    rows = [("Cost", show_money(margin.cost))]
    if basis is not None:
        rows += _put_on(option, basis)
        if unsure := _starting(basis):
            rows.append((f"{Sign.CAUTION} {STARTING_WORDS.capitalize()}", ", ".join(unsure)))
        if old := _old(basis, quote):
            rows.append((f"{Sign.CAUTION} Price over {OLD_AFTER.days} days old", old))
    if over := own_over(option):
        rows.append(("Your own price", f"{'+' if over > 0 else '−'}{show_money(abs(over))}"))
    price = "Price before VAT" if any(line.vat_rate for line in option.lines) else "Price"
    rows += [
        (price, show_money(margin.price)),
        ("Margin", f"{show_money(margin.pence)}, {show_percent(margin.percent)}"),
    ]
    return Details(tuple(rows), heading)


def _starting(basis: PricingBasis) -> list[str]:
    """What of it is still a figure to begin with: prices, charges, work rates."""
    begin = starting_rates(basis.rates)
    prices = [each.material.words for each in basis.supplies if each.price.starting]
    charges = [field.label.lower() for field in RATES if field.id in begin]
    return [*prices, *charges, *(["work rates"] if begin.intersection(WORK_RATES) else [])]


def _old(basis: PricingBasis, quote: Quote) -> str:
    """Which materials had an old price; in a word if all of them had."""
    old = old_prices(basis.supplies, quote.drafted_on)
    bought = [each for each in basis.supplies if each.packs]
    if old and len(old) == len(bought):
        return "all materials"
    return ", ".join(each.material.words for each in old)


def _open(quote: Quote) -> tuple[Option, ...]:
    """The options that can be taken: all of them, until one is."""
    return quote.options if quote.accepted is None else (quote.accepted,)


def _choice(job: Job, options: Sequence[Option]) -> Iterator[Block]:
    """What each option comes to: the paper has their lines."""
    yield Details(tuple((covering_words(each), show_money(to_pay(job, each))) for each in options))
    rated = any(option_total(option).rated for option in options)
    included = "VAT is included" if job.customer.is_householder else "All are before VAT"
    vat = f" {included}." if rated else ""
    yield Words(f"{key_of('quote', 'paper')} shows each with its lines.{vat}", tone=Tone.QUIET)


def _made_of(option: Option, heading: str) -> Table:
    """Every line at cost, which the customer sees in few sums only."""
    rows = tuple(
        (sentence(line.words), show_amount(line.quantity, line.unit), show_money(line.cost))
        for line in option.lines
        if line.kind is not LineKind.MINIMUM_CHARGE
    )
    columns = (Column("What"), Column("Quantity", True), Column("Cost", True))
    return Table(columns, rows, heading)


def _put_on(option: Option, basis: PricingBasis) -> list[tuple[str, str]]:
    """What the margin is made of, a row each."""
    rates, parts = basis.rates, parts_of_margin(option, basis)
    rows = [
        (f"Contingency, {show_percent(rates.contingency)}", show_money(parts.contingency)),
        (f"Markup, {show_percent(rates.markup)} on materials", show_money(parts.markup)),
    ]
    least = ("Made up to minimum charge", show_money(parts.least))
    return [*rows, least] if parts.least else rows


def _become_of(job: Job, quote: Quote) -> tuple[str, Tone]:
    if quote.sent_on is None:
        return f"Draft, {show_date(quote.drafted_on)}, not sent.", Tone.CAUTION
    if quote.acceptance is not None:
        who, on = quote.acceptance.who, show_date(quote.acceptance.on)
        return f"Accepted by {who} on {on}, {quote.acceptance.means}.", Tone.GOOD
    until = f", valid until {show_date(quote.valid_until)}" if quote.valid_until else ""
    if waiting(job, Outgoing.QUOTE, quote.number):
        words = f"Final, dated {show_date(quote.sent_on)}{until}: not marked as sent yet."
        return words, Tone.CAUTION
    sent_on = went_out_on(job, quote) or quote.sent_on
    return f"Sent on {show_date(sent_on)}{until}.", Tone.PLAIN


def _older(job: Job, newest: Quote) -> list[Block]:
    """A line for each earlier version: the old one stays."""
    return [
        Words(f"Version {quote.number}: {_become_of(job, quote)[0]}", tone=Tone.QUIET)
        for quote in job.quotes
        if quote.number < newest.number
    ]
