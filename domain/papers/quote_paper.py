"""The quote as the customer reads it: the scope and its price, never cost, markup or rates."""

from collections.abc import Iterator
from datetime import timedelta

from domain.coverings.registry import COVERINGS
from domain.days.calendar import show_date
from domain.estimate.quoting import option_total
from domain.estimate.scope import items_of
from domain.job import Job, Option, Quote
from domain.money import Pence, apportion, share, show_money
from domain.papers.blocks import (
    Block,
    Details,
    Paper,
    Signature,
    Ticks,
    Totals,
    Words,
)
from domain.papers.cancel_notice import agreed_since, cancel_blocks
from domain.papers.shared_parts import (
    customer_rows,
    items_table,
    lines_of,
    sentence,
    show_percent,
)
from domain.tone import Tone
from domain.trader import Trader

_THANKS = "Thank you for asking us. This is what we would do, and our price for it."
_COUNTS = {2: "two", 3: "three"}

_CAUTIONS = (
    (
        "We look after safety on the roof. Please keep people and pets away from the "
        "ladder and roof edges while we work."
    ),
    (
        "We can only lay in dry, mild, calm weather, so the day may change. We will "
        "tell you as early as we can."
    ),
    "We fit everything to the manufacturer's instructions.",
)

_ASBESTOS = (
    "If we find anything that may be asbestos we stop until an accredited "
    "laboratory has tested it. Testing and removal are not in this price."
)


def quote_paper(job: Job, quote: Quote, trader: Trader) -> Paper:
    """The quote with its options, cautions, and the right to cancel where there is one.

    As it was sent it stays; what was agreed since stands after it.

    A householder sees prices with VAT in them, a business net prices first.
    """
    version = f", version {quote.number}" if quote.number > 1 else ""
    inclusive = job.customer.is_householder
    blocks: list[Block] = [_customer(job), _dates(job, quote, trader), Words(_THANKS)]
    blocks += _choice(quote)
    for option in quote.options:
        blocks += _option(option, inclusive)
    blocks += [
        _deck(quote, inclusive),
        *_deposit(quote),
        *_cautions(job),
        *_to_accept(job, quote),
        *cancel_blocks(job.customer, quote, trader, job.site.place),
    ]
    if quote.acceptance is not None:
        taken = covering_words(quote.counting) if len(quote.options) > 1 else ""
        blocks.append(agreed_since(job.customer, quote.acceptance, taken))
    head = lines_of(trader.heading, trader.name if trader.trading_as else "", trader.address)
    reach = lines_of(trader.phone, trader.email)
    number = (f"VAT number {trader.vat_number}",) if trader.vat_registered else ()
    return Paper(f"Quote {job.ref}{version}", tuple(blocks), (*head, *reach, *number))


def _customer(job: Job) -> Details:
    rows = customer_rows(job.customer.name, job.customer.address, job.site.on_a_line)
    return Details(rows, "For")


def _dates(job: Job, quote: Quote, trader: Trader) -> Details:
    """When it was sent and how long it holds; a draft says that it is one."""
    sent = quote.sent_on or quote.drafted_on
    until = quote.valid_until or sent + timedelta(days=trader.quote_days)
    date = show_date(sent) if quote.sent_on else f"Draft, {show_date(sent)}"
    return Details((("Reference", job.ref), ("Date", date), ("Valid until", show_date(until))))


def _choice(quote: Quote) -> Iterator[Words]:
    """That one of several coverings is to be chosen; nothing where there is one."""
    if len(quote.options) > 1:
        count = _COUNTS[len(quote.options)]
        words = f"Please choose one of these {count}. Each price covers all the work."
        yield Words(words, f"{sentence(count)} coverings to choose from")


def _option(option: Option, inclusive: bool) -> Iterator[Block]:
    """The scope of an option in few sums, and what they come to."""
    totals, items = option_total(option), items_of(option)
    prices = [item.net for item in items]
    if inclusive:
        exact = [item.net * (100 + item.vat_rate) / 100 for item in items]
        prices = list(apportion(exact))
    included = ", including VAT" if inclusive and totals.rated else ""
    sums = [show_money(price) for price in prices]
    yield items_table(items, sums, f"Price{included}", covering_words(option))
    vat = [(f"VAT at {show_percent(s.rate)}", show_money(s.vat)) for s in totals.rated]
    if inclusive or not vat:
        yield Totals(((f"Total{included}", show_money(totals.gross)),))
        for words, amount in vat:
            yield Words(
                f"Includes {words} of {amount} ({show_money(totals.net)} before VAT).",
                tone=Tone.QUIET,
            )
    else:
        net = ("Total before VAT", show_money(totals.net))
        yield Totals((net, *vat, ("Total including VAT", show_money(totals.gross))))


def covering_words(option: Option) -> str:
    """What an option covers the roof with, as papers name it."""
    covering = COVERINGS.get(option.covering)
    words = sentence(covering.words if covering else option.covering)
    return f"{words}, {option.colour}" if option.colour else words


def _deck(quote: Quote, inclusive: bool) -> Words:
    """The rate for boards found rotten, named beforehand: the same for every option.

    All were priced on one day for one trader, so that one VAT rate holds.
    """
    rate = quote.options[0].lines[0].vat_rate
    price: Pence = quote.deck_rate + (share(quote.deck_rate, rate) if inclusive else 0)
    how = (
        ""
        if not rate
        else ", including VAT"
        if inclusive
        else (f" plus VAT at {show_percent(rate)}")
    )
    return Words(
        (
            f"If we find rotten boards: {show_money(price)} per metre{how}, "
            "supplied and fitted. We will ask you first."
        ),
        "Rotten boards",
    )


def _deposit(quote: Quote) -> Iterator[Words]:
    if quote.deposit:
        words = f"{show_money(quote.deposit)} deposit before we start, the balance on completion."
        yield Words(words, "Deposit")


def _to_accept(job: Job, quote: Quote) -> Iterator[Block]:
    """The line to sign on, with the covering to be ticked where there is a choice."""
    if len(quote.options) > 1:
        yield Words("I accept the covering ticked here, at its price above:", "To accept")
        yield Ticks(tuple((False, covering_words(option)) for option in quote.options))
    else:
        yield Words("I accept this quote at the price shown:", "To accept")
    yield Signature(job.customer.name)


def _cautions(job: Job) -> Iterator[Words]:
    """What the customer has to know; asbestos louder where it is suspected."""
    yield Words(" ".join(_CAUTIONS), "Good to know")
    suspected = job.survey is not None and job.survey.old.may_hold_asbestos
    yield Words(_ASBESTOS, tone=Tone.STOP if suspected else Tone.CAUTION)
