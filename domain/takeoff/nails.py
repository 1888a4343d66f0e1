"""Nails as they are typed: counted, or by the weight of them, as they are bought."""

import re
from decimal import Decimal
from fractions import Fraction

from domain.errors import Refused
from domain.measure_grammar import spelt_plainly
from domain.quantity import read_number, show_quantity
from domain.takeoff.fixings import SHINGLE_NAIL, Nail, nails_in_box
from domain.units import parse_weight

_EXAMPLE = "how many nails, or their weight such as 1 kg or 1 kg 30 x 2.65"
_MEASURE = r"[0-9]{1,3}(?:\.[0-9]{1,2})?"
_SIZED = re.compile(
    rf"(?P<weight>.+?)(?: of)? (?P<length>{_MEASURE})(?: ?mm)? ?[x×]"
    rf" ?(?P<shank>{_MEASURE})(?: ?mm)?"
)
_COUNTED = re.compile(r"[0-9.,]+(?: nails?)?")
_LENGTHS, _SHANKS = (10, 200), (1, 8)  # mm; what a roof is nailed with


def read_nails(
    field: str, text: str, *, usual: Nail = SHINGLE_NAIL, least: Decimal = Decimal(0)
) -> Decimal:
    """How many nails: ``900``, ``1 kg`` of ``usual`` ones, or ``1 kg 30 x 2.65`` of others.

    A size is length by thickness in mm. The count is of whole nails, from the mass of one: a round
    shank of steel, and a head three times as wide as the shank and two fifths as thick, as the
    usual clout nail has (:class:`domain.takeoff.fixings.Nail`); common practice. Raises
    :class:`Refused` for anything else, and for less than ``least``.
    """
    plain = spelt_plainly(text.strip())
    if not plain or _COUNTED.fullmatch(plain):
        return read_number(field, text, _EXAMPLE, unit="nail", least=least)
    sized = _SIZED.fullmatch(plain)
    nail = _nail(field, text, sized) if sized else usual
    try:
        kg = parse_weight(field, sized["weight"] if sized else plain).kg
    except Refused:
        raise Refused(field, text, f"Give {_EXAMPLE}.") from None
    count = Decimal(nails_in_box(nail, kg))
    return read_number(field, show_quantity(count), _EXAMPLE, least=least)


def nails_by_weight(text: str, usual: Nail = SHINGLE_NAIL) -> str:
    """What is typed as a weight, with its count: ``1 kg, about 585 nails``; else nothing.

    A size is left out: it stands beside.
    """
    typed = text.strip()
    if not typed or _COUNTED.fullmatch(spelt_plainly(typed)):
        return ""
    try:
        count = read_nails("nails", typed, usual=usual)
    except Refused:
        return ""
    sized = _SIZED.fullmatch(spelt_plainly(typed))
    weight = sized["weight"] if sized else typed
    return f"{weight}, about {show_quantity(count)} nails"


def _nail(field: str, text: str, size: re.Match[str]) -> Nail:
    """A nail of a size as typed, its head as the usual one's to its shank."""
    length, shank = Fraction(size["length"]), Fraction(size["shank"])
    if not (_LENGTHS[0] <= length <= _LENGTHS[1] and _SHANKS[0] <= shank <= _SHANKS[1]):
        limits = f"from {_LENGTHS[0]} x {_SHANKS[0]} to {_LENGTHS[1]} x {_SHANKS[1]} mm"
        raise Refused(field, text, f"Give the length and the thickness of a nail, {limits}.")
    usual = Nail()
    return Nail(
        diameter=shank,
        length=length,
        head_diameter=shank * usual.head_diameter / usual.diameter,
        head_thickness=shank * usual.head_thickness / usual.diameter,
    )
