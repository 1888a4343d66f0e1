"""The rough price on the telephone, from the nominal size of the building."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil

from domain.coverings.felt import Felt
from domain.coverings.materials import Material
from domain.coverings.pitch import check_pitch
from domain.coverings.registry import Covering
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.estimate.nails_chosen import sources_on
from domain.estimate.pricing import quantities_of, quote_lines, reckon
from domain.estimate.supplies import (
    Need,
    PricesAndStock,
    needs_of,
    shingle_needs,
    supplies_for,
)
from domain.exact import tangent
from domain.job import OldCovering, OldKind, Survey
from domain.money import Pence
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import MEASURES_OF, RoofMeasures
from domain.starting_rates import CHARGES, starting_rates
from domain.takeoff.edging import edge_strips, ridge_pieces
from domain.takeoff.fixings import NailBoxes, fix
from domain.takeoff.roof_takeoff import take_off
from domain.tax import totals_of
from domain.trader import Trader
from domain.units import Length, parse_angle, parse_length

_BETWEEN = re.compile(r" *(?:×|x|X|by) *")
_BARE = re.compile(r"[0-9.]+")
_ONE_UNIT = re.compile(r"[0-9.]+ *([^0-9. ]+)")
_FEET = re.compile(r"[0-9]{1,2}")
_WITH_FORM = re.compile(r"(.*[^,\s]),?\s+(apex|pent|lean-to|hip|pyramid|hexagon|octagon)", re.I)
_WITH_EAVES = re.compile(r"(.*[^,\s]),?\s+eaves\s+(.+)", re.I)
_REMEDY = "Give eaves length by span, such as 8 x 6 ft or 2.4 x 1.8 m."
_LONGEST = 80  # characters

_SQUARE = 4
_ROUND = {"pyramid": _SQUARE, "hexagon": 6, "octagon": 8}
"""Forms that come to a point, with their sides."""

_PITCHES = {RoofForm.PENT: "10 deg", RoofForm.LEAN_TO: "15 deg"}
_ASSUMED_PITCH = "22.5 deg"
_ASSUMED_OVERHANG = Length(Fraction(50), "50 mm")
_ASSUMED_OLD = OldCovering(kind=OldKind.FELT, layers=1)
"""What nothing was said about: an apex roof under one layer of felt; all common practice."""

_ROUNDED_TO = 10_00


@dataclass(frozen=True, slots=True)
class RoughRoof:
    """A roof as it is told on the telephone."""

    length: Length
    """Of the building along the eaves, on plan; of six or eight sides, across the flats."""
    span: Length
    """Across, on plan."""
    form: RoofForm = RoofForm.APEX
    sides: int = _SQUARE
    """Of a roof that comes to a point."""


@dataclass(frozen=True, slots=True)
class Rough:
    """What can be said of it while the customer is still on the telephone."""

    covering: Material
    """What it is reckoned in: shingles."""
    packs: int
    """Of the covering."""
    gross: Pence
    """VAT included, rounded up to ten pounds."""
    starting: bool
    """Whether a starting figure is in it that the trader has not confirmed."""


def read_rough_roof(field: str, text: str) -> RoughRoof:
    """A roof from a nominal size: ``8 x 6``, ``8x6 pent``, ``2.4 by 1.8 m, eaves 1.8``.

    A unit on the second counts for both; whole numbers under 100 without one are feet, as sheds are
    sold, and a form that is not named is an apex (common practice). The eaves run along the first,
    unless they are said to be as long as the second; of a roof that comes to a point the width is
    enough: ``8 ft octagon``. Raises :class:`Refused` for anything else.
    """
    words = text.strip()
    if len(words) > _LONGEST:
        raise Refused(field, text, _REMEDY)
    eaves = _WITH_EAVES.fullmatch(words)
    if eaves is not None:
        words = eaves[1]
    named = _WITH_FORM.fullmatch(words)
    form = named[2].casefold() if named is not None else RoofForm.APEX.value
    words = named[1] if named is not None else words
    if form in _ROUND:
        across = _across(field, text, words, form)
        return RoughRoof(across, across, RoofForm.PYRAMID, _ROUND[form])
    length, span = _size(field, text, words)
    if eaves is not None:
        length, span = _along(field, text, (length, span), eaves[2])
    if form == RoofForm.HIP and span.mm > length.mm:
        length, span = span, length  # the ridge runs the longer way
    return RoughRoof(length, span, RoofForm(form))


def _size(field: str, text: str, words: str) -> tuple[Length, Length]:
    """The two sides, in the order in which they were said; ``text`` is what a refusal shows."""
    sides = [side.strip() for side in _BETWEEN.split(words)]
    if len(sides) != 2:
        raise Refused(field, text, _REMEDY)
    length, span = sides
    if _BARE.fullmatch(span):
        if not (_FEET.fullmatch(length) and _FEET.fullmatch(span)):
            raise Refused(field, text, f"Say feet or metres. {_REMEDY}")
        span = f"{span} ft"
    if _BARE.fullmatch(length):
        unit = _ONE_UNIT.fullmatch(span)
        if unit is None:
            raise Refused(field, text, _REMEDY)
        length = f"{length} {unit[1]}"
    return parse_length(field, length, zero=False), parse_length(field, span, zero=False)


def _across(field: str, text: str, words: str, form: str) -> Length:
    """How wide a roof is that comes to a point: said once, or twice the same."""
    if len(_BETWEEN.split(words)) == 1:
        bare = _FEET.fullmatch(words)
        return parse_length(field, f"{words} ft" if bare else words, zero=False, bare=False)
    length, span = _size(field, text, words)
    if length.mm != span.mm:
        raise Refused(field, text, f"Give it as wide one way as the other: 8 ft {form}.")
    return length


def _along(
    field: str, text: str, sides: tuple[Length, Length], eaves: str
) -> tuple[Length, Length]:
    """The side that the eaves run along, then the other."""
    unit = _ONE_UNIT.fullmatch(sides[1].typed)
    typed = f"{eaves}{unit[1]}" if _BARE.fullmatch(eaves) and unit else eaves
    along = parse_length(field, typed, zero=False, bare=False).mm
    for length, span in (sides, sides[::-1]):
        if length.mm == along:
            return length, span
    remedy = f"The eaves are one of the two sides: {sides[0].typed} or {sides[1].typed}."
    raise Refused(field, text, remedy)


def rough_price(
    told: RoughRoof,
    trader: Trader,
    sources: PricesAndStock,
    miles: Decimal = Decimal(0),
    shingle: Shingle = SQUARE_BUTT,
) -> Rough:
    """What to say on the telephone.

    One layer of felt is assumed, and a sound deck. Raises :class:`Refused` for a size no roof has
    and :class:`domain.errors.NotNow` naming a material without a price.
    """
    roof = build_roof(_measures(told))
    return rough_from(roof, _rough_needs(roof, shingle), trader, sources, miles=miles)


def rough_of(
    roof: Roof, covering: Covering, survey: Survey, trader: Trader, sources: PricesAndStock
) -> Rough:
    """What to say of a roof that was measured, before its strips are planned.

    What the survey does not tell yet of the old covering is assumed. Raises as :func:`take_off` and
    :func:`rough_price` do.
    """
    if isinstance(covering, Felt):
        needs = needs_of(take_off(roof, covering))
    else:
        check_pitch(covering, roof.pitch)
        needs = _rough_needs(roof, covering)
    return rough_from(roof, needs, trader, sources, survey)


def rough_from(
    roof: Roof,
    needs: Sequence[Need],
    trader: Trader,
    sources: PricesAndStock,
    survey: Survey | None = None,
    miles: Decimal = Decimal(0),
) -> Rough:
    """What a roof comes to by its needs, the covering first; raises as :func:`rough_price` does."""
    choice, old = (survey.covering, survey.old) if survey else (None, _ASSUMED_OLD)
    if old.kind is None or (old.kind is not OldKind.NONE and old.layers is None):
        old = _ASSUMED_OLD
    if survey is not None:
        sources = sources_on(survey, sources)
    supplies = supplies_for(needs, choice.colour if choice else "", sources)
    quantities = quantities_of(roof, old, survey.deck.replace_m if survey else None)
    lines = quote_lines(reckon(quantities, supplies, trader, sources, miles))
    gross = totals_of((line.vat_rate, line.price) for line in lines).gross
    covering = next(supply for supply in supplies if supply.material.is_covering)
    rounded = ceil(Fraction(gross, _ROUNDED_TO)) * _ROUNDED_TO
    unsure = bool(starting_rates(trader.rates).intersection(CHARGES))
    starting = unsure or any(supply.price.starting for supply in supplies)
    return Rough(covering.material, covering.packs, rounded, starting)


def _measures(told: RoughRoof) -> RoofMeasures:
    """The roof with what is assumed of it."""
    pitch = parse_angle("pitch", _PITCHES.get(told.form, _ASSUMED_PITCH))
    if told.form is RoofForm.PYRAMID:
        half = Fraction(180, told.sides)
        across = told.length.mm + 2 * _ASSUMED_OVERHANG.mm
        side = Length(across * tangent(half), told.length.typed)
        return RoofMeasures(told.form, pitch=pitch, sides=told.sides, side=side)

    def over(name: str) -> Length | None:
        return _ASSUMED_OVERHANG if name in MEASURES_OF[told.form] else None

    return RoofMeasures(
        told.form,
        length=told.length,
        span=told.span,
        pitch=pitch,
        eaves_overhang=over("eaves_overhang"),
        verge_overhang=over("verge_overhang"),
        top_overhang=over("top_overhang"),
    )


def _rough_needs(roof: Roof, shingle: Shingle) -> tuple[Need, ...]:
    """Materials by the area: the cut plan waits for the survey."""
    closing = ridge_pieces(roof.closed_runs, shingle)
    courses = ceil(roof.area / (shingle.width * shingle.gauge))
    laid = courses + ceil(Fraction(closing, shingle.tabs)) + edge_strips(roof, shingle)
    fixings = fix(roof, (), (), closing, shingle, NailBoxes())
    return shingle_needs(
        roof,
        Material(shingle.key),
        strips=shingle.with_breakage(laid),
        shingle_nails=fixings.through_strips + courses * (shingle.tabs + 1),
        felt_nails=fixings.underlay_nails,
        cartridges=fixings.cartridges,
    )
