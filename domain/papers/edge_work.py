"""The edges of a roof in shingles on paper: edge strips, and the beads of mastic.

Which strip lies over which is common practice: what is higher over what is lower, as water runs,
and at a ridge the weather side last. The maker's instructions come first.
"""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from domain.estimate.edge_parts import stay_on_verges
from domain.exact import half_up
from domain.job import Survey
from domain.papers.blocks import Step
from domain.papers.roof_parts import closed_words
from domain.papers.shared_parts import metres, numbered, sentence
from domain.quantity import show_amount
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.kinds import EdgeKind, Finish
from domain.takeoff.edging import edge_runs
from domain.takeoff.fixings import MASTIC, STEEP
from domain.takeoff.roof_takeoff import ShingleTakeOff


def edge_strips_step(takeoff: ShingleTakeOff) -> Step:
    """The strips along the bare edges, before course 1."""
    return Step("Edge strips", tuple(_edge_strips(takeoff)))


def _edge_strips(takeoff: ShingleTakeOff) -> Iterator[str]:
    shingle, roof = takeoff.covering, takeoff.roof
    kinds = {edge.kind for slope in roof.slopes for edge in slope.strip_edges}
    high = half_up(shingle.height - shingle.cut_out)
    yield f"Cut the tabs off {takeoff.strips.edge} strips: {high} high stays."
    past = half_up(shingle.past_edge)
    flush = f"{past} past the deck edge" if past else "flush with the deck edge"
    verges = EdgeKind.VERGE in kinds
    order = "eaves first, then left verge, right verge" if verges else "along the eaves"
    yield f"Cut edge outward, {flush}; {order}."
    if EdgeKind.BREAK in kinds:
        yield "At and above the break: later, over the bent courses."
    yield from _runs(takeoff)
    corner, lap = half_up(shingle.edge_corner), half_up(shingle.edge_lap)
    over = "; ".join(_corners(roof)) if verges else "each over the one before"
    yield f"Leave each run {corner} too long at both ends, for the corners: {over}."
    yield f"Pieces lap {lap}. An offcut of {half_up(shingle.edge_remnant)} or more begins a run."
    every = half_up(shingle.edge_nail_centres)
    yield f"Shingle nails every {every} along every edge: {takeoff.fixings.edge_nails:,}."


_AT_THE_HEAD = {
    Finish.BREAK: "at the break bend it over, under the strip there",
    Finish.RIDGE: "at the ridge bend both over, the weather side's on top",
    Finish.TOP: "the top strip, last, over both verge strips",
    Finish.ABUTMENT: "at the wall turn it up, under the flashing",
}
"""What becomes of a verge strip at its upper end."""


def _corners(roof: Roof) -> Iterator[str]:
    """Which strip lies over which, from the eaves up."""
    yield "verge strip over eaves strip"
    heads = {
        slope.finish
        for slope in roof.slopes
        if any(edge.kind is EdgeKind.VERGE for edge in slope.sides)
    }
    yield from (words for finish, words in _AT_THE_HEAD.items() if finish in heads)


def boards_on_again(roof: Roof, survey: Survey | None, over: str) -> Iterator[str]:
    """Barge boards that stay and came off to strip; ``over`` is what goes behind them."""
    if survey and stay_on_verges(roof, survey.edges):
        yield f"Barge boards on again, over the {over}, the top edge level with the deck."


def _runs(takeoff: ShingleTakeOff) -> Iterator[str]:
    """How many pieces a run takes, runs of one kind and length together."""
    pieces = Counter(piece.run for piece in edge_runs(takeoff.roof, takeoff.covering).pieces)
    edges = [edge for slope in takeoff.roof.slopes for edge in slope.strip_edges]
    alike: dict[tuple[EdgeKind, Fraction], list[int]] = {}
    for run, edge in enumerate(edges):
        alike.setdefault((edge.kind, edge.length), []).append(pieces[run])
    told = (
        f"{kind} {half_up(length):,}, {' or '.join(map(str, sorted(set(counts))))} pieces"
        for (kind, length), counts in alike.items()
    )
    yield f"{sentence('; '.join(told))}, for each run."


def bead_step(takeoff: ShingleTakeOff) -> Step:
    """The beads of mastic that lie under course 1, and those that go on as the courses do."""
    return Step("Mastic, before course 1", tuple(_beads(takeoff)))


def _beads(takeoff: ShingleTakeOff) -> Iterator[str]:
    roof, fixings = takeoff.roof, takeoff.fixings
    kinds = {edge.kind for slope in roof.slopes for edge in slope.edges}
    yield "Eaves: a bead 25 back from the edge, and a second one under the tabs of course 1."
    if EdgeKind.BREAK in kinds:
        yield "Break: one bead under the tabs of course 1 above it."
    if EdgeKind.VERGE in kinds:
        yield (
            "Verges: 25 back from the edge, course by course: before one is nailed, a bead under "
            "both its ends, from its butt up to the next one's."
        )
    if EdgeKind.VALLEY in kinds:
        yield "Valley: a bead on each side, to bed the ends of the courses."
    steep = [n for n, slope in enumerate(roof.slopes, 1) if roof.is_steep(slope, STEEP)]
    if steep:
        slopes = f"slope{'s' if len(steep) > 1 else ''} {numbered(steep)}"
        yield f"Over {STEEP}°, {slopes}: two spots of 25 under each tab."
    cartridges = show_amount(Decimal(fixings.cartridges), "cartridge")
    closed = closed_words(roof).replace("the ", "")
    with_it = f", {closed} with it" if closed else ""
    over = f", {MASTIC.allowance_percent} % over" if MASTIC.allowance_percent else ""
    yield f"All in all {metres(fixings.mastic)}{with_it}{over}: {cartridges}."
