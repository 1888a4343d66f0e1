"""VAT: the dated rates, and what it comes to on a set of lines.

Only what a standard-rated or an unregistered trader needs; the latter's lines stand at 0 % and no
paper of theirs speaks of VAT.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from domain.errors import Refused
from domain.money import Pence, apportion, share, whole_pence
from domain.quantity import read_number, show_quantity


class VatBand(StrEnum):
    """What a supply is charged at."""

    STANDARD = "standard"
    REDUCED = "reduced"
    ZERO = "zero"


@dataclass(frozen=True, slots=True)
class VatRate:
    """The rate of a band from a day on."""

    band: VatBand
    percent: Decimal
    since: date


VAT_RATES: tuple[VatRate, ...] = (
    VatRate(VatBand.STANDARD, Decimal(20), date(2011, 1, 4)),
    VatRate(VatBand.REDUCED, Decimal(5), date(1997, 9, 1)),
    VatRate(VatBand.ZERO, Decimal(0), date(1973, 4, 1)),
)
"""In force. Source: VAT Act 1994 s. 2, s. 29A and s. 30; days quoted from tables of HMRC's rates,
the zero rate's from memory. A new rate is a new row; the old one stays."""


@dataclass(frozen=True, slots=True)
class VatSum:
    """What stands at one rate, and the VAT on it."""

    rate: Decimal
    """Per cent."""
    net: Pence
    vat: Pence


@dataclass(frozen=True, slots=True)
class VatTotals:
    """What a set of lines comes to."""

    net: Pence
    vat: tuple[VatSum, ...]
    """By rate, the highest first."""
    gross: Pence

    @property
    def vat_whole(self) -> Pence:
        """The VAT of all rates together."""
        return sum(each.vat for each in self.vat)

    @property
    def rated(self) -> tuple[VatSum, ...]:
        """The sums that have a rate: none for a trader who is not registered."""
        return tuple(each for each in self.vat if each.rate)


def rate_on(band: VatBand, day: date) -> Decimal:
    """Per cent of a band on a day."""
    in_force = [r for r in _of(band) if r.since <= day]
    return max(in_force, key=lambda r: r.since).percent


def read_rate(field: str, text: str, day: date) -> Decimal:
    """A rate in per cent that a band has on a day. Raises :class:`Refused` for any other.

    Of a day before the table begins those of its first day.
    """
    begins = max(min(rate.since for rate in _of(band)) for band in VatBand)
    rates = [rate_on(band, max(day, begins)) for band in VatBand]
    *others, last = (show_quantity(rate) for rate in rates)
    example = f"{', '.join(others)} or {last} per cent, the rates of VAT on that day"
    rate = read_number(field, text, example, unit="%")
    if rate not in rates:
        raise Refused(field, text, f"Give {example}.")
    return rate


def vat_by_rate(lines: Iterable[tuple[Decimal, Pence]]) -> tuple[VatSum, ...]:
    """VAT for each rate on the sum of its lines, half up: never line by line (EN 16931).

    ``lines`` are (rate in per cent, net pence).
    """
    nets: dict[Decimal, Pence] = {}
    for rate, net in lines:
        nets[rate] = nets.get(rate, 0) + net
    return tuple(VatSum(r, nets[r], share(nets[r], r)) for r in sorted(nets, reverse=True))


def totals_of(lines: Iterable[tuple[Decimal, Pence]]) -> VatTotals:
    """Net, VAT by rate and gross of lines given as (rate in per cent, net pence)."""
    return added_up(vat_by_rate(lines))


def part_of(whole: VatTotals, gross: Pence) -> VatTotals:
    """The net and VAT that a sum asked for beforehand holds, as a part of the whole.

    It is VAT-inclusive: each rate's part holds VAT by the VAT fraction, 1/6 at 20 %
    (VAT Notice 700 §7.3.1). What is left of the whole is the rest to the penny.
    """
    # Each rate has the part of it that it has of the whole.
    exact = [Decimal(gross) * (s.net + s.vat) / (whole.gross or 1) for s in whole.vat]
    sums = []
    for each, part in zip(whole.vat, apportion(exact), strict=True):
        vat = vat_in(part, each.rate)
        sums.append(VatSum(each.rate, part - vat, vat))
    return added_up(tuple(sums))


def less(whole: VatTotals, part: VatTotals) -> VatTotals:
    """A whole without a part of it, rate by rate."""
    taken = {each.rate: each for each in part.vat}
    nothing = VatSum(Decimal(0), 0, 0)
    rest = []
    for each in whole.vat:
        gone = taken.get(each.rate, nothing)
        rest.append(VatSum(each.rate, each.net - gone.net, each.vat - gone.vat))
    return added_up(tuple(rest))


def vat_in(gross: Pence, rate: Decimal) -> Pence:
    """The VAT that a VAT-inclusive sum holds at a rate: the VAT fraction, half up."""
    return whole_pence(gross * rate / (100 + rate))


def added_up(sums: tuple[VatSum, ...]) -> VatTotals:
    """The totals that the sums of several rates make."""
    net = sum(each.net for each in sums)
    return VatTotals(net, sums, net + sum(each.vat for each in sums))


def _of(band: VatBand) -> list[VatRate]:
    return [rate for rate in VAT_RATES if rate.band is band]
