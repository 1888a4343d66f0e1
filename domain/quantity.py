"""Quantities as they are typed and shown: strips, metres, rolls, hours, miles, kilograms."""

import re
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from domain.errors import Refused
from domain.exact import half_up
from domain.measure_grammar import spelt_plainly, split_measure

_MOST = 100_000
_PLACES = Decimal("0.01")
_WHOLE = ("strip", "pack", "roll", "nail", "box")
_UNCOUNTED = ("m", "m²", "kg")
_WORDS: Mapping[str, Mapping[str, int]] = {
    "hour": dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 1),
    "minute": dict.fromkeys(("min", "mins", "minute", "minutes"), 1)
    | dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 60),
    "day": dict.fromkeys(("day", "days"), 1)
    | dict.fromkeys(("week", "weeks", "wk", "wks"), 7)
    | {"fortnight": 14},
    "mile": dict.fromkeys(("mi", "mile", "miles"), 1),
    "m": dict.fromkeys(("m", "mtr", "mtrs", "metre", "metres"), 1),
    "mph": {"mph": 1},
    "°C": dict.fromkeys(("°c", "°", "c"), 1),
    "%": dict.fromkeys(("%", "per cent", "percent"), 1),
}
"""What may be typed after a number of a unit, and how many of the unit each is."""
_NUMBER = (
    r"(?:(?P<whole>(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,7})(?:\.[0-9]{1,3})?|\.[0-9]{1,3})"
    r"(?: (?P<fraction>[0-9]{1,2}/[1-9][0-9]?))?|(?P<only>[0-9]{1,2}/[1-9][0-9]?))"
    r" ?(?P<word>%|°c?|[a-z]+(?: [a-z]+)?|)"
)
_GRAM = Decimal("0.001")  # of a kilogram


def read_quantity(field: str, text: str, unit: str) -> Decimal:
    """A quantity such as ``55``, ``9.4 m`` or ``1 1/2 hours``, to a hundredth, in the unit asked.

    What is counted in pieces must be whole. Raises :class:`Refused` for anything else.
    """
    parts = split_measure(text)
    if len(parts) != 1 or _words_of(unit).get(parts[0][1]) != 1:
        raise Refused(field, text, f"Give a number of {plural(unit)}, such as 4.")
    number = to_decimal(parts[0][0])
    if Fraction(number) != parts[0][0] or (unit in _WHOLE and number != number.to_integral()):
        finest = "a whole number" if unit in _WHOLE else "two decimals at most"
        raise Refused(field, text, f"Give {finest}.")
    if not 0 <= number <= _MOST:
        raise Refused(field, text, f"Give a number from 0 to {_MOST:,}.")
    return number


def read_number(
    field: str,
    text: str,
    example: str,
    *,
    unit: str = "",
    least: Decimal = Decimal(0),
    most: Decimal = Decimal(_MOST),
) -> Decimal:
    """A number such as ``9.5``, ``9½``, ``1,200`` or, in hours, ``8 hrs``, to a thousandth.

    ``unit`` is what it is counted in, singular; ``4 weeks`` is 28 days. ``example`` ends "Give …".
    Raises :class:`Refused` for anything else and for what is under ``least`` or over ``most``.
    """
    match = re.fullmatch(_NUMBER, spelt_plainly(text.strip()))
    times = _words_of(unit).get(match["word"]) if match else None
    if match is None or times is None:
        raise Refused(field, text, f"Give {example}.")
    part = Fraction(match["fraction"] or match["only"] or 0)
    exact = (Fraction((match["whole"] or "0").replace(",", "")) + part) * times
    number = Decimal(half_up(exact * 1000)) / 1000
    if number != exact or ("." in (match["whole"] or "") and part):
        raise Refused(field, text, f"Give {example}.")
    if not least <= number <= most:
        bounds = f"{show_quantity(least)} to {show_quantity(most)}"
        raise Refused(field, text, f"Give {bounds}: {example}.")
    return number.normalize() + 0


def read_count(
    field: str, text: str, example: str, *, unit: str = "", least: int = 0, most: int = 999
) -> int:
    """A whole number, read and refused as :func:`read_number` does."""
    low, high = Decimal(least), Decimal(most)
    number = read_number(field, text, example, unit=unit, least=low, most=high)
    if number != number.to_integral_value():
        raise Refused(field, text, f"Give a whole number: {example}.")
    return int(number)


def read_in_metres(
    field: str, text: str, example: str, *, least: Decimal = Decimal(0), most: Decimal
) -> Decimal:
    """Metres: a number alone or of metres, or a length as it is said, ``8 ft 3 1/2``, to the cm.

    Raises :class:`Refused` as :func:`read_number` does.
    """
    try:
        return read_number(field, text, example, unit="m", least=least, most=most)
    except Refused:
        said = _length(field, text)
        if said is None:
            raise
        return read_number(field, str(to_decimal(said / 1000)), example, least=least, most=most)


def read_in_mm(field: str, text: str, example: str, *, least: int, most: int) -> int:
    """Whole millimetres: a number alone or of them, or a length as it is said, ``2 in``.

    Raises :class:`Refused` as :func:`read_number` does.
    """
    try:
        return read_count(field, text, example, unit="mm", least=least, most=most)
    except Refused:
        said = _length(field, text)
        if said is None:
            raise
        return read_count(field, str(half_up(said)), example, least=least, most=most)


def _length(field: str, text: str) -> Fraction | None:
    """A length with its unit, in mm; None for anything else."""
    from domain.units import parse_length  # the week shows hours, and needs no units

    try:
        return parse_length(field, text, bare=False).mm
    except Refused:
        return None


def read_kg(
    field: str, text: str, example: str, *, least: Decimal = Decimal(0), most: Decimal
) -> Decimal:
    """Kilograms such as ``40``, ``40 kg``, ``1.2 t`` or ``2 cwt``, to the gram, half up.

    ``example`` ends "Give …". Raises :class:`Refused` as :func:`read_number` does.
    """
    from domain.units import parse_weight  # the week shows hours, and needs no units

    weight = text if any(map(str.isalpha, text)) else f"{text} kg"
    try:
        exact = parse_weight(field, weight).kg
    except Refused:
        raise Refused(field, text, f"Give {example}.") from None
    kg = Decimal(half_up(exact * 1000)) * _GRAM
    if not least <= kg <= most:
        bounds = f"{show_quantity(least)} to {show_quantity(most)} kg"
        raise Refused(field, text, f"Give {bounds}: {example}.")
    return kg.normalize() + 0


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


def _words_of(unit: str) -> Mapping[str, int]:
    """What may be typed after a number of a unit, nothing among it; how many units each is."""
    words = _WORDS.get(unit, {unit: 1, plural(unit): 1} if unit else {})
    return {"": 1, **words}
