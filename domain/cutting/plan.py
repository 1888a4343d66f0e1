"""The cut plan: the fewest strips a roof can be laid from, proven, and how to cut them."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.coverings.shingle import Shingle
from domain.cutting.by_hand import by_hand, least_pieces, least_strips, row_by_row
from domain.cutting.cut_list import CutStrip, Part, Piece, PieceKind, cut_list_of
from domain.cutting.lays import classes_of
from domain.cutting.model import CutModel
from domain.integer_programme import Watch, minimise
from domain.setting_out.courses import Row

__all__ = ["CutPlan", "CutStrip", "Part", "Piece", "PieceKind", "Watch", "plan_cuts"]

TIME_LIMIT_S = 3.5
"""So that an answer is on the screen within five, with all else that a large roof takes."""
RUNS_ON_S = 0.7e-6
"""By how much the solver may run on past its limit, for the square of the unknowns.

One way in which it rounds looks at no clock, and no option turns it off: so much was measured with
1,000 to 4,700 unknowns. It is given less time for that, and over 2,200 unknowns none: such a roof
is planned by hand alone, and not proven. A hip of 20 × 10 m has 364, twelve sides of 5 m 926, eight
large slopes of which no two are alike about 2,000.
"""


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
    row_by_row: int
    """Strips if every row were cut from fresh ones by itself."""


def plan_cuts(
    rows: Sequence[Row],
    shingle: Shingle,
    ridge_pieces: int,
    time_limit_s: float = TIME_LIMIT_S,
    watch: Watch | None = None,
) -> CutPlan:
    """Plan the cuts of a whole roof: the fewest strips, and of such plans the fewest pieces.

    If ``time_limit_s`` seconds, less what :data:`RUNS_ON_S` takes, end first, or ``watch`` says
    stop, it is the best plan found, and not ``proven``. ``watch`` is told the fewest strips found
    so far, and the fewest there can be.
    """
    classes = classes_of(rows, shingle)
    first = by_hand(classes, ridge_pieces, shingle)
    model = CutModel(classes, ridge_pieces, shingle, first.strips)
    floor = least_strips(classes, ridge_pieces, shingle)
    programme = model.fewest_strips()
    time_limit_s -= RUNS_ON_S * len(programme.costs) ** 2
    fewest = minimise(programme, model.values(first), time_limit_s, floor=floor, watch=watch)
    neatest = minimise(
        model.fewest_pieces(fewest.cost),
        fewest.values,
        time_limit_s - fewest.seconds,
        floor=least_pieces(classes),
        watch=watch and (lambda *_: watch(fewest.cost, fewest.bound)),
    )
    pieces, strips = cut_list_of(model.choice(neatest.values), shingle, ridge_pieces)
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
        row_by_row=row_by_row(classes, ridge_pieces, shingle),
    )
