"""Quantities as they are typed and shown: strips, metres, rolls, hours, miles."""

from decimal import Decimal
from fractions import Fraction

from domain.errors import Refused
from domain.exact import half_up
from domain.typed import split_measure

_MOST = 100_000
_PLACES = Decimal("0.01")
_WHOLE = ("strip", "pack", "roll", "nail", "box")
_UNCOUNTED = ("m", "m²", "kg")
_SHORT = {"h": "hour", "hr": "hour", "metre": "m"}


def read_quantity(field: str, text: str, unit: str) -> Decimal:
    """A quantity such as ``55``, ``9.4 m`` or ``1 1/2 hours``, to a hundredth, in the unit asked.

    What is counted in pieces must be whole. Raises :class:`Refused` for anything else.
    """
    parts = split_measure(text)
    if len(parts) != 1 or not _names(parts[0][1], unit):
        raise Refused(field, text, f"Give a number of {plural(unit)}, such as 4.")
    number = to_decimal(parts[0][0])
    if Fraction(number) != parts[0][0] or (unit in _WHOLE and number != number.to_integral()):
        finest = "a whole number" if unit in _WHOLE else "two decimals at most"
        raise Refused(field, text, f"Give {finest}.")
    if not 0 <= number <= _MOST:
        raise Refused(field, text, f"Give a number from 0 to {_MOST:,}.")
    return number


def to_decimal(value: Fraction) -> Decimal:
    """An exact value to a hundredth, half up."""
    return Decimal(half_up(value * 100)) * _PLACES


def to_quarter(hours: Decimal) -> Decimal:
    """Hours to the quarter, half up: as they are charged and shown."""
    return Decimal(half_up(Fraction(hours) * 4)) / 4


def show_quantity(quantity: Decimal) -> str:
    """A quantity without idle noughts: ``3``, ``9.5``, ``1,200``."""
    shown = f"{quantity:,f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def show_amount(quantity: Decimal, unit: str) -> str:
    """A quantity with its unit: ``3 packs``, ``1 roll``, ``9.4 m``."""
    return f"{show_quantity(quantity)} {unit if quantity == 1 else plural(unit)}"


def plural(unit: str) -> str:
    """More than one of a unit."""
    if unit in _UNCOUNTED:
        return unit
    return f"{unit}es" if unit.endswith("x") else f"{unit}s"


def _names(word: str, unit: str) -> bool:
    """Tell whether a typed unit word, or none, means the unit."""
    singular = word.removesuffix("s") if word != "hours" else "hour"
    return word in ("", unit, plural(unit)) or _SHORT.get(singular) == unit
