"""What was agreed for the work, as the lines and the sums of its invoice.

A householder agreed to sums with VAT inside, and those are the truth: the invoice comes to them to
the penny, its VAT is the fraction inside each rate's sum (1/6 at 20 %, VAT Notice 700 §7.3.1, from
memory), and what is left over is the net. Anybody else agreed to sums before VAT, to which VAT is
added (EN 16931: on the sum of the lines of a rate).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from domain.estimate.extra_terms import gross_of
from domain.estimate.quoting import option_total
from domain.estimate.scope import Item, extra_items, items_of
from domain.job import ExtraState, Job, Option
from domain.money import Pence
from domain.tax import VatSum, VatTotals, added_up, totals_of, vat_in


@dataclass(frozen=True, slots=True)
class Agreed:
    """The lines of an invoice, and what they come to."""

    lines: tuple[Item, ...]
    totals: VatTotals


def agreed_sums(job: Job, option: Option, *, registered: bool) -> Agreed:
    """The accepted covering and the extras of a job; ``registered`` for VAT or not is the trader.

    A metre of board costs a householder the rate that the quote showed, VAT included.
    """
    rate = job.quote.deck_rate if job.quote else 0
    lines = (*items_of(option), *extra_items(job.extras, rate, registered))
    if not (registered and job.customer.is_householder):
        return Agreed(lines, totals_of((line.vat_rate, line.net) for line in lines))
    gross = {each.rate: each.net + each.vat for each in option_total(option).vat}
    for extra in job.extras:
        if extra.state is ExtraState.AGREED:
            gross[extra.vat_rate] = gross.get(extra.vat_rate, 0) + gross_of(extra, rate)
    sums = tuple(_holding(gross[each], each) for each in sorted(gross, reverse=True))
    return Agreed(_shared(lines, sums), added_up(sums))


def _holding(gross: Pence, rate: Decimal) -> VatSum:
    vat = vat_in(gross, rate)
    return VatSum(rate, gross - vat, vat)


def _shared(lines: Sequence[Item], sums: Iterable[VatSum]) -> tuple[Item, ...]:
    """The lines so that they come to the net of each rate: an odd penny goes to the largest."""
    shared = list(lines)
    for each in sums:
        of_rate = [at for at, line in enumerate(shared) if line.vat_rate == each.rate]
        largest = max(of_rate, key=lambda at: shared[at].net)  # the first of equals
        odd = each.net - sum(shared[at].net for at in of_rate)
        shared[largest] = replace(shared[largest], net=shared[largest].net + odd)
    return tuple(shared)
