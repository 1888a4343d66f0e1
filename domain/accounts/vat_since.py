"""What was agreed without VAT, once the trader has registered for it: inside the price, or added.

A price that says nothing of VAT includes it (VAT Act 1994 s. 19(2): memory); a change to the tax
between the contract and the supply may adjust the price unless the contract says otherwise (s. 89:
read). Whether registering is such a change is a legal question, so the trader is asked, once. What
was invoiced or paid before stays without VAT: its tax point was before the registration.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal

from domain.accounts.agreed import Agreed, AgreedTerms, shared_over
from domain.days.calendar import show_date
from domain.errors import NotNow, Refused
from domain.estimate.quoting import option_total
from domain.estimate.scope import DEPOSIT, Item
from domain.job import Extra, Job, Line, Option, VatTerms
from domain.money import Pence, plain_pounds, share
from domain.tax import VatBand, VatSum, added_up, rate_on, vat_in
from domain.trader import Trader

SAID = {
    VatTerms.INSIDE: "We registered for VAT after we agreed: VAT is inside the price we agreed.",
    VatTerms.ADDED: "We registered for VAT after we agreed: VAT is added, as agreed in writing on",
}
"""What the invoice says of it; of what is added, the day follows."""
_BEFORE = "Invoiced or paid before we registered for VAT"
ASKED_FIRST = (
    "You registered for VAT after this quote: say on the money page whether VAT is inside the "
    "agreed price or added to it."
)


def asks_for_vat_terms(job: Job, trader: Trader) -> bool:
    """Whether the accepted quote bears no VAT, the trader is registered, and nobody has said."""
    return bears_no_vat(job, trader) and job.vat_terms is None


def as_if_said(job: Job) -> Job:
    """The job as if it were said how VAT stands: what stops its invoice then does so either way.

    An answer is kept for good, so it is asked for only where nothing else stops the invoice.
    """
    return replace(job, vat_terms=VatTerms.INSIDE)


def bears_no_vat(job: Job, trader: Trader) -> bool:
    """Whether the trader has registered since the quote that was accepted."""
    option = job.quote.accepted if job.quote else None
    return trader.vat_registered and option is not None and not option_total(option).rated


def as_if_rated(job: Job, option: Option, on: date) -> tuple[Job, Option]:
    """The job and its option as if they had been agreed with VAT: what is invoiced goes by it.

    At the standard rate of ``on``. Raises :class:`NotNow` until it is said how.
    """
    if job.vat_terms is None or job.quote is None:
        raise NotNow(ASKED_FIRST)
    inside, rate = job.vat_terms is VatTerms.INSIDE, rate_on(VatBand.STANDARD, on)
    whole = option_total(option).gross
    own: Pence | None = whole if inside else option.own_gross
    if own is not None and not inside:
        own += share(own, rate)
    lines = tuple(_line(line, rate, inside=inside) for line in option.lines)
    rated = replace(option, lines=lines, own_gross=own)
    metre = job.quote.deck_rate
    quote = replace(job.quote, deck_rate=metre - vat_in(metre, rate) if inside else metre)
    extras = tuple(_extra(extra, rate, inside=inside) for extra in job.extras)
    quotes = tuple(quote if each is job.quote else each for each in job.quotes)
    return replace(job, quotes=quotes, extras=extras), rated


def without_vat_on(agreed: Agreed, before: Pence, terms: VatTerms, *, householder: bool) -> Agreed:
    """What was agreed, where ``before`` of it was invoiced or paid while no VAT was borne."""
    if not before:
        return agreed
    (whole,) = agreed.totals.vat
    if terms is VatTerms.INSIDE:
        before = min(before, whole.net + whole.vat)
        gross = whole.net + whole.vat - before
        vat = vat_in(gross, whole.rate)
        rest = VatSum(whole.rate, gross - vat, vat)
    else:
        before = min(before, whole.net)
        net = whole.net - before
        rest = VatSum(whole.rate, net, share(net, whole.rate))
    untaxed = VatSum(Decimal(0), before, 0)
    sums = (rest, untaxed)
    first = Item(_BEFORE, Decimal(1), DEPOSIT, before, Decimal(0))
    counted = rest.net + (rest.vat if householder else 0)
    said = (AgreedTerms(whole.rate, plain_pounds(counted)),) if agreed.terms else ()
    said = (*said, AgreedTerms(untaxed.rate, plain_pounds(before)))
    return Agreed(shared_over((*agreed.lines, first), sums), added_up(sums), said)


def _line(line: Line, rate: Decimal, *, inside: bool) -> Line:
    price = line.price - vat_in(line.price, rate) if inside else line.price
    return replace(line, price=price, vat_rate=rate)


def _extra(extra: Extra, rate: Decimal, *, inside: bool) -> Extra:
    """An extra of before as the quote; one told since with VAT stays as it was told."""
    if extra.vat_rate:
        return extra
    return replace(extra, vat_rate=rate, with_vat=inside)


def demand_terms(job: Job, trader: Trader, terms: VatTerms, on: date | None) -> None:
    """Raise :class:`NotNow` where it is not asked, :class:`Refused` without the day it names."""
    if not bears_no_vat(job, trader):
        raise NotNow("The accepted quote bears VAT already, or you are not registered for it.")
    if any(each.kind.asks and not each.is_withdrawn for each in job.documents) and job.vat_terms:
        raise NotNow("It is invoiced already: how VAT stands to the price cannot change now.")
    if terms is VatTerms.ADDED and on is None:
        raise Refused("on", "", "Give the day on which they agreed to it in writing.")


def vat_words(job: Job) -> str:
    """What its invoice says of VAT that came after the quote; nothing where it did not."""
    if job.vat_terms is None:
        return ""
    said = SAID[job.vat_terms]
    return f"{said} {show_date(job.vat_agreed_on)}." if job.vat_agreed_on else said
