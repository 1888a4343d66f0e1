"""The plan to work by on paper: ways of cutting, each once, and courses by what is laid in them.

Lengths are millimetres and stand without their unit, as they are taped.
"""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import groupby

from domain.cutting.laid import PartName, names_of
from domain.cutting.working import CutPart as Part
from domain.cutting.working import LaidPiece, PartKind, WayOfCutting, WayOfLaying, WorkingPlan
from domain.estimate.nails_chosen import NailsChosen
from domain.exact import half_up
from domain.papers.blocks import Cut, CutPart, Cuts, LaidPart, LaidRow, Laying
from domain.papers.load_list import nail_words
from domain.papers.roof_parts import closed_words
from domain.papers.shared_parts import numbered, sentence
from domain.quantity import show_amount
from domain.setting_out.kinds import EdgeKind, Finish
from domain.takeoff.roof_takeoff import ShingleTakeOff

_Names = Mapping[Part, PartName]


def cuts_of(takeoff: ShingleTakeOff, plan: WorkingPlan) -> Cuts:
    """The cut table, the way that is cut most often first."""
    names = names_of(plan)
    cut = sum(way.times for way in plan.cutting)
    rows = tuple(_cut(way, names) for way in plan.cutting)
    heading = f"Cut {cut} strips" if cut != 1 else "Cut 1 strip"
    piles = tuple(f"{name} {half_up(part.length):,}" for part, name in names.items())
    return Cuts(rows, heading, " ".join(_cutting_notes(takeoff, plan, rows)), piles)


def _cutting_notes(
    takeoff: ShingleTakeOff, plan: WorkingPlan, rows: Sequence[Cut]
) -> Iterator[str]:
    whole = f"{show_amount(Decimal(plan.whole), 'strip')} not cut. " if plan.whole else ""
    yield f"{whole}Measure from the left end, tabs towards you."
    yield "Write its name on every part, one pile for each name, at the foot of the ladder."
    if takeoff.ridge_pieces:
        pile = names_of(plan).get(Part(PartKind.RUN, takeoff.covering.tab))
        closed = closed_words(takeoff.roof)
        yield f"{takeoff.ridge_pieces} of {pile} are for {closed}." if pile else ""
    if any(not part.name for row in rows for part in row.parts):
        yield "Hatched: nothing needs it, keep it with the spare strips."


def _cut(way: WayOfCutting, names: _Names) -> Cut:
    parts = (
        CutPart(str(names[part]) if part in names else "", half_up(part.length))
        for part in way.parts
    )
    return Cut(way.times, tuple(f"{half_up(cut):,}" for cut in way.cuts), tuple(parts))


def laying_of(takeoff: ShingleTakeOff, plan: WorkingPlan, nails: NailsChosen) -> Iterator[Laying]:
    """The laying table, slopes of one shape together; the first says how every course is laid."""
    names = names_of(plan)
    heading, notes = "Lay the courses, from the left", tuple(_notes(takeoff, plan, nails))
    by_slopes = sorted(plan.laying, key=lambda way: way.slopes)
    for slopes, ways in groupby(by_slopes, key=lambda way: way.slopes):
        rows = sorted((_row(way, names, takeoff) for way in ways), key=lambda each: each[0])
        yield Laying(tuple(row for _, row in rows), named_slopes(slopes), heading, notes)
        heading, notes = "", ()


def named_slopes(slopes: Sequence[int]) -> str:
    """Slopes by their indexes: "Slopes 1 and 2"."""
    numbers = [slope + 1 for slope in slopes]
    return f"Slope{'s' if len(numbers) > 1 else ''} {numbered(numbers)}"


def _notes(takeoff: ShingleTakeOff, plan: WorkingPlan, nails: NailsChosen) -> Iterator[str]:
    shingle = takeoff.covering
    yield (
        f"A strip is {half_up(shingle.height)} high: its TOP edge goes to the chalk line of its "
        f"course, tabs down. It shows {_shown(takeoff)}."
    )
    if any(slope.finish is Finish.BREAK for slope in takeoff.roof.slopes):
        yield (
            "Below the break first, the last courses bent over it; then the edge strips above, "
            "and course 1 on them."
        )
    slanting = {EdgeKind.HIP, EdgeKind.VALLEY} & {
        edge.kind for slope in takeoff.roof.slopes for edge in slope.sides
    }
    where = ", measured on its longer edge" if slanting else ""
    if any(piece.part.length != piece.length for way in plan.laying for piece in way.pieces):
        yield (
            f"The figure after an arrow (→) is the length that stays on the roof{where}: trim the "
            "rest off in place, at the outer end."
        )
    if any(half_up(way.start or Fraction(0)) for way in plan.laying):
        yield "Past the left edge: let it run over by so much, and trim both ends."
    if EdgeKind.HIP in slanting:
        yield "At a hip trim the ends along the hip, on the rake; cut none square beforehand."
    if EdgeKind.VALLEY in slanting:
        yield (
            "At a valley cut over a board, 50 back from its middle; clip 25 off the upper corner, "
            "bed the end in the bead. No nail within 150 of the middle."
        )
    inside, up = shingle.tabs - 1, half_up(shingle.nail_line)
    named = sentence(nail_words(nails.shingle))
    yield (
        f"{named}, {inside + 2} a whole strip: one {up} above each of its "
        f"{inside} cut-outs, one 25 in from each end. {takeoff.fixings.shingle_nails:,} in all. "
        f"Joints are {half_up(shingle.half_tab)} from those of the course below."
    )


def _shown(takeoff: ShingleTakeOff) -> str:
    """The gauge, of slopes that share it together: "130 on slopes 1 and 2; 128 on slope 3"."""
    alike: dict[tuple[Fraction, Fraction], list[int]] = {}
    for number, up in enumerate(takeoff.courses, start=1):
        alike.setdefault((up.exposure, up.final_exposure), []).append(number)
    told = []
    for (gauge, final), slopes in alike.items():
        last = f" (the last course {half_up(final)})" if half_up(final) != half_up(gauge) else ""
        where = f" on slope{'s' if len(slopes) > 1 else ''} {numbered(slopes)}"
        told.append(f"{half_up(gauge)}{last}{where if len(alike) > 1 else ''}")
    return "; ".join(told)


def _row(way: WayOfLaying, names: _Names, takeoff: ShingleTakeOff) -> tuple[int, LaidRow]:
    """A line of the table behind its first course."""
    parts = tuple(_parts(way, names, takeoff.covering.width))
    nails = sum(piece.cutouts + 2 for piece in way.pieces)
    return way.courses[0], LaidRow(numbered(way.courses), parts, nails)


def _parts(way: WayOfLaying, names: _Names, whole: Fraction) -> Iterator[LaidPart]:
    """Its pieces, whole strips side by side told together."""
    for as_it_comes, pieces in groupby(way.pieces, key=lambda each: each.length == whole):
        if as_it_comes:
            yield LaidPart("", sum(1 for _ in pieces), 0)
        else:
            yield from (_part(piece, way.start, names) for piece in pieces)


def _part(piece: LaidPiece, start: Fraction | None, names: _Names) -> LaidPart:
    name = str(names[piece.part]) if piece.part in names else ""
    cut, laid = half_up(piece.part.length), half_up(piece.length)
    return LaidPart(name, cut, laid, half_up(start or Fraction(0)))
