"""The fewest strips of a roof, as they are shown and kept: how many, how sure, and in what ways."""

from collections.abc import Sequence
from dataclasses import dataclass

from domain.coverings.shingle import Shingle
from domain.cutting.plan import CutPlan
from domain.cutting.working import WorkingPlan
from domain.cutting.working_from_fewest import working_from
from domain.setting_out.flat_slopes import Slope


@dataclass(frozen=True, slots=True)
class Fewest:
    """The cut plan that takes the fewest strips."""

    strips: int
    """Every strip laid or cut, without edge strips and breakage."""
    bound: int
    """No plan takes fewer strips than this."""
    pieces_proven: bool
    """Whether no plan of as few strips has fewer pieces; if not, the nails may be counted high."""
    row_by_row: int
    """Strips if every row were cut from fresh ones by itself."""
    ways: WorkingPlan
    """How they are cut and laid."""

    @property
    def proven(self) -> bool:
        """Whether this is the fewest strips: the bound is the count."""
        return self.bound == self.strips


def fewest_of(plan: CutPlan, slopes: Sequence[Slope], shingle: Shingle) -> Fewest:
    """What is kept of a cut plan."""
    return Fewest(
        strips=plan.strips,
        bound=plan.bound,
        pieces_proven=plan.pieces_proven,
        row_by_row=plan.row_by_row,
        ways=working_from(plan, slopes, shingle),
    )
