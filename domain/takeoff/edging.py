"""What closes the edges of a roof: edge strips along the bare ones, pieces over ridges and hips."""

from collections.abc import Iterable
from fractions import Fraction
from math import ceil

from domain.coverings.shingle import Shingle
from domain.setting_out.flat_slopes import Roof
from domain.takeoff.runs import Runs, cut_runs


def edge_strips(roof: Roof, shingle: Shingle) -> int:
    """Count the strips whose tabs are cut off for edges, remnants used along the way."""
    return edge_runs(roof, shingle).bought


def edge_runs(roof: Roof, shingle: Shingle) -> Runs:
    """Cut the edge strips of every edge that has one, in the order in which they are laid.

    Common practice: slope by slope along eaves or break, left verge, right verge and top edge, each
    run on at both corners.
    """
    needs = (
        edge.length + 2 * shingle.edge_corner for slope in roof.slopes for edge in slope.strip_edges
    )
    return cut_runs(
        needs,
        stock=shingle.width,
        lap=shingle.edge_lap,
        worth_laying=lambda remnant, _need: remnant >= shingle.edge_remnant,
    )


def ridge_pieces(runs: Iterable[Fraction], shingle: Shingle) -> int:
    """Count the one-tab pieces over the ridge and hip runs (mm), each with its closing piece."""
    return sum(ceil(run / shingle.ridge_exposure) + 1 for run in runs)
