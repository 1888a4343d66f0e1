"""The least pitch of a covering, and the pitch that is advised for it."""

from domain.coverings.registry import Covering
from domain.errors import Refused
from domain.units import Angle


def check_pitch(covering: Covering, pitch: Angle | None) -> tuple[str, ...]:
    """Return the cautions about a covering at a pitch, each a sentence; None is a pitch not known.

    Raises :class:`Refused` under the least pitch the covering keeps water out at.
    """
    least, advised = float(covering.least_pitch), float(covering.advised_pitch)
    if pitch is None:
        return (f"Pitch unknown: {covering.words} should have at least {advised:g}°.",)
    if pitch.degrees < covering.least_pitch:
        remedy = f"{least:g}° is the least for {covering.words}: choose another covering."
        raise Refused("pitch", pitch.typed, remedy)
    if pitch.degrees < covering.advised_pitch:
        under = "just under" if round(pitch.degrees, 1) >= covering.advised_pitch else "under"
        return (f"Pitch {pitch.typed} is {under} the {advised:g}° advised for {covering.words}.",)
    return ()
