"""Roots, cosines and rounding that never turn a near tie the wrong way."""

from decimal import Decimal, localcontext
from fractions import Fraction
from math import floor, isqrt

PI = Decimal("3.14159265358979323846264338327950288419716939937510582097494459")

_DIGITS = 60
_KEPT = Decimal("1e-45")
_HALVINGS = 3  # of an angle, so that its series is short


def half_up(value: Fraction | int) -> int:
    """Round to a whole number, halves up."""
    # ⌊v + ½⌋ in integers: a drawing has a quarter of a million of them.
    over, under = value.numerator, value.denominator
    return (2 * over + under) // (2 * under)


def half_up_root(square: Fraction) -> int:
    """Round the square root to a whole number, halves up, by integers alone."""
    # ⌊2√q⌋ = ⌊√(4q)⌋ = isqrt(⌊4q⌋), and ⌊√q + ½⌋ = ⌊(⌊2√q⌋ + 1) / 2⌋.
    return (isqrt(floor(4 * square)) + 1) // 2


def settled(value: Fraction) -> Fraction:
    """Drop what cosines leave beyond 30 places, so that a tie stands where it truly is one."""
    return Fraction(half_up(value * 10**30), 10**30)


def tangent(degrees: Fraction) -> Fraction:
    """Tangent of an angle from 0 to under 90 degrees, to 40 places."""
    return cosine(90 - degrees) / cosine(degrees)


def cosine(degrees: Fraction) -> Fraction:
    """Cosine of an angle from 0 to 90 degrees, to 45 places.

    A rational angle has a rational cosine at 0, 60 and 90 degrees alone (Niven), and there 45
    places give it exactly: what is divided by it falls on a tie only if it truly stands on one.
    """
    with localcontext() as context:
        context.prec = _DIGITS
        x = Decimal(degrees.numerator) / Decimal(degrees.denominator) * PI / 180
        total = term = Decimal(1)
        n = 0
        while abs(term) > Decimal(f"1e-{_DIGITS}"):
            n += 2
            term = -term * x * x / (n * (n - 1))
            total += term
        return Fraction(total.quantize(_KEPT))


def arctangent(slope: Fraction) -> Fraction:
    """Degrees of the angle whose tangent is given, 0 or more, to 45 places.

    So the cosine of a rise of 3 in 4 is 0.8 to the last place kept, as it truly is.
    """
    if slope > 1:
        return 90 - arctangent(1 / slope)
    with localcontext() as context:
        context.prec = _DIGITS
        x = Decimal(slope.numerator) / Decimal(slope.denominator)
        for _ in range(_HALVINGS):
            x /= 1 + (1 + x * x).sqrt()
        total = power = x
        n = 1
        while abs(power) > Decimal(f"1e-{_DIGITS}"):
            n += 2
            power = -power * x * x
            total += power / n
        return Fraction((total * 2**_HALVINGS * 180 / PI).quantize(_KEPT))
