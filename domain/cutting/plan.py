"""The cut plan: the fewest strips a roof can be laid from, proven, and how to cut them."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.cutting.cut_list import CutStrip, Part, Piece, PieceKind, lay_out
from domain.cutting.lays import classes_of
from domain.cutting.model import CutModel
from domain.integer_programme import minimise
from domain.setting_out.courses import Row
from domain.setting_out.coverings import Shingle

__all__ = ["CutPlan", "CutStrip", "Part", "Piece", "PieceKind", "plan_cuts"]


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How every row and ridge piece of a roof is cut from strips."""

    strips: int
    """Every strip laid or cut, without edge strips and breakage."""
    bound: int
    """No plan takes fewer strips than this."""
    proven: bool
    """Whether this is the fewest strips: the bound is the count."""
    pieces_proven: bool
    """Whether no plan of as few strips has fewer pieces; if not, the nails may be counted high."""
    pieces: tuple[Piece, ...]
    """Every piece of every row, by slope, course and from left to right."""
    cut_list: tuple[CutStrip, ...]
    """Every strip that is cut, in the order in which its first part is laid."""
    whole_strips: int
    """Strips laid as they come."""
    ridge_pieces: int
    """Ridge and hip pieces, of one tab each."""


def plan_cuts(
    rows: Sequence[Row], shingle: Shingle, ridge_pieces: int, time_limit_s: float = 5.0
) -> CutPlan:
    """Plan the cuts of a whole roof: the fewest strips, and of such plans the fewest pieces.

    If ``time_limit_s`` seconds end first, it is the best plan found, and not ``proven``.
    """
    model = CutModel(classes_of(rows, shingle), ridge_pieces, shingle)
    fewest = minimise(model.fewest_strips(), model.row_by_row(), time_limit_s)
    neatest = minimise(
        model.fewest_pieces(fewest.cost), fewest.values, time_limit_s - fewest.seconds
    )
    pieces, strips = lay_out(model.choice(neatest.values), shingle, ridge_pieces)
    cut_list = tuple(strip for strip in strips if strip.cuts or not strip.parts[0].piece)
    return CutPlan(
        strips=len(strips),
        bound=fewest.bound,
        proven=fewest.bound == len(strips),
        pieces_proven=fewest.proven and neatest.proven,
        pieces=pieces,
        cut_list=cut_list,
        whole_strips=len(strips) - len(cut_list),
        ridge_pieces=ridge_pieces,
    )
