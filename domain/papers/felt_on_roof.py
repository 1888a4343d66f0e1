"""What is done on a roof in felt, step by step, in the order of the work."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from domain.drawing.draw_felt import draw_felt
from domain.drawing.drawing_parts import Drawing
from domain.job import Survey
from domain.papers.blocks import Block, Column, Measures, Step, Table
from domain.papers.edge_work import boards_on_again
from domain.papers.load_list import nail_words
from domain.papers.shared_parts import metres, numbered, sentence
from domain.quantity import show_amount
from domain.setting_out.kinds import EdgeKind
from domain.setting_out.wind import ridge_begins
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.trader import Trader
from domain.units import show_mm


def felt_chalk_lines(drawing: Drawing) -> Iterator[Measures]:
    """The lower edge of every row but the first, once for slopes that share them."""
    sharing: dict[tuple[tuple[str, str], ...], list[int]] = {}
    for slope in drawing.slopes:
        lines = tuple(
            (str(row.number), _mm(row.set_to)) for row in slope.courses[1:] if row.set_to > 0
        )
        sharing.setdefault(lines, []).append(slope.number)
    for lines, slopes in sharing.items():
        if lines:
            named = f"slope{'s' if len(slopes) > 1 else ''} {numbered(slopes)}"
            yield Measures(lines, f"Chalk lines, {named}: LOWER edge of each row, up from the deck")


def work_in_felt(takeoff: FeltTakeOff, trader: Trader, survey: Survey | None) -> Iterator[Block]:
    """Every step from the bare deck to the capping."""
    yield Step("Strike the lines, lay the felt", tuple(_rows(takeoff, trader)))
    yield _sheets(draw_felt(takeoff))
    yield Step("Nails and adhesive", tuple(_fixings(takeoff, trader, survey)))
    if takeoff.lay.capping_runs:
        yield Step(
            "Capping, last", tuple(_capping(takeoff, survey.edges.wind_from if survey else ""))
        )
    if takeoff.roof.flashing:
        yield Step("Flashing along the wall", (f"{metres(takeoff.roof.flashing)}, over the felt.",))


def _rows(takeoff: FeltTakeOff, trader: Trader) -> Iterator[str]:
    felt = takeoff.covering
    kinds = {edge.kind for slope in takeoff.roof.slopes for edge in slope.edges}
    yield (
        f"Unroll it {trader.limits.underlay_rest_min} minutes before use. Cut in the order of the "
        "list; write its mark on each: 1a is roll 1, first cut."
    )
    if EdgeKind.VALLEY in kinds:
        lining = f"the lining, {metres(takeoff.roof.valley)} and the laps"
        yield f"Valley first: {lining}; bed the felt on it."
    down = _mm(felt.turned_down)
    yield (
        f"Row 1 first, {down} over the eaves and turned down. Then each row with its LOWER edge on "
        "its line."
    )
    yield (
        f"It laps the row below by {_mm(felt.side_lap)}; end laps "
        f"{_mm(felt.end_lap)}. {down} turned down at every free edge."
    )
    if EdgeKind.BREAK in kinds:
        yield "Over the break in one piece: round the arris off, press it down."
    if EdgeKind.HIP in kinds:
        yield "At a hip: run on to it, trim along it. The capping covers the cut."


def _fixings(takeoff: FeltTakeOff, trader: Trader, survey: Survey | None) -> Iterator[str]:
    fixings, every = takeoff.fixings, _mm(takeoff.covering.nail_centres)
    yield f"Every lap is stuck, then nailed. Adhesive: {metres(fixings.adhesive)} in all."
    laps = f", along the laps {fixings.lap_nails:,}" if fixings.lap_nails else ""
    nails = sentence(nail_words(trader.nailing.felt_nail))
    yield f"{nails} every {every}: along the edges {fixings.edge_nails:,}{laps}."
    yield from boards_on_again(takeoff.roof, survey, "felt turned down")


def _capping(takeoff: FeltTakeOff, wind: str) -> Iterator[str]:
    lay, felt = takeoff.lay, takeoff.covering
    strips = show_amount(Decimal(lay.capping.rolls), "strip")
    fresh = show_amount(Decimal(lay.capping_rolls), "roll") if lay.capping_rolls else ""
    sheets = "what the last row leaves of its roll" if lay.from_sheets else ""
    source = " and ".join(filter(None, (sheets, fresh)))
    yield f"Cut {strips} {_mm(felt.capping)} wide from {source}."
    runs = ", ".join(_mm(run) for run in lay.capping_runs)
    yield f"Runs, the ends included: {runs}."
    if takeoff.roof.hip_runs:
        yield f"Hips from the eaves up{', then the ridge' * bool(takeoff.roof.ridge_runs)}."
    if takeoff.roof.ridge_runs:
        yield ridge_begins(wind)
    half, every = _mm(felt.capping / 2), _mm(felt.nail_centres)
    nails = f"{takeoff.fixings.capping_nails:,}"
    yield f"{half} on each side; both edges stuck, and nailed every {every}: {nails}."


def _sheets(drawing: Drawing) -> Table:
    """Every length, marked as in the drawing."""
    titles = ("Length", "Cut", "Slope", "Row", "Lower edge")
    return Table(
        tuple(Column(title, True) for title in titles),
        tuple(
            (
                str(piece.mark),
                show_mm(piece.piece.length),
                str(slope.number),
                str(row.number),
                show_mm(row.set_to),
            )
            for slope in drawing.slopes
            for row in slope.courses
            if row.set_to > 0 or slope.slope.lower_edge is not EdgeKind.BREAK
            for piece in row.pieces
        ),
        "The lengths in laying order, laps and turn-downs included",
    )


def _mm(length: Fraction) -> str:
    """A length without its unit, as all stand here."""
    return show_mm(length).removesuffix(" mm")
