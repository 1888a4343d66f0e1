"""What a measure must be, whatever the form of the roof: common sense of the trade."""

from fractions import Fraction

from domain.errors import Refused
from domain.exact import half_up
from domain.units import Angle, Length, show_mm

_LEAST_SIDE = 100  # mm; a side under it was typed in metres without saying so
_MOST_SIDE = 100_000  # mm; no shed slope is longer
_MOST_OVERHANG = 1000  # mm
_MOST_M2 = 200  # two garages of 12 × 6 m: more is another trade, or a slip
_STEEPEST = 85  # degrees


def side(field: str, length: Length) -> Fraction:
    """Return the millimetres of a side of the roof, refused if no roof is that short or long."""
    if length.mm < _LEAST_SIDE:
        remedy = f"Give {_LEAST_SIDE} mm or more; a number without a unit is read as millimetres."
        raise Refused(field, length.typed, remedy)
    if length.mm > _MOST_SIDE:
        raise Refused(field, length.typed, "Give 100 m or less.")
    return length.mm


def not_too_large(area: Fraction) -> None:
    """Refuse a roof no shed or garage has: what is counted while one waits has its bounds."""
    if area > _MOST_M2 * 10**6:
        shown = f"{half_up(area / 10**6):,} m²"
        raise Refused("roof_area", shown, f"Check the sizes: {_MOST_M2} m² is the limit.")


def overhang(field: str, length: Length | None) -> Fraction:
    """Return the millimetres of an overhang, none if it was not measured."""
    if length is None:
        return Fraction(0)
    if not 0 <= length.mm <= _MOST_OVERHANG:
        raise Refused(field, length.typed, f"Give an overhang from 0 to {_MOST_OVERHANG} mm.")
    return length.mm


def risen(field: str, rise: Length) -> Fraction:
    """Return the millimetres of a rise."""
    if rise.mm <= 0:
        raise Refused(field, rise.typed, "A roof needs a pitch: give a rise of more than 0.")
    return rise.mm


def within_limits(field: str, typed: str, pitch: Angle) -> Angle:
    """Return the pitch, or refuse the field it comes from."""
    if pitch.degrees <= 0:
        raise Refused(field, typed, "A roof needs a pitch: give more than 0°.")
    if pitch.degrees > _STEEPEST:
        raise Refused(field, typed, f"Give what makes a pitch of {_STEEPEST}° or less.")
    return pitch


def not_too_long(slope_length: int) -> Fraction:
    """Return a slope length that was worked out, refused if no shed has one so long."""
    if slope_length > _MOST_SIDE:
        shown = show_mm(Fraction(slope_length))
        raise Refused("slope_length", shown, "Check span and pitch: 100 m is the limit.")
    return Fraction(slope_length)
