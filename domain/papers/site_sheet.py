"""The site sheet: what is needed on the roof, in the order of the work, in few words.

What could kill comes before everything else, of stripping as of laying: it is the one paper that
goes up the ladder.

Where nails, laps and beads go is common practice; the maker's instructions come first. Lengths are
millimetres and stand without their unit, as they are taped.
"""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import groupby

from domain.checks.before_laid import LAYING_TICKS
from domain.checks.before_quoted import asbestos_stop
from domain.checks.reminders import reminders_on_the_roof
from domain.cutting.plan import CutStrip, Part, PieceKind
from domain.days.weather import limits_in_words
from domain.drawing.draw_shingles import draw_shingles
from domain.drawing.marks import lettered
from domain.exact import half_up
from domain.job import Job, OldCovering
from domain.papers.blocks import (
    Block,
    Cut,
    CutPart,
    Cuts,
    Details,
    Measures,
    Paper,
    Picture,
    Ticks,
    Words,
)
from domain.papers.felt_on_roof import felt_on_roof
from domain.papers.roof_parts import edge_tables
from domain.papers.shared_parts import lines_of, numbered, sentence
from domain.quantity import show_amount, to_decimal
from domain.setting_out.courses import Courses
from domain.setting_out.kinds import EdgeKind
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, TakeOff
from domain.tone import Tone
from domain.trader import Trader

_MITRE = 40  # mm off each side of a ridge or hip piece; common practice

_ENDS = {
    PieceKind.LEFT: "left",
    PieceKind.RIGHT: "right",
    PieceKind.WHOLE: "",
    PieceKind.ROW: "whole course",
}


def site_sheet(job: Job, takeoff: TakeOff, trader: Trader) -> Paper:
    """The sheet of one job, from the take-off of its roof."""
    old = job.survey.old if job.survey else OldCovering()
    stop = asbestos_stop(old)
    blocks = [
        *([Words(stop, "STOP", Tone.STOP)] if stop else []),
        Words("\n".join(reminders_on_the_roof()), "Safety", Tone.CAUTION),
        *(Words(caution, tone=Tone.CAUTION) for caution in takeoff.cautions),
        _in_brief(job, takeoff),
        Words("\n".join(limits_in_words(trader.limits)), "Weather"),
        *(
            felt_on_roof(takeoff)
            if isinstance(takeoff, FeltTakeOff)
            else _in_shingles(takeoff, trader)
        ),
        Ticks(tuple((False, words) for words in LAYING_TICKS.values()), "Before you leave"),
    ]
    head = lines_of(job.site.place, job.site.address, job.customer.name, job.site.access)
    return Paper(f"Site sheet {job.ref}", tuple(blocks), head, on_the_roof=True)


def _in_brief(job: Job, takeoff: TakeOff) -> Details:
    roof = takeoff.roof
    area = show_amount(to_decimal(roof.area / 10**6), "m²")
    pitch = f", {to_decimal(roof.pitch.degrees).quantize(Decimal('0.1'))}°" if roof.pitch else ""
    chosen = job.survey.covering if job.survey else None
    words = lines_of(sentence(takeoff.covering.words), chosen.colour if chosen else "")
    return Details(
        (
            ("Roof", f"{sentence(roof.form.words)}, {area}{pitch}"),
            ("Covering", ", ".join(words)),
        )
    )


def _in_shingles(takeoff: ShingleTakeOff, trader: Trader) -> Iterator[Block]:
    """What is done on the roof, in that order."""
    yield Picture(draw_shingles(takeoff))
    yield from edge_tables(takeoff.roof)
    yield from _chalk_lines(takeoff)
    yield _cut_list(takeoff)
    yield _underlay(takeoff, trader)
    yield _edges(takeoff)
    yield _courses(takeoff)
    yield from _ridges(takeoff)
    yield _mastic(takeoff)


def _chalk_lines(takeoff: ShingleTakeOff) -> Iterator[Block]:
    """The lines to strike, once for slopes that share them."""
    sharing: dict[Courses, list[int]] = {}
    for number, courses in enumerate(takeoff.courses, start=1):
        sharing.setdefault(courses, []).append(number)
    slopes_up = {slope.lower_edge for slope in takeoff.roof.slopes}
    foot = "eaves" if slopes_up == {EdgeKind.EAVES} else "lower edge"
    for courses, slopes in sharing.items():
        lines = enumerate(courses.chalk_lines, start=1)
        yield Measures(
            tuple((str(course), _mm(line)) for course, line in lines),
            f"Chalk lines up from the {foot}, {_named(slopes)}",
        )


def _named(slopes: Sequence[int]) -> str:
    """One or more slopes by number."""
    return f"{'slopes' if len(slopes) > 1 else 'slope'} {numbered(slopes)}"


def _cut_list(takeoff: ShingleTakeOff) -> Cuts:
    """Every strip that is cut, numbered as in the drawing; like ones that follow are told once."""
    told = ((tuple(map(_mm, strip.cuts)), tuple(_parts(strip))) for strip in takeoff.plan.cut_list)
    numbered = groupby(enumerate(told, start=1), key=lambda each: each[1])
    return Cuts(
        tuple(
            Cut(_from_to([number for number, _ in alike]), cuts, parts)
            for (cuts, parts), alike in numbered
        ),
        "Cut list, measured from the left end of the strip; 7a is part a of strip 7",
    )


def _from_to(numbers: Sequence[int]) -> str:
    """The numbers of strips that follow each other."""
    first, last = numbers[0], numbers[-1]
    return str(first) if first == last else f"{first}–{last}"


def _parts(strip: CutStrip) -> Iterator[CutPart]:
    for letter, part in lettered(strip):
        mm = half_up(part.end - part.start)
        yield CutPart(letter, mm, _place(part), max(1, part.ridge_pieces))


def _place(part: Part) -> str:
    """Where a part of a strip goes; empty if it is spare."""
    if part.piece is None:
        ridge = part.kind is PieceKind.RIDGE
        return show_amount(Decimal(part.ridge_pieces), "ridge piece") if ridge else ""
    where = f"slope {part.piece.slope + 1}, course {part.piece.course}"
    end = _ENDS[part.piece.kind]
    return f"{where}, {end}" if end else where


def _underlay(takeoff: ShingleTakeOff, trader: Trader) -> Details:
    sheet, lay = takeoff.packing.underlay, takeoff.underlay
    rolls = show_amount(Decimal(lay.rolls), "roll")
    over = f"{_mm(sheet.over_edge)} over every edge"
    if takeoff.ridge_pieces:
        over += f", {_mm(sheet.over_ridge)} over ridge and hips"
    return Details(
        (
            ("Unroll", f"{trader.limits.underlay_rest_min} minutes before use"),
            ("Rows", f"{lay.rows} along the eaves, from {rolls}"),
            ("Over", over),
            ("Laps", f"{_mm(sheet.side_lap)}, at roll ends {_mm(sheet.end_lap)}"),
            ("Nails", f"every 300 along the edges: {takeoff.fixings.underlay_nails:,}"),
        ),
        "Underlay",
    )


def _edges(takeoff: ShingleTakeOff) -> Details:
    """The strips along the bare edges, their tabs cut off."""
    shingle = takeoff.covering
    kinds = {edge.kind for slope in takeoff.roof.slopes for edge in slope.free_edges}
    along = "eaves and verges" if EdgeKind.VERGE in kinds else "eaves"
    rows = [
        ("Cut", f"the tabs off {show_amount(Decimal(takeoff.strips.edge), 'strip')}"),
        ("Lay first", f"{along}, under course 1"),
        ("Corners", f"allow {_mm(shingle.edge_corner)} extra at each end"),
        ("Laps", f"{_mm(shingle.edge_lap)}; no piece under {_mm(shingle.edge_remnant)}"),
        ("Nails", f"every 50: {takeoff.fixings.edge_nails:,}"),
    ]
    if EdgeKind.TOP in kinds:
        rows.append(
            ("Lay last", f"top edge, over the courses, {_mm(shingle.turned_down)} turned down")
        )
    return Details(tuple(rows), "Edge strips")


def _courses(takeoff: ShingleTakeOff) -> Details:
    shingle = takeoff.covering
    plan = takeoff.plan
    nails = f"{_mm(shingle.nail_line)} above each cut-out, and 25 in from each end"
    return Details(
        (
            ("Strips", f"{plan.whole_strips} whole, {len(plan.cut_list)} cut as listed"),
            ("Joints", f"{_mm(shingle.half_tab)} from those of the course below"),
            ("Nails", nails),
            ("Total", f"{takeoff.fixings.shingle_nails:,}"),
        ),
        "Courses",
    )


def _ridges(takeoff: ShingleTakeOff) -> Iterator[Details]:
    """The pieces over ridges and hips; nothing where there are none."""
    if takeoff.ridge_pieces:
        shingle = takeoff.covering
        yield Details(
            (
                ("Cut", f"{takeoff.ridge_pieces} single tabs, corners cut off {_MITRE}"),
                ("Gauge", f"{_mm(shingle.ridge_exposure)}; finish with a capping piece"),
                ("Nails", f"2 a piece: {takeoff.fixings.ridge_nails:,}"),
            ),
            "Ridge and hips",
        )


def _mastic(takeoff: ShingleTakeOff) -> Details:
    fixings = takeoff.fixings
    metres = show_amount(to_decimal(fixings.mastic / 1000), "m")
    rows = [
        ("Edges", "a bead 25 back from every bare edge"),
        ("Eaves", "one more, under the tabs of course 1"),
        ("Total", f"{metres}, {show_amount(Decimal(fixings.cartridges), 'cartridge')}"),
    ]
    if takeoff.ridge_pieces:
        rows.insert(2, ("Ridge", "one under each piece, two under the last"))
    return Details(tuple(rows), "Mastic")


def _mm(length: Fraction) -> str:
    """A length to the millimetre, without its unit."""
    return f"{half_up(length):,}"
