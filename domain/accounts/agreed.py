"""What was agreed for the work, as the lines and the sums of its invoice.

A householder agreed to sums with VAT inside, and those are the truth: the invoice comes to them to
the penny, its VAT is the fraction inside each rate's sum (1/6 at 20 %, VAT Notice 700 §7.3.1, from
memory), and what is left over is the net. Anybody else agreed to sums before VAT, to which VAT is
added (EN 16931: on the sum of the lines of a rate).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.estimate.extra_terms import gross_of, is_by_the_metre, net_of
from domain.estimate.quoting import option_total
from domain.estimate.scope import Item, extra_items, items_of
from domain.job import Extra, ExtraState, Job, Option
from domain.money import Pence, plain_pounds, share
from domain.tax import VatSum, VatTotals, added_up, totals_of, vat_in


@dataclass(frozen=True, slots=True)
class AgreedTerms:
    """The agreed sums at one rate of VAT, as they are reckoned: ``480.00+3x17.20-100.00``."""

    rate: Decimal
    """Per cent."""
    words: str
    """In pounds; VAT included for a householder, before it for others. Metres times their rate."""


@dataclass(frozen=True, slots=True)
class Agreed:
    """The lines of an invoice, what they come to, and from which agreed sums."""

    lines: tuple[Item, ...]
    totals: VatTotals
    terms: tuple[AgreedTerms, ...]


def agreed_sums(job: Job, option: Option, *, registered: bool, inclusive: bool = False) -> Agreed:
    """The accepted covering and the extras of a job; ``registered`` for VAT or not is the trader.

    A metre of board costs a householder the rate that the quote showed, VAT included. The sums are
    ``inclusive`` for anybody who agreed to them with VAT inside; a business has no terms then.
    """
    rate = job.quote.deck_rate if job.quote else 0
    lines = (*items_of(option), *extra_items(job.extras, rate, registered))
    with_vat = registered and (job.customer.is_householder or inclusive)
    terms = tuple(_terms(job, option, rate, lines, with_vat=with_vat))
    if inclusive and not job.customer.is_householder:
        terms = ()  # the ledger reckons those of a business from sums before VAT
    if not with_vat:
        return Agreed(lines, totals_of((line.vat_rate, line.net) for line in lines), terms)
    gross = {each.rate: each.net + each.vat for each in option_total(option).vat}
    for extra in job.extras:
        if extra.state is ExtraState.AGREED:
            gross[extra.vat_rate] = gross.get(extra.vat_rate, 0) + gross_of(extra, rate)
    sums = tuple(_holding(gross[each], each) for each in sorted(gross, reverse=True))
    return Agreed(shared_over(lines, sums), added_up(sums), terms)


def less_deposit(
    terms: Iterable[AgreedTerms], deposit: VatTotals, *, with_vat: bool
) -> tuple[AgreedTerms, ...]:
    """The terms of an invoice that takes off what was invoiced already; ``with_vat`` as it is."""
    taken = {each.rate: each.net + (each.vat if with_vat else 0) for each in deposit.vat}
    return tuple(
        AgreedTerms(each.rate, f"{each.words}-{plain_pounds(taken[each.rate])}")
        if taken.get(each.rate)
        else each
        for each in terms
    )


def sums_of(totals: VatTotals, *, with_vat: bool) -> tuple[AgreedTerms, ...]:
    """The terms of what is asked for as a sum alone."""
    return tuple(
        AgreedTerms(each.rate, plain_pounds(each.net + (each.vat if with_vat else 0)))
        for each in totals.vat
    )


def _terms(
    job: Job, option: Option, metre: Pence, lines: Sequence[Item], *, with_vat: bool
) -> Iterator[AgreedTerms]:
    """The quote's whole and each extra that is charged; ``metre`` is the quote's net rate."""
    quoted = {
        each.rate: each.net + (each.vat if with_vat else 0) for each in option_total(option).vat
    }
    extras = list(zip(job.extras, lines[len(lines) - len(job.extras) :], strict=True))
    for rate in sorted({line.vat_rate for line in lines}, reverse=True):
        words = [
            _extra_terms(extra, metre, with_vat=with_vat)
            for extra, line in extras
            if line.vat_rate == rate and extra.state is ExtraState.AGREED
        ]
        yield AgreedTerms(rate, "+".join((plain_pounds(quoted.get(rate, 0)), *words)))


def _extra_terms(extra: Extra, metre: Pence, *, with_vat: bool) -> str:
    """An extra by the metre as the metres and their rate; any other as its sum."""
    if is_by_the_metre(extra, metre) and (with_vat or not extra.with_vat):
        shown = metre + (share(metre, extra.vat_rate) if with_vat else 0)
        return f"{extra.quantity.normalize():f}x{plain_pounds(shown)}"
    return plain_pounds(gross_of(extra, metre) if with_vat else net_of(extra))


def _holding(gross: Pence, rate: Decimal) -> VatSum:
    vat = vat_in(gross, rate)
    return VatSum(rate, gross - vat, vat)


def shared_over(lines: Sequence[Item], sums: Iterable[VatSum]) -> tuple[Item, ...]:
    """The lines so that they come to the net of each rate: an odd penny goes to the largest."""
    shared = list(lines)
    for each in sums:
        of_rate = [at for at, line in enumerate(shared) if line.vat_rate == each.rate]
        largest = max(of_rate, key=lambda at: shared[at].net)  # the first of equals
        odd = each.net - sum(shared[at].net for at in of_rate)
        shared[largest] = replace(shared[largest], net=shared[largest].net + odd)
    return tuple(shared)
