"""How much of a material there is, as it is typed: strips, metres, cartridges, nails."""

from decimal import Decimal

from domain.coverings.materials import Material
from domain.quantity import read_number
from domain.takeoff.fixings import FELT_NAIL, SHINGLE_NAIL, Nail
from domain.takeoff.nails import nails_by_weight, read_nails


def read_amount(
    field: str, text: str, material: Material, example: str, *, least: Decimal = Decimal(0)
) -> Decimal:
    """An amount in the unit of the material; nails may be typed by weight.

    ``example`` ends "Give …". Raises :class:`domain.errors.Refused` for anything else and for less
    than ``least``.
    """
    if material.is_nails:
        return read_nails(field, text, usual=_usual(material), least=least)
    return read_number(field, text, example, unit=material.unit, least=least)


def amount_note(text: str, material: Material | None) -> str:
    """The count of nails typed by weight; nothing of anything else."""
    if material is None or not material.is_nails:
        return ""
    return nails_by_weight(text, _usual(material))


def _usual(material: Material) -> Nail:
    return FELT_NAIL if material == Material.FELT_NAILS else SHINGLE_NAIL
