"""A roof drawn from its take-off, in whichever covering."""

from domain.drawing.drawn import Drawing
from domain.drawing.felt import draw_felt
from domain.drawing.shingles import draw_shingles
from domain.takeoff.felt import FeltTakeOff
from domain.takeoff.take_off import TakeOff


def draw_roof(takeoff: TakeOff) -> Drawing:
    """Draw the roof of a take-off."""
    return draw_felt(takeoff) if isinstance(takeoff, FeltTakeOff) else draw_shingles(takeoff)
