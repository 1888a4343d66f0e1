"""A roof drawn from its take-off, in whichever covering."""

from domain.drawing.draw_felt import draw_felt
from domain.drawing.draw_shingles import draw_shingles
from domain.drawing.drawing_parts import Drawing
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import TakeOff


def draw_roof(takeoff: TakeOff) -> Drawing:
    """Draw the roof of a take-off."""
    return draw_felt(takeoff) if isinstance(takeoff, FeltTakeOff) else draw_shingles(takeoff)
