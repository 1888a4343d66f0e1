"""How long a slope is and how steep: as taped, or from pitch or rise over its run."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import acos, asin, atan2, degrees

from domain.errors import Refused
from domain.exact import cosine, half_up, half_up_root, settled
from domain.setting_out.checks import not_too_long, risen, side, within_limits
from domain.setting_out.measures import RoofMeasures
from domain.units import Angle, Length, show_mm

_AT_ODDS = Fraction(1, 2)  # degrees between pitch and rise that are told of; common practice


@dataclass(frozen=True, slots=True)
class Rafter:
    """What is known of the line straight up a slope, from the eaves to the top."""

    run: Fraction | None
    """On plan, what the rise is measured over; None if it was not measured."""
    over: Fraction
    """Overhangs, on plan."""
    rise: Length | None
    pitch: Angle | None = None
    """Wins over the rise."""
    taped: Length | None = None
    """The slope length; wins over what pitch or rise give."""
    run_field: str = "span"
    rise_field: str = "rise"
    """Ids of their fields."""

    @property
    def plan(self) -> Fraction | None:
        """What the slope covers on plan."""
        return None if self.run is None else self.run + self.over

    def length(self) -> Fraction:
        """Return the slope length, to the whole millimetre half up where it is worked out.

        Raises :class:`Refused` if it is absurd or cannot be known.
        """
        if self.taped:
            return side("slope_length", self.taped)
        run, plan = self.run, self.plan
        if run is None or plan is None:
            raise Refused(self.run_field, "", "Give the span, or tape the slope length.")
        if self.pitch:
            return not_too_long(half_up(settled(plan / cosine(self.pitch.degrees))))
        if self.rise:
            square = plan**2 * (1 + (self.rise.mm / run) ** 2)
            return not_too_long(half_up_root(settled(square)))
        raise Refused("pitch", "", "Give the pitch or the rise, or tape the slope length.")

    def angle(self) -> Angle | None:
        """Return the pitch as given, from the rise, or from the taped slope length, if they tell.

        Where the run was not measured, the rise is held against the taped slope, overhangs left
        out: they make the slope longer, so the pitch is never told steeper than it is. An angle
        that is worked out is only shown and held against limits, so a float serves.
        Raises :class:`Refused` for what makes no pitch.
        """
        rise, taped, plan = self.rise, self.taped, self.plan
        if rise:
            risen(self.rise_field, rise)
        if self.pitch:
            return within_limits("pitch", self.pitch.typed, self.pitch)
        if rise and self.run:
            return within_limits(self.rise_field, rise.typed, self._from_rise(rise, self.run))
        if taped and plan and taped.mm > plan:
            found = _worked_out(acos(plan / taped.mm), "the slope length")
            return within_limits("slope_length", taped.typed, found)
        if taped and rise and self.run is None and rise.mm < taped.mm:
            found = _worked_out(asin(rise.mm / taped.mm), "rise and slope length")
            return within_limits("slope_length", taped.typed, found)
        return None

    def cautions(self) -> Iterator[str]:
        """Tell of measures that contradict: a taped slope wins, and the pitch over a rise."""
        if self.plan is not None and self.length() <= self.plan:
            yield (
                f"Slope length {show_mm(self.length())} is no more than the {show_mm(self.plan)} "
                "that span and overhangs cover on plan: tape it again."
            )
        if self.taped and self.rise and self.taped.mm <= self.rise.mm:
            yield (
                f"Slope length {show_mm(self.taped.mm)} is no more than the rise of "
                f"{show_mm(self.rise.mm)}: tape both again."
            )
        if self.pitch and self.rise and self.run:
            by_rise = self._from_rise(self.rise, self.run)
            if abs(by_rise.degrees - self.pitch.degrees) > _AT_ODDS:
                yield f"Pitch {self.pitch.typed} does not fit {by_rise.typed}: using the pitch."

    def _from_rise(self, rise: Length, run: Fraction) -> Angle:
        """Work the pitch out."""
        return _worked_out(atan2(rise.mm, run), f"the {self.rise_field.replace('_', ' ')}")


def rafter_of(measures: RoofMeasures, run: Fraction | None, over: Fraction) -> Rafter:
    """Return the rafter of a roof with one pitch."""
    return Rafter(run, over, measures.rise, measures.pitch, measures.slope_length)


def _worked_out(radians: float, source: str) -> Angle:
    """Make an angle to a millionth of a degree that tells what it comes from."""
    angle = degrees(radians)
    return Angle(Fraction(round(angle * 10**6), 10**6), f"{angle:.1f}° (from {source})")
