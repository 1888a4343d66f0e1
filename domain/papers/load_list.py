"""What goes on the van for a roof: materials, tools that hurt if forgotten, and what it weighs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from domain.coverings.materials import Material
from domain.estimate.basis import Supply
from domain.estimate.edge_parts import to_renew
from domain.estimate.nails_chosen import NailsChosen, nails_chosen
from domain.estimate.weights import Weights, load_words
from domain.job import Job, OldKind
from domain.papers.blocks import Paper, Step, Ticks, Words
from domain.papers.page_one import head_of
from domain.papers.roof_parts import closed_words
from domain.papers.shared_parts import lines_of, metres, sentence
from domain.quantity import show_amount
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, TakeOff
from domain.trader import Nailing


@dataclass(frozen=True, slots=True)
class Load:
    """What is taken along, line by line."""

    materials: tuple[str, ...]
    tools: tuple[str, ...]
    """Only those that this job asks for."""
    weight: str
    """A sentence."""

    @property
    def steps(self) -> tuple[Step, Step]:
        """All of it in a few lines, the first thing to be done."""
        first, *others = self.tools
        tools = "; ".join((first, *(f"{tool[0].lower()}{tool[1:]}" for tool in others)))
        return (
            Step("Load the materials", self.materials),
            Step("Load the tools", (f"{tools}.", self.weight)),
        )


def load_of(
    job: Job,
    takeoff: TakeOff,
    supplies: Mapping[Material, Supply],
    weights: Weights,
    nailing: Nailing,
) -> Load:
    """What a job takes along; packs as ``supplies`` have them, where there is a price."""
    colour = job.survey.covering.colour if job.survey and job.survey.covering else ""
    nails = nails_chosen(job.survey, nailing)
    if isinstance(takeoff, FeltTakeOff):
        counted = _felt(takeoff, nails)
    else:
        counted = _shingles(takeoff, nails)
    materials = [_taken(row, supplies, colour) for row in counted]
    return Load(
        materials=(*materials, *_by_the_metre(job, takeoff)),
        tools=tuple(_tools(job, takeoff, weights)),
        weight=load_words(weights.bought, "to load"),
    )


def load_list(job: Job, takeoff: TakeOff, load: Load) -> Paper:
    """The load list as a paper of its own."""
    return Paper(
        f"Load list {job.ref}",
        (
            Ticks(tuple((False, row) for row in load.materials), "Materials"),
            Ticks(tuple((False, row) for row in load.tools), "Tools"),
            Words(load.weight, "Weight"),
        ),
        head_of(job, takeoff),
        on_the_roof=True,
    )


_Counted = tuple[Material, int, str]
"""Material, packs as the take-off counts them, and what they are for."""


def _shingles(takeoff: ShingleTakeOff, chosen: NailsChosen) -> Iterator[_Counted]:
    strips, fixings = takeoff.strips, takeoff.fixings
    held = strips.packs * takeoff.packing.strips_per_pack + strips.from_stock
    closed = closed_words(takeoff.roof).replace("the ", "")
    where = f"courses and {closed}" if closed else "courses"
    used = f"{held} strips: {strips.cut_plan} for {where}, {strips.edge} edge strips, "
    yield Material(takeoff.covering.key), strips.packs, f"{used}{held - strips.laid} spare"
    yield Material.UNDERLAY, takeoff.underlay.rolls, metres(takeoff.underlay.laid)
    nails = nail_words(chosen.shingle)
    yield Material.SHINGLE_NAILS, fixings.shingle_boxes, f"{nails}: {fixings.through_strips:,}"
    nails = nail_words(chosen.felt)
    yield Material.FELT_NAILS, fixings.felt_boxes, f"{nails}: {fixings.underlay_nails:,}"
    yield Material.MASTIC, fixings.cartridges, f"{metres(fixings.mastic)} of bead"


def _felt(takeoff: FeltTakeOff, chosen: NailsChosen) -> Iterator[_Counted]:
    fixings = takeoff.fixings
    yield Material(takeoff.covering.key), takeoff.lay.rolls, "capping included"
    nails = nail_words(chosen.felt)
    yield Material.FELT_NAILS, fixings.boxes, f"{nails}: {fixings.nails:,}"
    yield Material.ADHESIVE, fixings.tins, f"{metres(fixings.adhesive)} of lap"


def nail_words(mm: int | None) -> str:
    """A nail by finish, name and length, or that its length is to be chosen; common practice."""
    return f"galvanised clouts, {'CHOOSE THE LENGTH FIRST' if mm is None else f'{mm} mm'}"


def _taken(row: _Counted, supplies: Mapping[Material, Supply], colour: str) -> str:
    """One material with its packs, what of it stock gives, and what for."""
    material, packs, what = row
    supply = supplies.get(material)
    packs = supply.packs if supply else packs
    named = f"{material.words}, {colour}" if material.coloured and colour else material.words
    stock = supply.from_stock if supply else Decimal(0)
    loose = f" and {show_amount(stock, material.unit)} from stock" if stock else ""
    return f"{sentence(named)}: {show_amount(Decimal(packs), material.pack_word)}{loose} ({what})"


def _by_the_metre(job: Job, takeoff: TakeOff) -> Iterator[str]:
    """Boards, lining and flashing."""
    roof, deck = takeoff.roof, job.survey.deck if job.survey else None
    if deck and deck.replace_m:
        kind = ", ".join(lines_of(deck.profile, deck.thickness.typed if deck.thickness else ""))
        yield f"Boards: {show_amount(deck.replace_m, 'm')}{f' ({kind})' if kind else ''}"
    for part in to_renew(roof, job.survey.edges) if job.survey else ():
        yield f"{sentence(part.material.words)}: {show_amount(part.metres, 'm')}"
    if roof.valley:
        yield f"Valley lining: {metres(roof.valley)}, laps not included"
    if roof.flashing:
        yield f"Flashing: {metres(roof.flashing)}"


def _tools(job: Job, takeoff: TakeOff, weights: Weights) -> Iterator[str]:
    survey = job.survey
    means = survey.access.means.strip() if survey else ""
    yield sentence(means) if means else "Ladder, and a tie for it"
    if survey and survey.deck.works_off is False:
        yield "Roof ladder or boards to work from"
    yield "Gloves and glasses"
    yield "Tape, chalk line, square, marker"
    yield "Knife, hook blades, straight edge, cutting board"
    yield "Hammer, nail bag"
    shingles = isinstance(takeoff, ShingleTakeOff)
    yield "Cartridge gun" if shingles else "Brush and spreader for the adhesive"
    if survey and survey.deck.replace_m:
        yield "Saw, bar, board nails"
    if survey is None or survey.old.kind is not OldKind.NONE:
        sacks = weights.old.times if weights.old else None
        held = show_amount(Decimal(sacks), "rubble sack") if sacks else "Rubble sacks"
        yield f"Bar and shovel to strip; {held}"
    yield "Tarpaulin and battens, in case it rains"
