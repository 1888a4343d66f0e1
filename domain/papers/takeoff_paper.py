"""The take-off on paper: slopes, chalk lines, cut list, fixings, cautions."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import groupby
from math import ceil
from types import MappingProxyType

from domain.checks.reminders import REMINDERS
from domain.coverings.materials import Material
from domain.cutting.fewest import Fewest
from domain.estimate.basis import Supply
from domain.estimate.edge_parts import to_renew
from domain.estimate.supplies import usual_pack
from domain.estimate.weights import Weights
from domain.exact import half_up
from domain.job import Edges, Job, Stage
from domain.papers.blocks import Block, Column, Details, Paper, Table, Words
from domain.papers.felt_parts import felt_blocks, felt_to_buy
from domain.papers.roof_parts import Needed, edge_tables, materials_to_buy, weights_of
from domain.papers.shared_parts import left_over, metres, sentence
from domain.papers.work_lines import CutLine, closing_words, over_the_fewest, work_lines
from domain.quantity import show_amount, to_decimal
from domain.setting_out.courses import Courses
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, Strips, TakeOff
from domain.tone import Tone
from domain.units import show_mm

NOTHING_PRICED: Mapping[Material, Supply] = MappingProxyType({})

_NAILING = "Nail 25 mm above each cut-out and 25 mm in from each end."


def takeoff_paper(
    takeoff: TakeOff,
    job: Job | None = None,
    weights: Weights | None = None,
    supplies: Mapping[Material, Supply] = NOTHING_PRICED,
) -> Paper:
    """Everything that is needed on the roof, in the order in which it is needed.

    ``job`` is the one whose roof it is; None for the roof of a survey file.
    ``weights`` are told where they are known; ``supplies`` are those of the materials that have a
    price: what stock gives, and the packs.
    """
    blocks: list[Block] = [Words(caution, tone=Tone.CAUTION) for caution in takeoff.cautions]
    renewed = tuple(_renewed(takeoff, job.survey.edges)) if job and job.survey else ()
    if isinstance(takeoff, FeltTakeOff):
        blocks += (felt_to_buy(takeoff, supplies, renewed), *felt_blocks(takeoff))
    else:
        blocks += _in_shingles(takeoff, supplies, renewed)
    blocks += [weights_of(weights)] if weights else []
    blocks += (Words(reminder, tone=Tone.CAUTION) for reminder in REMINDERS[Stage.LAID])
    area = to_decimal(takeoff.roof.area / 10**6)
    what = f"{takeoff.roof.form.words}, {show_amount(area, 'm²')}, {takeoff.covering.words}"
    if job is None:
        return Paper("Take-off", tuple(blocks), (sentence(what),))
    head = (job.site.place, job.customer.name, sentence(what))
    return Paper(f"Take-off {job.ref}", tuple(blocks), head)


def _renewed(takeoff: TakeOff, edges: Edges) -> Iterator[Needed]:
    """What is bought anew for the edges."""
    for part in to_renew(takeoff.roof, edges):
        lengths = ceil(Fraction(part.metres) / Fraction(usual_pack(part.material)))
        yield part.material, lengths, f"{show_amount(part.metres, 'm')} along the edges", 0


def _in_shingles(
    takeoff: ShingleTakeOff, supplies: Mapping[Material, Supply], renewed: Iterable[Needed]
) -> Iterator[Block]:
    """All that is told of a roof in shingles."""
    yield _to_buy(takeoff, supplies, renewed)
    yield _slopes(takeoff)
    yield from edge_tables(takeoff.roof)
    yield from _chalk_lines(takeoff)
    yield from _cuts(takeoff)
    yield _fixings(takeoff)


def _to_buy(
    takeoff: ShingleTakeOff, supplies: Mapping[Material, Supply], renewed: Iterable[Needed]
) -> Table:
    """What to take from the merchant's counter."""
    strips, lay, fixings = takeoff.strips, takeoff.underlay, takeoff.fixings
    nails, mastic = f"{fixings.through_strips:,} nails", f"{metres(fixings.mastic)} of bead"
    shingles = f"{show_amount(Decimal(strips.laid), 'strip')} laid, {strips.breakage} for breakage"
    return materials_to_buy(
        takeoff.roof,
        supplies,
        (
            (Material(takeoff.covering.key), strips.packs, shingles, strips.from_stock),
            (Material.UNDERLAY, lay.rolls, f"{lay.rows} rows, {metres(lay.laid)}", 0),
            (Material.SHINGLE_NAILS, fixings.shingle_boxes, nails, 0),
            (Material.FELT_NAILS, fixings.felt_boxes, f"{fixings.underlay_nails:,} nails", 0),
            (Material.MASTIC, fixings.cartridges, mastic, 0),
            *renewed,
        ),
    )


def _slopes(takeoff: ShingleTakeOff) -> Table:
    return Table(
        (
            Column("Slope", True),
            Column("Eaves", True),
            Column("Up the slope", True),
            Column("Courses", True),
            Column("Gauge", True),
            Column("Last course", True),
        ),
        tuple(
            (
                str(number),
                show_mm(slope.eaves),
                show_mm(slope.length),
                str(courses.count),
                show_mm(courses.exposure),
                show_mm(courses.final_exposure),
            )
            for number, (slope, courses) in enumerate(
                zip(takeoff.roof.slopes, takeoff.courses, strict=True), start=1
            )
        ),
        "Slopes",
    )


def _chalk_lines(takeoff: ShingleTakeOff) -> Iterator[Table]:
    """The lines to strike, to the millimetre, once for slopes that share them."""
    sharing: dict[Courses, list[int]] = {}
    for number, courses in enumerate(takeoff.courses, start=1):
        sharing.setdefault(courses, []).append(number)
    for courses, slopes in sharing.items():
        yield Table(
            (Column("Course", True), Column("Up from the eaves", True)),
            tuple(
                (str(course), f"{_mm(line)} mm")
                for course, line in enumerate(courses.chalk_lines, start=1)
            ),
            f"Chalk lines, top edge of each course, {_named(slopes)}",
        )


def _named(slopes: Sequence[int]) -> str:
    """One or more slopes by number."""
    *before, last = (str(number) for number in slopes)
    return f"slopes {', '.join(before)} and {last}" if before else f"slope {last}"


def _cuts(takeoff: ShingleTakeOff) -> Iterator[Block]:
    """How many strips, how sure the count is, each way of cutting and each way of laying."""
    lines = work_lines(takeoff, takeoff.working or takeoff.fewest.ways)
    edge, closing = takeoff.strips.edge, closing_words(takeoff)
    counted = f"{lines.strips} strips for the courses and {closing}: "
    counted += f"{lines.whole} whole, {lines.strips - lines.whole} cut. "
    counted += f"{edge} more, their tabs cut off, along the edges."
    told = (
        counted,
        over_the_fewest(takeoff),
        _proof(takeoff.fewest),
        saving(takeoff.strips),
        left_over(takeoff.offcuts),
    )
    yield Words(" ".join(words for words in told if words), "Cut list")
    yield Table(
        (
            Column("Way"),
            Column("Strips", True),
            Column("Cut at, from the left end"),
            Column("Parts, left to right, as marked in the drawing"),
        ),
        tuple(
            (cut.letter, str(cut.times), cut.cuts_words, "; ".join(_parts(cut)))
            for cut in lines.cutting
        ),
    )
    yield Table(
        (Column("Courses"), Column("From the left")),
        tuple((sentence(line.where), line.words) for line in lines.laying),
        "Laying",
    )


def _parts(cut: CutLine) -> Iterator[str]:
    """Each part of a strip behind the name of its pile, like ones side by side once."""
    for part, alike in groupby(cut.parts, key=lambda part: (part.name, part.goes)):
        name, goes = part
        count = sum(1 for _ in alike)
        named = f"{count} × {name}" if count > 1 else name
        yield f"{named}: {goes}" if name else goes


def _proof(fewest: Fewest) -> str:
    return "" if fewest.proven else f"Not proven: could be done in as few as {fewest.bound}."


def saving(strips: Strips) -> str:
    """What the plan saves against cutting every row by itself, as a sentence; empty for nothing."""
    if not strips.saved:
        return ""
    packs = show_amount(Decimal(strips.packs_saved), "pack")
    saved = show_amount(Decimal(strips.saved), "strip") + (f", {packs}" * bool(strips.packs_saved))
    return f"Saves {saved} compared with cutting each row from new strips."


def _mm(length: Fraction) -> str:
    """A length to the millimetre, as it is cut: without its unit."""
    return f"{half_up(length):,}"


def _fixings(takeoff: ShingleTakeOff) -> Details:
    fixings = takeoff.fixings
    every = f"every {show_mm(takeoff.covering.edge_nail_centres)}"
    return Details(
        (
            ("Shingle nails", f"{fixings.shingle_nails:,}"),
            ("Ridge nails, 2 a piece", f"{fixings.ridge_nails:,}"),
            (
                f"Edge strip nails, {every}",
                f"{fixings.edge_nails:,}",
            ),
            ("Underlay nails, every 300 mm", f"{fixings.underlay_nails:,}"),
            ("Where", _NAILING),
            ("Mastic", f"{metres(fixings.mastic)}, 25 mm back from the edges and under the tabs"),
        ),
        "Fixings",
    )
