"""A roof in shingles as the plan to work by lays it: cut pieces bear the names of their piles."""

from dataclasses import replace

from domain.cutting.laid import laid_pieces, names_of
from domain.cutting.working import WorkingPlan
from domain.drawing.draw_shingles import draw_pieces
from domain.drawing.drawing_parts import Drawing
from domain.drawing.marks import Mark
from domain.takeoff.roof_takeoff import ShingleTakeOff


def draw_working(takeoff: ShingleTakeOff, plan: WorkingPlan) -> Drawing:
    """Draw every piece where the plan lays it."""
    names = names_of(plan)
    laid = laid_pieces(plan, takeoff.rows)
    marked = {each.piece: Mark(0, str(names[each.part])) for each in laid if each.part in names}
    drawing = draw_pieces(takeoff, [each.piece for each in laid], marked)
    return replace(drawing, plan=plan)
