"""A roof drawn from its take-off, in whichever covering."""

from domain.drawing.draw_felt import draw_felt
from domain.drawing.draw_working import draw_working
from domain.drawing.drawing_parts import Drawing
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import TakeOff


def draw_roof(takeoff: TakeOff) -> Drawing:
    """Draw the roof of a take-off, in shingles by the plan to work by once that is known."""
    if isinstance(takeoff, FeltTakeOff):
        return draw_felt(takeoff)
    return draw_working(takeoff, takeoff.working or takeoff.fewest.ways)
