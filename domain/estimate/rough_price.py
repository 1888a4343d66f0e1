"""The rough price on the telephone, from the nominal size of the building."""

import re
from decimal import Decimal
from fractions import Fraction
from math import ceil

from domain.coverings.materials import Material
from domain.coverings.shingle import Shingle
from domain.coverings.square_butt import SQUARE_BUTT
from domain.errors import Refused
from domain.estimate.pricing import quantities_of, quote_lines, reckon
from domain.estimate.supplies import Need, PricesAndStock, shingle_needs, supplies_for
from domain.job import OldCovering, OldKind
from domain.money import Pence
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.kinds import RoofForm
from domain.setting_out.measures import RoofMeasures
from domain.takeoff.edging import edge_strips, ridge_pieces
from domain.takeoff.fixings import fix
from domain.tax import totals_of
from domain.trader import Trader
from domain.units import Angle, Length, parse_length

_BETWEEN = re.compile(r" *(?:×|x|X|by) *")
_BARE = re.compile(r"[0-9.]+")
_ONE_UNIT = re.compile(r"[0-9.]+ *([^0-9. ]+)")
_FEET = re.compile(r"[0-9]{1,2}")
_REMEDY = "Give eaves length by span, such as 8 x 6 ft or 2.4 x 1.8 m."

_ASSUMED_PITCH = Angle(Fraction(45, 2), "22.5 deg")
_ASSUMED_OVERHANG = Length(Fraction(50), "50 mm")
_ASSUMED_OLD = OldCovering(kind=OldKind.FELT, layers=1)
"""What nothing was said about: an apex roof under one layer of felt, common practice."""

_ROUNDED_TO = 10_00


def read_nominal(field: str, text: str) -> tuple[Length, Length]:
    """Eaves length and span from a nominal size: ``8 x 6``, ``8x6 ft``, ``2.4 by 1.8 m``.

    A unit on the second counts for both; whole numbers under 100 without one are feet, as sheds are
    sold (common practice). Raises :class:`Refused` for anything else.
    """
    sides = [side.strip() for side in _BETWEEN.split(text.strip())]
    if len(sides) != 2 or len(text) > 80:
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
        length += unit[1]
    return parse_length(field, length, zero=False), parse_length(field, span, zero=False)


def rough_price(
    length: Length,
    span: Length,
    trader: Trader,
    sources: PricesAndStock,
    miles: Decimal = Decimal(0),
    shingle: Shingle = SQUARE_BUTT,
) -> Pence:
    """What to say on the telephone: VAT included, rounded up to ten pounds.

    An apex roof is assumed, one layer of felt, and a sound deck. Raises :class:`Refused` for a size
    no roof has and :class:`domain.errors.NotNow` naming a material without a price.
    """
    roof = build_roof(
        RoofMeasures(
            form=RoofForm.APEX,
            length=length,
            span=span,
            pitch=_ASSUMED_PITCH,
            eaves_overhang=_ASSUMED_OVERHANG,
            verge_overhang=_ASSUMED_OVERHANG,
        )
    )
    supplies = supplies_for(_rough_needs(roof, shingle), "", sources)
    quantities = quantities_of(roof, _ASSUMED_OLD, None)
    lines = quote_lines(reckon(quantities, supplies, trader, sources, miles))
    gross = totals_of((line.vat_rate, line.price) for line in lines).gross
    return ceil(Fraction(gross, _ROUNDED_TO)) * _ROUNDED_TO


def _rough_needs(roof: Roof, shingle: Shingle) -> tuple[Need, ...]:
    """Materials by the area: the cut plan waits for the survey."""
    closing = ridge_pieces(roof.closed_runs, shingle)
    courses = ceil(roof.area / (shingle.width * shingle.gauge))
    laid = courses + ceil(Fraction(closing, shingle.tabs)) + edge_strips(roof, shingle)
    fixings = fix(roof, (), closing, shingle, nails_in_box=1)
    return shingle_needs(
        roof,
        Material(shingle.key),
        strips=shingle.with_breakage(laid),
        nails=fixings.nails + courses * (shingle.tabs + 1),
        cartridges=fixings.cartridges,
    )
