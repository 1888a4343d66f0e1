"""What a quote shows: the customer's part from its own paper, and what is the trader's alone."""

from dataclasses import replace

from domain.days.calendar import show_date
from domain.estimate.basis import Basis
from domain.estimate.quoting import basis_of, cost_and_margin, option_total
from domain.job import CustomerKind, Job, LineKind, Option, Quote
from domain.money import Pence, share, show_money
from domain.papers.blocks import Block, Column, Details, Paper, Table, Tone, Totals, Words
from domain.papers.parts import sentence, show_percent
from domain.papers.quote import quote_paper
from domain.quantity import show_amount
from domain.trader import Trader


def is_householder(job: Job) -> bool:
    """Tell whether the customer reads prices with VAT in them, and may have a right to cancel."""
    return job.customer.kind is CustomerKind.HOUSEHOLDER


def standing(job: Job, quote: Quote) -> tuple[str, Tone]:
    """The version, what the customer pays, and what has become of it; and if another one counts."""
    words, tone = _become_of(quote)
    total = show_money(_to_pay(job, quote))
    counts = job.quote
    other = ""
    if counts is not None and counts.number != quote.number:
        other = f" Version {counts.number} is the one that was accepted."
    return f"Version {quote.number}, {total}. {words}{other}", tone


def two_versions(accepted: Quote, newest: Quote) -> str:
    """What to say where the paper of an accepted version is shown and there is a newer one."""
    state = "was sent and not accepted" if newest.sent_on else "is a draft"
    return (
        f"Version {accepted.number} was accepted and counts. Version {newest.number} {state}: "
        "F10 turns to it."
    )


def customer_part(job: Job, quote: Quote, trader: Trader) -> Paper:
    """The lines and the total as the customer's paper has them, and the versions before."""
    blocks = quote_paper(job, quote, trader).blocks
    first, *others = (block for block in blocks if isinstance(block, Table | Totals))
    title = first.heading if isinstance(first, Table) else ""
    lines = replace(first, heading="") if isinstance(first, Table) else first
    return Paper(title, (lines, *others, *_older(job, quote)))


def own_part(quote: Quote) -> Paper:
    """What is the trader's alone of a quote: it stands on no paper."""
    option, basis = quote.options[0], basis_of(quote)
    margin = cost_and_margin(option)
    rows = [("Cost", show_money(margin.cost))]
    if basis is not None:
        rows += _put_on(option, basis, margin.pence)
    rows += [
        ("Price, net", show_money(margin.price)),
        ("Margin", f"{show_money(margin.pence)}, {show_percent(margin.percent)}"),
    ]
    return Paper("Yours alone: on no paper", (Details(tuple(rows)), _made_of(option)))


def _made_of(option: Option) -> Table:
    """Every line at cost, which the customer sees in few sums only."""
    rows = tuple(
        (sentence(line.words), show_amount(line.quantity, line.unit), show_money(line.cost))
        for line in option.lines
        if line.kind is not LineKind.LEAST
    )
    columns = (Column("What"), Column("Quantity", True), Column("Cost", True))
    return Table(columns, rows, "What the cost is made of")


def _put_on(option: Option, basis: Basis, margin: Pence) -> list[tuple[str, str]]:
    """What the margin is made of; the three add up to it.

    Boards replaced are at a rate named to the customer, so there is no contingency on them.
    """
    rates = basis.rates
    at_risk = sum(line.cost for line in option.lines if line.kind is not LineKind.DECK)
    contingency = share(at_risk, rates.contingency)
    least = sum(line.price for line in option.lines if line.kind is LineKind.LEAST)
    markup = margin - contingency - least
    rows = [
        (f"Contingency, {show_percent(rates.contingency)}", show_money(contingency)),
        (f"Markup, {show_percent(rates.markup)}", show_money(markup)),
    ]
    return [*rows, ("To the least charge", show_money(least))] if least else rows


def _become_of(quote: Quote) -> tuple[str, Tone]:
    if quote.sent_on is None:
        return f"A draft of {show_date(quote.drafted_on)}, not sent.", Tone.CAUTION
    if quote.acceptance is not None:
        who, on = quote.acceptance.who, show_date(quote.acceptance.on)
        return f"Accepted by {who} on {on}, {quote.acceptance.means}.", Tone.GOOD
    until = f", holds until {show_date(quote.holds_until)}" if quote.holds_until else ""
    return f"Sent on {show_date(quote.sent_on)}{until}.", Tone.PLAIN


def _to_pay(job: Job, quote: Quote) -> Pence:
    """With VAT for a householder, net for a business."""
    totals = option_total(quote.accepted or quote.options[0])
    return totals.gross if is_householder(job) else totals.net


def _older(job: Job, newest: Quote) -> list[Block]:
    """A line for each earlier version: the old one stays."""
    return [
        Words(f"Version {quote.number}: {_become_of(quote)[0]}", tone=Tone.QUIET)
        for quote in job.quotes
        if quote.number < newest.number
    ]
