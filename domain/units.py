"""What a person types with a unit, read exactly, with what they typed kept beside it.

Numbers and unit words are read by :mod:`domain.measure_grammar`; pint converts the units. The few
units typed every day are converted by exact factors kept here, so that pint, which is slow to
load, is loaded only when a rarer one is met.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from domain.errors import Refused
from domain.exact import arctangent, half_up
from domain.measure_grammar import spelt_plainly, split_measure

if TYPE_CHECKING:
    from pint import UnitRegistry


@dataclass(frozen=True, slots=True)
class Length:
    """A length. Equal to another of the same size, however it was typed."""

    mm: Fraction
    typed: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle."""

    degrees: Fraction
    typed: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight."""

    kg: Fraction
    typed: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class Speed:
    """A wind speed."""

    mph: Fraction
    typed: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class Temperature:
    """A temperature of the air or the deck."""

    celsius: Fraction
    typed: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class _Kind:
    """One kind of quantity: what may be typed for it, and within which limits."""

    unit: str
    """Pint's name of the unit the value is kept in, and of a number typed without a unit."""
    words: Mapping[str, str]
    """Unit words as typed, in small letters, and pint's name of each."""
    example: str
    """Ends the sentence "Give …"."""
    least: int
    most: int
    most_words: str
    compound: bool = False
    """Whether two parts add up, as feet and inches do."""
    missing: str = ""
    """Where a number alone has to name its unit, what would do, after "Give …": {} is the number"""


def _words(**names: str) -> dict[str, str]:
    """Map each of the words to pint's name: ``_words(ft="ft foot feet")``."""
    return {word: name for name, words in names.items() for word in words.split()}


_LENGTH = _Kind(
    unit="mm",
    words={
        "'": "ft",
        '"': "inch",
        **_words(
            mm="mm mil mils millimetre millimetres millimeter millimeters",
            cm="cm centimetre centimetres centimeter centimeters",
            m="m mtr mtrs metre metres meter meters",
            km="km kilometre kilometres kilometer kilometers",
            inch="in ins inch inches",
            ft="ft foot feet",
            yard="yd yds yard yards",
        ),
    },
    example="a length such as 2.4 m, 2400 mm or 8 ft 3 1/2",
    least=0,
    most=100_000,
    most_words="100 m",
    compound=True,
    missing="{0} mm, {0} m or {0} ft",
)

_OFFSET = replace(_LENGTH, least=-100_000, example="a length such as 1.2 m, or -300 mm outward")

_ANGLE = _Kind(
    unit="deg",
    words={"°": "deg", **_words(deg="deg degs degree degrees")},
    example="a pitch such as 26.6 deg, 3/12 or 1 in 4",
    least=0,
    most=90,
    most_words="90°",
    missing="{0} deg",
)

_WEIGHT = _Kind(
    unit="kg",
    words=_words(
        g="g gram grams gramme grammes",
        kg="kg kgs kilo kilos kilogram kilograms",
        metric_ton="t tonne tonnes",
        oz="oz ounce ounces",
        lb="lb lbs pound pounds",
        stone="st stone stones",
        # Left to itself pint takes the American hundredweight of 100 lb and ton of 2000 lb.
        UK_hundredweight="cwt hundredweight hundredweights",
        UK_ton="ton tons",
    ),
    example="a weight such as 24 kg",
    least=0,
    most=100_000,
    most_words="100 t",
    compound=True,
)

_SPEED = _Kind(
    unit="mph",
    words={
        "m/s": "m/s",
        "km/h": "km/h",
        **_words(mph="mph", knot="knot knots kn kt kts"),
        "kph": "km/h",
        "kmh": "km/h",
    },
    example="a speed such as 16 mph or 7 m/s",
    least=0,
    most=250,
    most_words="250 mph",
)

_TEMPERATURE = _Kind(
    unit="degC",
    words={"°": "degC", "°c": "degC", "c": "degC", "°f": "degF", "f": "degF"},
    example="a temperature such as 5 °C",
    least=-60,
    most=80,
    most_words="80 °C",
)

_SIDE = r"[0-9]{1,4}(?:\.[0-9]{1,3})?"
_PITCH = re.compile(rf"(?P<twelfths>{_SIDE}) ?/ ?12|(?P<rise>{_SIDE}) ?(?:in|:) ?(?P<run>{_SIDE})")

_NEXT_DOWN = {"ft": "inch"}
"""What a number without a unit is in after one with this unit: 8 ft 3 is 8 ft 3 in."""

_EXACT = {
    ("m", "mm"): Fraction(1000),
    ("cm", "mm"): Fraction(10),
    ("ft", "mm"): Fraction("304.8"),
    ("inch", "mm"): Fraction("25.4"),
}
"""Factors by definition, for what is typed every day."""


def parse_length(field: str, text: str, *, zero: bool = True, bare: bool = True) -> Length:
    """Read a length such as ``2.4 m``, ``2400`` (mm), ``7' 10 1/2"``, ``8 ft 3 1/2`` or ``2ft6``.

    A number after feet is inches. Raises :class:`Refused` for anything else, for less than 0 or
    more than 100 m, for 0 itself unless ``zero``, and for a number without a unit unless ``bare``
    (0 is 0 in any unit).
    """
    mm = _read(field, text, _LENGTH, bare=bare)
    if not mm and not zero:
        raise Refused(field, text, "Give more than 0.")
    return Length(mm, text.strip())


def parse_offset(field: str, text: str, *, bare: bool = True) -> Length:
    """Read a length that may be less than 0: measured the other way. Raises :class:`Refused`."""
    return Length(_read(field, text, _OFFSET, bare=bare), text.strip())


def parse_angle(field: str, text: str, *, bare: bool = True) -> Angle:
    """Read an angle such as ``26.6``, ``30 deg``, ``30°``, or a pitch: ``3/12``, ``1 in 4``.

    A pitch is so much rise in so much run. Of what has a stroke only so many twelfths are read:
    ``1/6`` is a rise of 1 in 6 to one, and over the span to another. Raises :class:`Refused` for
    anything else, for more than 90 degrees, and for a number without a unit unless ``bare``.
    """
    pitch = _PITCH.fullmatch(spelt_plainly(text))
    if pitch:
        run = Fraction(pitch["run"] or 12)
        if run:
            return Angle(
                arctangent(Fraction(pitch["twelfths"] or pitch["rise"]) / run), text.strip()
            )
    return Angle(_read(field, text, _ANGLE, bare=bare), text.strip())


def parse_weight(field: str, text: str) -> Weight:
    """Read a weight such as ``24 kg``, ``24`` (kg) or ``1 cwt`` (112 lb), or refuse it."""
    return Weight(_read(field, text, _WEIGHT), text.strip())


def parse_speed(field: str, text: str) -> Speed:
    """Read a speed such as ``16`` (mph), ``10 m/s`` or ``20 km/h`` up to 250 mph, or refuse it."""
    return Speed(_read(field, text, _SPEED), text.strip())


def parse_temperature(field: str, text: str) -> Temperature:
    """Read a temperature such as ``5`` (°C), ``-2 °C`` or ``41 F``, -60 to 80 °C, or refuse it."""
    return Temperature(_read(field, text, _TEMPERATURE), text.strip())


def show_mm(mm: Fraction) -> str:
    """Show a length to the millimetre, as a tape is read, half up: ``1,062 mm``, ``−50 mm``."""
    return f"{half_up(mm):,} mm".replace("-", "−")


def _read(field: str, text: str, kind: _Kind, *, bare: bool = True) -> Fraction:
    """Read a quantity into the kind's unit; raises :class:`Refused`."""
    parts = split_measure(text)
    known = _in_known_units(parts, kind)
    if not known or (len(known) > 1 and not _adds_up(known, kind)):
        raise Refused(field, text, f"Give {kind.example}.")
    if not bare and not parts[0][1] and parts[0][0]:
        shown = kind.missing.format(text.strip())
        raise Refused(field, text, f"Its unit is missing: give {shown}.")
    value = sum((_convert(number, unit, kind.unit) for number, unit in known), Fraction(0))
    if value < kind.least:
        raise Refused(field, text, f"Give {kind.least} or more: {kind.example}.")
    if value > kind.most:
        raise Refused(field, text, f"Give {kind.most_words} or less: {kind.example}.")
    return value


def _in_known_units(parts: list[tuple[Fraction, str]], kind: _Kind) -> list[tuple[Fraction, str]]:
    """The numbers, each with pint's name of its unit; none if the unit of one is not known."""
    known: list[tuple[Fraction, str]] = []
    for number, word in parts:
        if word:
            unit = kind.words.get(word)
        else:
            unit = _NEXT_DOWN.get(known[-1][1]) if known else kind.unit
        if unit is None:
            return []
        known.append((number, unit))
    return known


def _adds_up(parts: list[tuple[Fraction, str]], kind: _Kind) -> bool:
    """Tell whether less than one more follows a whole number of a unit, as in 7 ft 10 1/2 in."""
    if not kind.compound or len(parts) != 2:
        return False
    (first, unit), (second, smaller) = parts
    one_more = _convert(Fraction(1), unit, kind.unit)
    return first.denominator == 1 and abs(_convert(second, smaller, kind.unit)) < one_more


def _convert(number: Fraction, unit: str, into: str) -> Fraction:
    """Convert between units by pint's names, exactly."""
    if unit == into:
        return number
    if (unit, into) in _EXACT:
        return number * _EXACT[unit, into]
    return Fraction(_registry().Quantity(number, unit).m_as(into))


@cache
def _registry() -> "UnitRegistry[Fraction]":
    """Load pint's units in exact fractions, once."""
    from pint import UnitRegistry  # here, because loading it takes a third of a second

    return UnitRegistry(non_int_type=Fraction)
