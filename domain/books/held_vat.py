"""The VAT that a payment holds, of what of it pays invoices and of what lies there."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from domain.money import Pence
from domain.tax import VatSum, VatTotals, added_up, less, part_of

_NO_RATE = Decimal(0)


@dataclass(frozen=True, slots=True)
class HeldVat:
    """What a payment holds of VAT, all of it by rate; 0 of what is for no supply."""

    settles: tuple[VatSum, ...] = ()
    """Of what of it pays invoices."""
    lies: tuple[VatTotals, ...] = ()
    """Of what was paid over or freed, as it goes back: the first of it first."""

    @property
    def whole(self) -> tuple[VatSum, ...]:
        """Of all that came."""
        return _by_rate((*self.settles, *(each for part in self.lies for each in part.vat)))

    def paid_back(self, before: Pence, pence: Pence) -> tuple[VatSum, ...]:
        """What goes back with so much of it, once ``before`` of it went: less than nothing."""
        sums: list[VatSum] = []
        for part in self.lies:
            first, last = min(before, part.gross), min(before + pence, part.gross)
            sums += less(first_of(part, last), first_of(part, first)).vat
            before, pence = before - first, pence - (last - first)
        return tuple(VatSum(s.rate, -s.net, -s.vat) for s in _by_rate(sums))


def lying(
    pence: Pence, freed: Sequence[VatTotals], brought: VatTotals | None
) -> tuple[VatTotals, ...]:
    """What so much of a payment that pays no invoice holds, in the order in which it goes back.

    First what credit notes ``freed`` of it, the newest of that where some pays another invoice
    now; then what is for nothing; last what was taxed as it came, of which ``brought`` is all.
    """
    ahead = min(pence, brought.gross) if brought else 0
    left, parts = pence - ahead, list[VatTotals]()
    for each in reversed(freed):
        part = min(left, each.gross)
        parts.insert(0, first_of(each, part))
        left -= part
    parts.append(added_up((VatSum(_NO_RATE, left, 0),)))
    if brought:
        parts.append(first_of(brought, ahead))
    return tuple(part for part in parts if part.gross)


def first_of(whole: VatTotals, gross: Pence) -> VatTotals:
    """What so much of a whole holds; of all of it, that to the penny."""
    return whole if gross >= whole.gross else part_of(whole, gross)


def _by_rate(sums: Sequence[VatSum]) -> tuple[VatSum, ...]:
    found: dict[Decimal, VatSum] = {}
    for each in sums:
        so_far = found.get(each.rate, VatSum(each.rate, 0, 0))
        found[each.rate] = VatSum(each.rate, so_far.net + each.net, so_far.vat + each.vat)
    return tuple(found[rate] for rate in sorted(found, reverse=True) if found[rate].net)
