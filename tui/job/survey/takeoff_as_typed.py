"""What follows from a survey as it is being typed: the figures of the take-off, and the stop.

Pure, but the cut plan takes a solver's time: not to be asked for on the thread that draws.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import partial

from domain.checks.before_quoted import asbestos_stop
from domain.cutting.plan import Watch
from domain.cutting.remembered import cuts_of
from domain.drawing.draw_roof import draw_roof
from domain.drawing.drawing_parts import Drawing
from domain.errors import Refused
from domain.estimate.job_takeoff import as_nailed, packing_for
from domain.estimate.kept_plans import plans_of
from domain.estimate.supplies import PricesAndStock
from domain.estimate.weights import Weights, show_kg, weigh
from domain.exact import half_up
from domain.integer_programme import GoesOn
from domain.job import Job, OldCovering, OldKind, Suspicion
from domain.papers.shared_parts import metres
from domain.quantity import show_amount, show_quantity, to_decimal
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.measures import TapedSlope
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, Strips, TakeOff, take_off, worked_out
from domain.tone import Tone
from domain.trader import Van
from domain.units import show_mm
from tui.job.survey.survey_fields import LABELS, LENGTHS
from tui.job.survey.survey_reading import read_covering, read_length, read_measures, read_old

_NO_LIMIT = Van()

_NOT_YET = "Not measured yet. What it takes is counted as you type."


@dataclass(frozen=True, slots=True)
class Figure:
    """One thing that was worked out."""

    label: str
    """Empty for a sentence."""
    words: str
    tone: Tone = Tone.PLAIN


@dataclass(frozen=True, slots=True)
class TakeoffAsTyped:
    """The figures of a take-off, and what is to be said beside them, from a survey as typed."""

    figures: tuple[Figure, ...]
    drawing: Drawing | None = None
    """None until the roof is counted."""
    worked_out: Callable[[GoesOn], "TakeoffAsTyped"] | None = None
    """Gives the same by the plan to work by, which takes longer; None if there is nothing more.

    It raises :class:`domain.integer_programme.Stopped` once it is told not to go on.
    """


def work_out(
    values: Mapping[str, str],
    sources: PricesAndStock,
    watch: Watch | None = None,
    slopes: tuple[TapedSlope, ...] = (),
    van: Van = _NO_LIMIT,
    job: Job | None = None,
) -> TakeoffAsTyped:
    """The take-off of the survey as typed, as far as it goes.

    What cannot be worked out yet is told in a quiet sentence: typing may not be finished.
    ``watch`` is told how far the cut plan is, and can stop it. While the roof is as it was quoted
    to the ``job`` it goes by the plans that were kept.
    """
    worked: list[Figure] = []
    try:
        roof = build_roof(read_measures(values, slopes))
        worked += _of_roof(roof)
        covering = read_covering(values)
        if covering is None:
            return TakeoffAsTyped(
                (*worked, Figure("", "Choose the covering to count it.", Tone.QUIET))
            )
        counted = take_off(
            roof,
            as_nailed(covering, sources.nailing),
            packing_for(covering, sources),
            partial(cuts_of, watch=watch),
            plans_of(job, covering.key) if job else None,
        )
        weighed = partial(weigh, sources=sources, old=read_old(values), van=van)
        found = _counted(worked, counted, weighed)
    except Refused as error:
        measured = slopes or any(values[key].strip() for key in (*LENGTHS, "pitch"))
        words = _still_missing(error) if measured else _NOT_YET
        return TakeoffAsTyped((*worked, Figure("", words, Tone.QUIET)))
    if isinstance(counted, FeltTakeOff) or counted.working is not None:
        return found
    more = partial(_by_working_plan, tuple(worked), counted, weighed)
    return replace(found, worked_out=more)


def _by_working_plan(
    of_roof: Sequence[Figure],
    counted: TakeOff,
    weighed: Callable[[TakeOff], Weights],
    goes_on: GoesOn,
) -> TakeoffAsTyped:
    """The figures by the plan to work by; raises :class:`domain.integer_programme.Stopped`."""
    return _counted(of_roof, worked_out(counted, goes_on), weighed)


def _counted(
    of_roof: Sequence[Figure], counted: TakeOff, weighed: Callable[[TakeOff], Weights]
) -> TakeoffAsTyped:
    """What a take-off tells, behind what is told of its roof."""
    own = counted.cautions[len(counted.roof.cautions) :]  # the roof's are told before
    figures = (
        *of_roof,
        *_of_covering(counted),
        *_of_weights(weighed(counted)),
        *(Figure("", caution, Tone.CAUTION) for caution in own),
    )
    return TakeoffAsTyped(figures, draw_roof(counted))


WORKING_OUT = Figure("", "Working out how it is cut and laid …", Tone.QUIET)
"""That there are figures, but not yet by the plan to work by."""


def _still_missing(error: Refused) -> str:
    """What would do, after the label of the field: of an empty one that it is open, no more."""
    label = LABELS.get(error.field, error.words)
    return f"{label}: {error.remedy}" if error.value else f"Still open: {label}. {error.remedy}"


def counting(so_far: tuple[int, int] | None) -> Figure:
    """That the cut plan is being counted: strips of the best found, and how few there can be."""
    words = "Counting the strips"
    if so_far:
        words += f": {so_far[0]} so far, {so_far[1]} at least"
    return Figure("", f"{words} …", Tone.QUIET)


def suspected(values: Mapping[str, str]) -> str:
    """Who to turn to if the old covering as typed may hold asbestos; empty if it is not suspected.

    As the check has it.
    """
    kind, suspicion = values["old_kind"], values["suspicion"]
    old = OldCovering(
        kind=OldKind(kind) if kind else None,
        suspicion=Suspicion(suspicion) if suspicion else None,
        cleared_by=values["cleared_by"],
    )
    return asbestos_stop(old) if old.may_hold_asbestos else ""


def length_note(key: str, text: str) -> str:
    """What a length as typed comes to, to the millimetre.

    Empty if it was typed in millimetres, and while it cannot be read.
    """
    try:
        length = read_length(key, text)
    except Refused:
        return ""
    if length is None or "mm" in text.casefold():
        return ""
    return show_mm(length.mm)


def _of_roof(roof: Roof) -> Iterator[Figure]:
    lengths = _between([slope.length for slope in roof.slopes])
    each = f" × {len(roof.slopes)}" if len(roof.slopes) > 1 else ""
    yield Figure("Slope", f"{lengths}{each}")
    yield Figure("Eaves", _between([slope.eaves for slope in roof.slopes]))
    if roof.pitch is not None:
        yield Figure("Pitch", f"{_tenths(roof.pitch.degrees)}°")
    yield Figure("Area", show_amount(to_decimal(roof.area / 10**6), "m²"))
    for caution in roof.cautions:
        yield Figure("", caution, Tone.CAUTION)


def _between(lengths: Sequence[Fraction]) -> str:
    """One length, or the least and the greatest of several to the millimetre."""
    least, greatest = show_mm(min(lengths)), show_mm(max(lengths))
    return least if least == greatest else f"{least.removesuffix(' mm')} to {greatest}"


def _of_courses(takeoff: ShingleTakeOff) -> Iterator[Figure]:
    """How many, and how far apart where all slopes are alike."""
    first = takeoff.courses[0]
    counts = [courses.count for courses in takeoff.courses]
    if len({(c.count, c.exposure, c.final_exposure) for c in takeoff.courses}) > 1:
        yield Figure("Courses", f"{min(counts)} to {max(counts)} a slope")
        return
    yield Figure("Courses", f"{first.count} at {show_mm(first.exposure)}")
    if first.final_exposure != first.exposure:
        yield Figure("The last", show_mm(first.final_exposure))


def _of_covering(takeoff: TakeOff) -> Iterator[Figure]:
    if isinstance(takeoff, FeltTakeOff):
        yield from _of_felt(takeoff)
    else:
        yield from _of_shingles(takeoff)
    for label, run in (("Valley", takeoff.roof.valley), ("Flashing", takeoff.roof.flashing)):
        if run:
            yield Figure(label, metres(run))


def _of_weights(weights: Weights) -> Iterator[Figure]:
    """What is bought and taken off in kilograms, and what lies on the deck a square metre."""
    bought, old = weights.bought, weights.old
    trips = f", {bought.times} trips" if bought.oversteps else ""
    tone = Tone.CAUTION if bought.oversteps else Tone.PLAIN
    yield Figure("Weight", f"{show_kg(bought.kg)}{trips}", tone)
    if old is not None and old.times is not None:
        yield Figure("Old", f"{show_kg(old.kg)}, {show_amount(Decimal(old.times), 'sack')}")
    now = "" if weights.before is None else f"{_tenths(weights.before)} → "
    yield Figure("Deck load", f"{now}{_tenths(weights.after)} kg/m²")


def _tenths(number: Fraction) -> str:
    return show_quantity(Decimal(half_up(number * 10)) / 10)


def _of_felt(takeoff: FeltTakeOff) -> Iterator[Figure]:
    lay, fixings, packing = takeoff.lay, takeoff.fixings, takeoff.packing
    yield Figure("Rows", f"{lay.lengths.rows}, {metres(lay.lengths.laid)}")
    if lay.capping.rows:
        yield Figure("Capping", metres(lay.capping.laid))
    roll = metres(packing.felt_roll)
    yield Figure("Felt", f"{show_amount(Decimal(lay.rolls), 'roll')} of {roll}", Tone.STRONG)
    yield Figure("Felt nails", f"{fixings.nails:,}")
    yield Figure("Adhesive", f"for {metres(fixings.adhesive)} of lap")


def _of_shingles(takeoff: ShingleTakeOff) -> Iterator[Figure]:
    strips, packing = takeoff.strips, takeoff.packing
    yield from _of_courses(takeoff)
    fewest = takeoff.fewest
    proof = f"perhaps {fewest.bound}"
    if fewest.proven:
        proof = f"fewest {fewest.strips}" if takeoff.over_fewest else "the fewest"
    tone = Tone.GOOD if fewest.proven else Tone.CAUTION
    yield Figure("Cut plan", f"{strips.cut_plan}, {proof}", tone)
    yield Figure("Edges", show_amount(Decimal(strips.edge), "strip"))
    yield Figure("Laid", f"{strips.laid}, {strips.breakage} for breakage")
    if strips.from_stock:
        yield Figure("From stock", f"{strips.from_stock}")
    yield Figure("To buy", show_amount(Decimal(strips.to_buy), "strip"))
    packs = show_amount(Decimal(strips.packs), "pack")
    yield Figure("Packs", f"{packs} of {packing.strips_per_pack}", Tone.STRONG)
    rolls = show_amount(Decimal(takeoff.underlay.rolls), "roll")
    yield Figure("Underlay", f"{rolls} of {metres(packing.underlay.roll)}", Tone.STRONG)
    if strips.saved:  # last: where lines are few, what is bought comes before it
        yield Figure("Row by row", _more(strips))


def _more(strips: Strips) -> str:
    """What cutting each row from new strips would take more: strips, and packs if any."""
    packs = show_amount(Decimal(strips.packs_saved), "pack")
    saved = show_amount(Decimal(strips.saved), "strip")
    return f"+{saved}, +{packs}" if strips.packs_saved else f"+{saved}"
