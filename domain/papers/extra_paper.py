"""Work that was not in the quote, put to the customer to sign before it is begun."""

from collections.abc import Iterator
from dataclasses import replace

from domain.accounts.agreed import agreed_sums
from domain.accounts.invoice import as_seller, buyer_of
from domain.days.calendar import show_date
from domain.errors import NotNow
from domain.estimate.extra_terms import gross_of, is_by_the_metre, net_of
from domain.estimate.quoting import option_total
from domain.job import Extra, ExtraState, Job
from domain.money import Pence, share, show_money, times
from domain.papers.blocks import (
    Block,
    Column,
    Details,
    Paper,
    Signature,
    Table,
    Totals,
    Words,
)
from domain.papers.invoice_paper import by_rate, seller_lines
from domain.papers.shared_parts import customer_rows, sentence
from domain.papers.work_letters import extra_letter
from domain.quantity import show_amount
from domain.tax import VatTotals, less
from domain.trader import Trader

_FOUND = (
    "We found work to do on your roof that is not in our quote. This is what we would do, and our "
    "price for it. We start it once you have agreed; without it, it is left as it is."
)
_AGREED = "This is the work that was agreed on top of our quote."
_TO_AGREE = "I agree to this work at the price shown, on top of the quote:"


def extra_paper(job: Job, trader: Trader) -> Paper:
    """The extras that wait for a yes, with a place to sign; once there are none, those agreed.

    Their prices are in the terms that the customer was told: with VAT inside to a householder,
    before VAT with the VAT named to others. Raises :class:`NotNow` for a job without an extra.
    """
    extras = _told(job)
    if not extras:
        raise NotNow(f"Job {job.ref} has no extra to agree: add it under stripped first.")
    seller, place = as_seller(trader), job.site.on_a_line
    return Paper(
        title=f"Extra work, {job.ref}",
        head=seller_lines(seller),
        look=seller.look,
        letter=replace(
            extra_letter(seller, buyer_of(job), place, _said(job, extras), waits=_waits(extras)),
            to=job.customer.email,
        ),
        blocks=tuple(_blocks(job, trader, extras)),
    )


def _told(job: Job) -> tuple[Extra, ...]:
    for state in ExtraState.OPEN, ExtraState.AGREED:
        extras = tuple(each for each in job.extras if each.state is state)
        if extras:
            return extras
    return ()


def _waits(extras: tuple[Extra, ...]) -> bool:
    return extras[0].state is ExtraState.OPEN


def _blocks(job: Job, trader: Trader, extras: tuple[Extra, ...]) -> Iterator[Block]:
    yield Details(customer_rows(buyer_of(job), job.site.on_a_line), "For")
    yield Details((("Reference", job.ref), *_found_on(job)))
    yield Words(_FOUND if _waits(extras) else _AGREED)
    yield _lines(job, extras)
    yield Totals(tuple(_sums(job, trader, extras)))
    if _waits(extras):
        yield Words(_TO_AGREE, "To agree")
        yield Signature(job.customer.name)
    else:
        rows = tuple((sentence(each.words), _agreed(each)) for each in extras)
        yield Details(rows, "Agreed")


def _found_on(job: Job) -> Iterator[tuple[str, str]]:
    if job.stripping is not None:
        yield "Found on", show_date(job.stripping.on)


def _lines(job: Job, extras: tuple[Extra, ...]) -> Table:
    title = "Price, VAT included" if _with_vat(job, extras) else "Price"
    if not job.customer.is_householder and any(each.vat_rate for each in extras):
        title = "Price before VAT"
    rows = tuple((_work(job, each), show_money(_price(job, each))) for each in extras)
    return Table((Column("Work"), Column(title, True)), rows)


def _with_vat(job: Job, extras: tuple[Extra, ...]) -> bool:
    return job.customer.is_householder and any(each.vat_rate for each in extras)


def _metre(job: Job) -> Pence:
    return job.quote.deck_rate if job.quote else 0


def _price(job: Job, extra: Extra) -> Pence:
    """What it costs in the customer's terms."""
    return gross_of(extra, _metre(job)) if job.customer.is_householder else net_of(extra)


def _work(job: Job, extra: Extra) -> str:
    """What it is and how much of it; of boards at the quote's rate also the rate a metre."""
    words, amount = sentence(extra.words), show_amount(extra.quantity, extra.unit)
    if extra.quantity == 1:  # its price stands beside it
        return words
    metre = _metre(job)
    if is_by_the_metre(extra, metre):
        shown = metre + (share(metre, extra.vat_rate) if job.customer.is_householder else 0)
        if times(shown, extra.quantity) == _price(job, extra):
            return f"{words}, {amount} at {show_money(shown)} per metre"
    return f"{words}, {amount}"


def _sums(job: Job, trader: Trader, extras: tuple[Extra, ...]) -> Iterator[tuple[str, str]]:
    """What the extras come to, and the whole with them: as the invoice will have it."""
    total = show_money(sum(_price(job, each) for each in extras))
    option = job.quote.accepted if job.quote else None
    if option is None or trader.vat_registered != bool(option_total(option).rated):
        yield "Extra work", total
        return
    before, after = (_whole(job, trader, counts) for counts in (_before(job), _after(job)))
    if not job.customer.is_householder and trader.vat_registered:
        yield from by_rate(less(after, before))
    included = ", including VAT" if trader.vat_registered else ""
    yield f"Extra work{included}", show_money(after.gross - before.gross)
    yield f"Agreed before{included}", show_money(before.gross)
    yield f"New total{included}", show_money(after.gross)


def _whole(job: Job, trader: Trader, extras: tuple[Extra, ...]) -> VatTotals:
    option = job.quote.accepted if job.quote else None
    assert option is not None  # noqa: S101  asked for once there is one
    there = replace(job, extras=extras)
    return agreed_sums(there, option, registered=trader.vat_registered).totals


def _before(job: Job) -> tuple[Extra, ...]:
    """What had been agreed before the extras that are shown."""
    if any(each.state is ExtraState.OPEN for each in job.extras):
        return tuple(each for each in job.extras if each.state is ExtraState.AGREED)
    return ()


def _after(job: Job) -> tuple[Extra, ...]:
    charged = (each for each in job.extras if each.state is not ExtraState.NOT_CHARGED)
    return tuple(replace(each, state=ExtraState.AGREED) for each in charged)


def _agreed(extra: Extra) -> str:
    """By whom, how and when."""
    means = f", {extra.means}" if extra.means else ""
    on = f", {show_date(extra.agreed_on)}" if extra.agreed_on else ""
    return f"by {extra.agreed_by}{means}{on}"


def _said(job: Job, extras: tuple[Extra, ...]) -> str:
    """The extras in a line of a message, each with its price."""
    inside = " including VAT" if _with_vat(job, extras) else ""
    if not inside and any(each.vat_rate for each in extras):
        inside = " before VAT"
    return "; ".join(
        f"{_work(job, each)}: {show_money(_price(job, each))}{inside}" for each in extras
    )
