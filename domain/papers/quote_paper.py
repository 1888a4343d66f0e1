"""The quote as the customer reads it: the roof, the work and its price; never cost or rates."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from domain.accounts.as_sent import AsSent, as_sent
from domain.coverings.registry import COVERINGS, SHINGLES
from domain.days.calendar import show_date
from domain.estimate.quoting import option_total
from domain.job import Job, LineKind, Option, Quote
from domain.money import Pence, share, show_money
from domain.papers.blocks import (
    Block,
    Details,
    NewPage,
    Offer,
    Offers,
    Paper,
    Signature,
    Steps,
    Ticks,
    Words,
)
from domain.papers.cancel_notice import EARLY_REQUEST, cancel_blocks
from domain.papers.invoice_paper import seller_lines
from domain.papers.letters import quote_letter
from domain.papers.shared_parts import customer_rows, sentence, show_percent
from domain.quantity import show_amount
from domain.tone import Tone
from domain.trader import Trader

_DRAFT = (
    "This quote is a draft: make it final from Tonight, or mark it as sent. Then it can go out."
)
_THANKS = (
    "Thank you for asking us to look at your roof. Here is what we would do, and our price for it."
)
_COUNTS = {2: "two", 3: "three"}
_NOT_INCLUDED = (
    "Painting, gutters, wiring and anything else not listed above: we are glad to price it if you "
    "ask."
)
_ASBESTOS = (
    "Asbestos testing or removal: if we suspect any, we stop until an accredited laboratory has "
    "tested it."
)
_WEATHER = (
    "We can only lay in dry, mild, calm weather, so the day may change: we will tell you as early "
    "as we can."
)
_KEEP_AWAY = "Please keep people and pets away from the ladder and the roof while we work."


def quote_paper(job: Job, quote: Quote, trader: Trader) -> Paper:
    """The quote on one page, and on another the right to cancel where there is one.

    As it was sent it stays; what came after is no part of it. A householder sees prices with VAT
    in them, a business net prices first.
    """
    says = as_sent(job, quote, trader)
    version = f", version {quote.number}" if quote.number > 1 else ""
    blocks: list[Block] = [
        Details(customer_rows(says.buyer, says.place, says.work.roof), "For"),
        _dates(job, quote, trader),
        Words(_THANKS),
        work_steps(quote, says),
        offers_of(quote, says.is_householder),
        paying_words(quote, says, job.ref),
        Words(_NOT_INCLUDED, "Not included"),
        Words(_ASBESTOS, tone=Tone.STOP if says.may_hold_asbestos else Tone.PLAIN),
        Words(f"{when_words(says)} {_KEEP_AWAY}", "When"),
        Words(rights_words(says), "If something is not right"),
        *_to_accept(quote, says),
    ]
    if says.is_householder:
        blocks += [NewPage(), *cancel_blocks(says)]
    return Paper(
        title=f"Quote {job.ref}{version}",
        blocks=tuple(blocks),
        head=seller_lines(says.seller),
        look=says.seller.look,
        letter=replace(
            quote_letter(quote, says, job.ref, show_date(_last_day(quote, trader))),
            to=job.customer.email,
        ),
        not_yet=_DRAFT if quote.sent_on is None else "",
    )


def covering_words(option: Option) -> str:
    """What an option covers the roof with, as papers name it."""
    covering = COVERINGS.get(option.covering)
    words = sentence(covering.words if covering else option.covering)
    return f"{words}, {option.colour}" if option.colour else words


def _dates(job: Job, quote: Quote, trader: Trader) -> Details:
    """When it was sent and how long it is valid; a draft says that it is one."""
    sent = quote.sent_on or quote.drafted_on
    until = _last_day(quote, trader)
    dated = show_date(sent) if quote.sent_on else f"Draft, {show_date(sent)}"
    return Details((("Reference", job.ref), ("Date", dated), ("Valid until", show_date(until))))


def _last_day(quote: Quote, trader: Trader) -> date:
    """The last day on which it can be accepted; of a draft, if it were sent as it was drafted."""
    sent = quote.sent_on or quote.drafted_on
    return quote.valid_until or sent + timedelta(days=trader.quote_days)


def work_steps(quote: Quote, says: AsSent) -> Steps:
    """What is done, in the order in which it is done: the same whichever covering is chosen."""
    coverings = [option.covering for option in quote.options]
    if len(coverings) > 1:
        lay = "Lay the covering you choose below."
    else:
        lay = f"Lay {_uncapped(covering_words(quote.options[0]))}."
    if all(covering not in SHINGLES for covering in coverings):
        under: tuple[str, ...] = ()
    elif all(covering in SHINGLES for covering in coverings):
        under = ("Lay new underlay.",)
    else:
        under = ("Lay new underlay where the covering is shingles.",)
    ends = f"Finish the {says.work.ends}"
    last = (f"{ends}, clear up and leave it tidy.",)
    rows = (says.work.strip, _boards(quote, says), *under, lay, *last)
    return Steps(rows, "What we will do")


def _boards(quote: Quote, says: AsSent) -> str:
    """What of the deck is in the price, and the rate for what is found rotten besides."""
    deck, rate = says.work.deck, _deck_rate(quote, says.is_householder)
    asked = "we ask first"
    priced = [line for line in quote.options[0].lines if line.kind is LineKind.DECK]
    if not priced:
        return f"Check the {deck}. Any found rotten: {rate}, fitted; {asked}."
    metres = show_amount(priced[0].quantity, priced[0].unit)
    return f"Replace {metres} of rotten boards, in this price. Any more: {rate}; {asked}."


def _deck_rate(quote: Quote, inclusive: bool) -> str:
    """The rate for boards, named beforehand: the same for every option.

    All were priced on one day for one trader, so that one VAT rate is right for them.
    """
    rate = quote.options[0].lines[0].vat_rate
    price: Pence = quote.deck_rate + (share(quote.deck_rate, rate) if inclusive else 0)
    if not rate:
        how = ""
    elif inclusive:
        how = " including VAT"
    else:
        how = f" plus VAT at {show_percent(rate)}"
    return f"{show_money(price)} per metre{how}"


def offers_of(quote: Quote, inclusive: bool) -> Offers:
    """What each option comes to, side by side where one is to be chosen."""
    if len(quote.options) == 1:
        return Offers((_offer(quote.options[0], "", inclusive),))
    offers = tuple(_offer(option, covering_words(option), inclusive) for option in quote.options)
    count = _COUNTS[len(offers)]
    heading = f"Please choose one of these {count}: each price covers all the work"
    return Offers(offers, heading, to_tick=True)


def _offer(option: Option, words: str, inclusive: bool) -> Offer:
    """The price that counts for the reader, and its VAT below it where there is any."""
    totals = option_total(option)
    vat = [(f"VAT at {show_percent(each.rate)}", show_money(each.vat)) for each in totals.rated]
    if not vat:
        return Offer(words, "Total", show_money(totals.gross))
    if inclusive:
        rows = (("Before VAT", show_money(totals.net)), *vat)
        return Offer(words, "Total, including VAT", show_money(totals.gross), rows)
    rows = (*vat, ("Total including VAT", show_money(totals.gross)))
    return Offer(words, "Total before VAT", show_money(totals.net), rows)


def paying_words(quote: Quote, says: AsSent, ref: str) -> Words:
    """How and when it is to be paid; where a deposit is asked for, also to which account."""
    days = show_amount(Decimal(says.days_to_pay), "day")
    rest = f"within {days} of our invoice, sent when the work is done, by bank transfer."
    if not quote.deposit:
        return Words(f"Nothing before we start, all of it {rest}", "Paying")
    deposit, seller = show_money(quote.deposit), says.seller
    account = ""
    if seller.sort_code and seller.account:
        account = (
            f" Account: {seller.bank_name}, sort code {seller.sort_code}, account "
            f"{seller.account}, reference {ref}."
        )
    return Words(f"{deposit} deposit before we start, the balance {rest}{account}", "Paying")


def when_words(says: AsSent) -> str:
    """How long the work takes, and how its day is found."""
    if not says.work_days:
        return _WEATHER
    takes = show_amount(Decimal(says.work_days), "day")
    return f"The work takes about {takes}, on a day we agree with you. {_WEATHER}"


def rights_words(says: AsSent) -> str:
    """Where to complain, and what the law says of what is supplied."""
    law = "What we supply must be as agreed and the work done with reasonable care and skill."
    if not says.is_householder:
        return f"Please ring or write to us at the address above. {law}"
    given = "Any guarantee we give in writing is"
    if says.guarantee_years:
        years = show_amount(Decimal(says.guarantee_years), "year")
        given = f"We guarantee our workmanship for {years} from when it is signed off,"
    return (
        f"Please ring or write to us at the address above. By law {_uncapped(law)} {given} in "
        "addition to your legal rights."
    )


def _to_accept(quote: Quote, says: AsSent) -> Iterator[Block]:
    """The line to sign on; where there is a choice, for the covering that is ticked."""
    if len(quote.options) > 1:
        yield Words("I accept the covering ticked above, at its price:", "To accept")
    else:
        yield Words("I accept this quote at the price shown:", "To accept")
    if says.is_householder:
        yield Ticks(((False, EARLY_REQUEST),))
    yield Signature(says.buyer.name)


def _uncapped(text: str) -> str:
    """The text as it stands within a sentence."""
    return text[:1].lower() + text[1:]
