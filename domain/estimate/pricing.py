"""From take-off to price: the basis of an option, and the lines that follow from it alone."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import ceil

from domain.errors import NotNow, Refused
from domain.estimate.basis import PricingBasis, Quantities, Supply, hours_for
from domain.estimate.edge_parts import to_renew
from domain.estimate.nails_chosen import sources_on
from domain.estimate.supplies import Need, Pieces, PricesAndStock, needs_of, supplies_for
from domain.job import Line, LineKind, OldCovering, OldKind, Option, Survey
from domain.money import Pence, apportion, times
from domain.quantity import to_decimal
from domain.setting_out.flat_slopes import Roof
from domain.snapshot import to_json
from domain.takeoff.loads import FELT_KG, SHINGLES_KG
from domain.takeoff.roof_takeoff import TakeOff
from domain.tax import VatBand, rate_on
from domain.trader import Trader

_OLD_KG: Mapping[OldKind, Fraction] = {
    OldKind.FELT: FELT_KG,
    OldKind.SHINGLES: SHINGLES_KG,
    OldKind.OTHER: SHINGLES_KG,
    OldKind.CEMENT_SHEET: SHINGLES_KG,
    OldKind.NONE: Fraction(0),
}
"""Kilograms a square metre and layer: what is neither felt nor shingles counts as the heavier, so
that disposal is not undercharged."""


@dataclass(frozen=True, slots=True)
class _Costed:
    """A line before it has its price."""

    kind: LineKind
    words: str
    quantity: Decimal
    unit: str
    cost: Pence
    uplift: Decimal
    """Per cent on the cost: the contingency, and on materials the markup as well."""

    @property
    def exact(self) -> Decimal:
        """The price in pence before it is rounded."""
        return self.cost * (100 + self.uplift) / 100


def basis_for(
    take_off: TakeOff, survey: Survey, trader: Trader, sources: PricesAndStock, miles: Decimal
) -> PricingBasis:
    """Gather what an option is worked out from; ``miles`` are there and back, a day.

    Every covering is in the colour of the survey. Raises :class:`NotNow` naming a material without
    a price, and while the old covering is not recorded.
    """
    colour = survey.covering.colour if survey.covering else ""
    supplies = supplies_for(needs_on(take_off, survey), colour, sources_on(survey, sources))
    quantities = surveyed_quantities(take_off.roof, survey)
    return reckon(quantities, supplies, trader, sources, miles)


def needs_on(take_off: TakeOff, survey: Survey) -> tuple[Need, ...]:
    """What a surveyed roof needs of each material, with what is renewed along its edges."""
    parts = to_renew(take_off.roof, survey.edges)
    return (*needs_of(take_off), *(Pieces(part.material, part.metres) for part in parts))


def surveyed_quantities(roof: Roof, survey: Survey) -> Quantities:
    """What the work on a surveyed roof is reckoned by.

    Raises :class:`NotNow` while the old covering is not recorded.
    """
    found = quantities_of(roof, survey.old, survey.deck.replace_m)
    parts = to_renew(roof, survey.edges)
    past = survey.edges.past_edge
    return replace(
        found,
        renewed=tuple((part.material, part.metres) for part in parts),
        past_edge=past.mm if past else Fraction(0),
    )


def quantities_of(roof: Roof, old: OldCovering, deck: Decimal | None) -> Quantities:
    """What the work is reckoned by: ``deck`` is metres of board to replace, None for none.

    Raises :class:`NotNow` while the old covering is not recorded.
    """
    layers = 0 if old.kind is OldKind.NONE else old.layers
    if old.kind is None or layers is None:
        raise NotNow("What is on the roof now, and how many layers? Fill that in first.")
    area = to_decimal(roof.area / 10**6)
    edges = sum((e.length for slope in roof.slopes for e in slope.free_edges), Fraction(0))
    return Quantities(
        area=area,
        layers=layers,
        old_kg=old_weight(area, old),
        deck=deck or Decimal(0),
        edges=to_decimal(edges / 1000),
        ridges=to_decimal(sum(roof.closed_runs, Fraction(0)) / 1000),
        slopes=roof.slopes,
    )


def old_weight(area: Decimal, old: OldCovering) -> Decimal:
    """Kilograms of an old covering over so many square metres; 0 while it is not recorded."""
    if old.kind is None:
        return Decimal(0)
    return to_decimal(Fraction(area) * (old.layers or 0) * _OLD_KG[old.kind])


def reckon(
    quantities: Quantities,
    supplies: tuple[Supply, ...],
    trader: Trader,
    sources: PricesAndStock,
    miles: Decimal,
) -> PricingBasis:
    """Put the trader's own rates of the day to quantities and supplies.

    The covering is the first of the supplies. Raises :class:`Refused` for a working day without
    hours.
    """
    if trader.hours_a_day <= 0:
        raise Refused("hours_a_day", trader.hours_a_day, "Give the hours you work, such as 8.")
    hours = hours_for(quantities, trader.rates.labour, supplies[0].material)
    standard = rate_on(VatBand.STANDARD, sources.today)
    return PricingBasis(
        covering=str(supplies[0].material),
        colour=supplies[0].colour,
        vat_registered=trader.vat_registered,
        vat_rate=standard if trader.vat_registered else Decimal(0),
        rates=trader.rates,
        quantities=quantities,
        supplies=supplies,
        hours=hours,
        miles=miles,
        days=ceil(hours.whole / trader.hours_a_day),
    )


def option_of(basis: PricingBasis, plans: str = "") -> Option:
    """The option that follows from a basis, which is kept with it, as the plans of its roof are."""
    return Option(basis.covering, basis.colour, quote_lines(basis), to_json(basis), plans)


def quote_lines(basis: PricingBasis) -> tuple[Line, ...]:
    """The lines of an option, each at its cost and at the customer's price.

    Contingency and markup are folded into the prices, which add up to the whole without losing a
    penny. A job that comes to less than the minimum charge has the difference as its last line.
    """
    costed = [line for line in _costed(basis) if line.quantity]
    prices = apportion([line.exact for line in costed])
    lines = [
        Line(c.kind, c.words, c.quantity, c.unit, c.cost, price, basis.vat_rate)
        for c, price in zip(costed, prices, strict=True)
    ]
    short = basis.rates.minimum_charge - sum(prices)
    if short > 0:
        words = "made up to the minimum charge"
        lines.append(
            Line(LineKind.MINIMUM_CHARGE, words, Decimal(1), "job", 0, short, basis.vat_rate)
        )
    return tuple(lines)


def _costed(basis: PricingBasis) -> Iterable[_Costed]:
    """Every line at cost, those of nothing included."""
    rates, found = basis.rates, basis.quantities
    spare = rates.contingency
    yield from (_materials(supply, basis) for supply in basis.supplies)
    # The rate a metre of deck pays for the work too, and is named to the customer beforehand: its
    # hours are not charged twice and nothing is put on top of it.
    for kind, words, quantity, unit, rate, uplift in (
        (LineKind.LABOUR, "strip, lay and clear", basis.hours.charged, "hour", rates.hour, spare),
        (LineKind.TRAVEL, "travel", basis.miles * basis.days, "mile", rates.mile, spare),
        (
            LineKind.DISPOSAL,
            "old covering taken away",
            found.old_kg,
            "kg",
            rates.disposal_kg,
            spare,
        ),
        (LineKind.DECK, "boards replaced", found.deck, "m", rates.deck_metre, Decimal(0)),
    ):
        yield _Costed(kind, words, quantity, unit, times(rate, quantity), uplift)


def _materials(supply: Supply, basis: PricingBasis) -> _Costed:
    """Whole packs at their price: VAT is a cost of a trader who cannot reclaim it."""
    colour = f", {supply.colour}" if supply.colour else ""
    return _Costed(
        kind=LineKind.MATERIALS,
        words=f"{supply.material.words}{colour}",
        quantity=Decimal(supply.packs),
        unit=supply.material.pack_word,
        cost=supply.price.cost(supply.packs, reclaims_vat=basis.vat_registered),
        uplift=basis.rates.contingency + basis.rates.markup,
    )
