"""What is done on a roof in shingles, step by step, in the order of the work.

Where nails, laps and beads go is common practice; the maker's instructions come first. Lengths are
millimetres and stand without their unit, as they are taped.
"""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from domain.cutting.working import WorkingPlan
from domain.estimate.nails_chosen import nails_chosen
from domain.exact import half_up
from domain.job import Survey
from domain.papers.blocks import Block, Measures, Step
from domain.papers.cut_and_lay import laying_of
from domain.papers.edge_work import bead_step, boards_on_again, edge_strips_step
from domain.papers.load_list import nail_words
from domain.papers.roof_parts import closed_words
from domain.papers.shared_parts import metres, numbered, sentence
from domain.quantity import show_amount
from domain.setting_out.courses import Courses
from domain.setting_out.flat_slopes import Roof, Slope
from domain.setting_out.kinds import EdgeKind, Finish
from domain.setting_out.wind import ridge_begins
from domain.takeoff.rolls import roll_rows
from domain.takeoff.roof_takeoff import ShingleTakeOff
from domain.trader import Trader

_MITRE = 40  # mm off each side of a ridge or hip piece; common practice


def chalk_lines(takeoff: ShingleTakeOff) -> Iterator[Measures]:
    """The lines to strike, once for slopes that share them."""
    sharing: dict[tuple[Courses, EdgeKind], list[int]] = {}
    both = zip(takeoff.courses, takeoff.roof.slopes, strict=True)
    for number, (courses, slope) in enumerate(both, start=1):
        sharing.setdefault((courses, slope.lower_edge), []).append(number)
    for (courses, lower), slopes in sharing.items():
        lines = enumerate(courses.chalk_lines, start=1)
        zero = "deck edge at the eaves" if lower is EdgeKind.EAVES else f"{lower}"
        named = f"slope{'s' if len(slopes) > 1 else ''} {numbered(slopes)}"
        yield Measures(
            tuple((str(course), _mm(line)) for course, line in lines),
            f"Chalk lines, {named}: up from the {zero}",
        )


def work_in_shingles(
    takeoff: ShingleTakeOff, plan: WorkingPlan, trader: Trader, survey: Survey | None
) -> Iterator[Block]:
    """Every step from the bare deck to the last ridge piece, the strips cut."""
    yield Step("Underlay", tuple(_underlay(takeoff, trader, survey)))
    yield edge_strips_step(takeoff)
    yield _lines(takeoff)
    yield bead_step(takeoff)
    yield from laying_of(takeoff, plan, nails_chosen(survey, trader.nailing))
    yield from _at_the_top(takeoff, survey.edges.wind_from if survey else "")


def _underlay(takeoff: ShingleTakeOff, trader: Trader, survey: Survey | None) -> Iterator[str]:
    sheet, roof = takeoff.packing.underlay, takeoff.roof
    kinds = {edge.kind for slope in roof.slopes for edge in slope.edges}
    if EdgeKind.VALLEY in kinds:
        yield (
            f"Valley first: the lining, {metres(roof.valley)} and the laps. The underlay of both "
            f"slopes runs {_mm(sheet.through_valley)} through it."
        )
    rest = trader.limits.underlay_rest_min
    yield f"Unroll it {rest} minutes before use. {_rows_words(takeoff)}, lowest first."
    laps = f"{_mm(sheet.side_lap)}, at roll ends {_mm(sheet.end_lap)}"
    yield f"Laps {laps}; {_mm(sheet.over_edge)} over every free edge."
    closed = closed_words(takeoff.roof)
    if closed:
        yield f"{_mm(sheet.over_ridge)} over {closed}; no nails there, the shingles hold it."
    if EdgeKind.BREAK in kinds:
        yield "Over the break in one piece, with no lap at it; round the arris off first."
    nails = sentence(nail_words(trader.nailing.felt_nail))
    yield f"{nails} every 300 along the free edges: {takeoff.fixings.underlay_nails:,}."
    yield from boards_on_again(roof, survey, "underlay turned down")


def _rows_words(takeoff: ShingleTakeOff) -> str:
    """How many rows there are, on each slope if on all as many."""
    sheet, surfaces = takeoff.packing.underlay, takeoff.roof.surfaces
    each = {sum(1 for _ in roll_rows(surface, sheet, at)) for _, surface, at in surfaces}
    rows = show_amount(Decimal(takeoff.underlay.rows), "row")
    if len(each) > 1 or len(surfaces) == 1:
        return f"{rows} along the eaves"
    side = "slope" if len(surfaces) == len(takeoff.roof.slopes) else "side"
    return f"{rows} along the eaves, {each.pop()} on each {side}"


def _lines(takeoff: ShingleTakeOff) -> Step:
    return Step("Strike the lines", tuple(_line_rows(takeoff)))


def _line_rows(takeoff: ShingleTakeOff) -> Iterator[str]:
    past = takeoff.covering.past_edge
    yield (
        "As on page one, line 1 for course 1 and so on: square up from the deck edge (0), at two "
        "places."
    )
    if past:
        past_edge = f"{_mm(past)} past the deck edge"
        yield f"The strips go {past_edge} at eaves and verges; the lines allow for it."
    yield from _why_nearer(takeoff)
    both = zip(takeoff.roof.slopes, takeoff.courses, strict=True)
    if any(s.finish is Finish.POINT and up.chalk_lines[-1] < s.length for s, up in both):
        yield "What is left above the last line the hip pieces close."
    yield from _square_lines(takeoff)


def _why_nearer(takeoff: ShingleTakeOff) -> Iterator[str]:
    """Why last lines are nearer: they stand at the top, where the strip is cut; slopes together."""
    told: dict[str, list[int]] = {}
    for number, (slope, up) in enumerate(zip(takeoff.roof.slopes, takeoff.courses, strict=True), 1):
        for words in _last_lines(slope, up, takeoff):
            told.setdefault(words, []).append(number)
    for words, slopes in told.items():
        named = f"slope{'s' if len(slopes) > 1 else ''} {numbered(slopes)}"
        yield words if len(slopes) == len(takeoff.roof.slopes) else f"{words[:-1]} ({named})."


def _last_lines(slope: Slope, up: Courses, takeoff: ShingleTakeOff) -> Iterator[str]:
    bent = slope.finish is Finish.BREAK
    hipped = bool(takeoff.roof.hip_runs)
    at = "top of the upper slope" if bent else "top" if hipped else _TOPS[slope.finish]
    top = slope.length + slope.beyond
    past = {n: line for n, line in enumerate(up.chalk_lines, 1) if bent and line > slope.length}
    if past:
        lines = "Lines" if len(past) > 1 else "Line"
        over = " and ".join(_mm(line - slope.length) for line in past.values())
        yield (
            f"{lines} {numbered(tuple(past))}: {over} past the break, on the upper slope; the "
            "strips are bent over it."
        )
    for course, line in enumerate(up.chalk_lines, start=1):
        high = top - up.butt(course)
        if line == top and high < takeoff.covering.height:
            yield (
                f"Line {course} is nearer: it is the {at}, and course {course} is cut to "
                f"{_mm(high)} high there."
            )


_TOPS = {
    Finish.RIDGE: "ridge",
    Finish.TOP: "top edge",
    Finish.ABUTMENT: "wall",
    Finish.POINT: "top",
}


def _square_lines(takeoff: ShingleTakeOff) -> Iterator[str]:
    """A line square to the eaves on which the lattice of the even courses stands."""
    tab = takeoff.covering.tab
    alike: dict[Fraction, list[int]] = {}
    for number, slope in enumerate(takeoff.roof.slopes, start=1):
        alike.setdefault(half_up(slope.eaves / 2 / tab) * tab, []).append(number)
    places = "; ".join(
        f"{_mm(at)} on slope{'s' if len(slopes) > 1 else ''} {numbered(slopes)}"
        for at, slopes in alike.items()
    )
    yield (
        f"One line square to the eaves (600 along, 800 up, 1,000 across), from the left corner at "
        f"{places}. On it even courses have a cut-out or a joint, odd ones the middle of a tab."
    )


def _at_the_top(takeoff: ShingleTakeOff, wind: str) -> Iterator[Step]:
    """What closes the roof, last."""
    shingle, roof = takeoff.covering, takeoff.roof
    finishes = {slope.finish for slope in roof.slopes}
    if Finish.TOP in finishes:
        down = _mm(shingle.turned_down)
        yield Step(
            "Top edge",
            (
                f"Edge strips last, in a bead, over the courses and the verge strips: {down} "
                "turned down over the edge.",
            ),
        )
    if roof.flashing:
        rows = (f"{metres(roof.flashing)}, over the courses: {_mm(shingle.flashing)} of cover.",)
        yield Step("Flashing along the wall", rows)
    if takeoff.ridge_pieces:
        closed = closed_words(takeoff.roof).replace("the ", "")
        yield Step(sentence(closed), tuple(_ridge_rows(takeoff, wind)))


def _ridge_rows(takeoff: ShingleTakeOff, wind: str) -> Iterator[str]:
    shingle, roof = takeoff.covering, takeoff.roof
    pieces = show_amount(Decimal(takeoff.ridge_pieces), "piece")
    yield (
        f"{pieces} of 1 tab, {_mm(shingle.tab)} wide. Cut a {_MITRE} mm mitre off both "
        "corners of the end that will be covered."
    )
    yield from _over_which(roof, _mm(shingle.half_tab))
    if roof.ridge_runs:
        yield ridge_begins(wind)
    yield (
        f"Each shows {_mm(shingle.ridge_exposure)}. A bead under each, two under the last of a "
        f"run. Shingle nails, 2 a piece, under the next one: {takeoff.fixings.ridge_nails:,}; "
        "in the last, mastic over the heads."
    )


def _over_which(roof: Roof, half: str) -> Iterator[str]:
    """What the pieces lie over, and where they meet; common practice."""
    verges = any(edge.kind is EdgeKind.VERGE for slope in roof.slopes for edge in slope.edges)
    over = "courses and verge strips" if verges else "courses"
    flush = "; first and last flush with the verge" * bool(roof.ridge_runs and verges)
    yield f"Bend each over the {over}, {half} down each side{flush}."
    if roof.hip_runs and roof.ridge_runs:
        yield "Hips from the eaves up, then the ridge, over the top ends of the hips."
    elif roof.hip_runs:
        yield "Hips from the eaves up. At the point they lap each other, trimmed to lie flat."


def _mm(length: Fraction) -> str:
    """A length to the millimetre, without its unit."""
    return f"{half_up(length):,}"
