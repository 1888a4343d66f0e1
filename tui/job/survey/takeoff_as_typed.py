"""What follows from a survey as it is being typed: the figures of the take-off, and the stop.

Pure, but the cut plan takes a solver's time: not to be asked for on the thread that draws.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import partial

from domain.checks.safe_to_strip import asbestos_stop
from domain.coverings.reaching import reaching
from domain.coverings.registry import COVERINGS
from domain.coverings.square_butt import SQUARE_BUTT
from domain.cutting.plan import Watch
from domain.cutting.remembered import cuts_of
from domain.drawing.draw_roof import draw_roof
from domain.drawing.drawing_parts import Drawing, DrawnSlope
from domain.drawing.sketch import sketched
from domain.errors import NotNow, Refused
from domain.estimate.job_takeoff import fewest_in
from domain.estimate.kept_plans import plans_of
from domain.estimate.rough_price import Rough, rough_from, rough_of
from domain.estimate.supplies import PricesAndStock, needs_of
from domain.estimate.weights import Weights, show_kg, weigh
from domain.exact import half_up
from domain.integer_programme import GoesOn
from domain.job import Job, Survey
from domain.money import show_money
from domain.papers.shared_parts import metres
from domain.quantity import show_amount, show_quantity, to_decimal
from domain.setting_out.flat_slopes import Roof
from domain.setting_out.forms.roof import build_roof
from domain.setting_out.measures import TapedSlope
from domain.takeoff.felt_takeoff import FeltTakeOff
from domain.takeoff.roof_takeoff import ShingleTakeOff, Strips, TakeOff, worked_out
from domain.tone import Tone
from domain.trader import Trader
from domain.units import show_mm
from tui.job.survey.survey_fields import LABELS, LENGTHS
from tui.job.survey.survey_reading import as_far_as_typed, read_covering, read_length, read_old

_NOT_YET = "Not measured yet. The roof and what it takes stand here as you type."
_CUTS_TO_COME = "Working out the cuts …"
USUAL = SQUARE_BUTT
"""What a roof is reckoned in roughly until a covering is chosen."""


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
    slopes: tuple[DrawnSlope, ...] = ()
    """The roof to scale; none until it is measured."""
    drawing: Drawing | None = None
    """None until the roof is counted."""
    worked_out: Callable[[GoesOn], "TakeoffAsTyped"] | None = None
    """Gives the same by the plan to work by, which takes longer; None if there is nothing more.

    It raises :class:`domain.integer_programme.Stopped` once it is told not to go on.
    """


def at_once(
    values: Mapping[str, str],
    sources: PricesAndStock | None,
    trader: Trader,
    slopes: tuple[TapedSlope, ...] = (),
) -> TakeoffAsTyped:
    """The roof as typed, to scale, and roughly what it takes, by its area: quick enough for a key.

    While no covering is chosen it is reckoned in the usual one, and says so. Without ``sources`` no
    price is told.
    """
    try:
        survey = as_far_as_typed(values, slopes, sources.today if sources else date.min)
        roof = build_roof(survey.measures)
    except Refused as error:
        return TakeoffAsTyped((_open(error, values, slopes),))
    told = tuple(_of_roof(roof))
    chosen = survey.covering
    covering = reaching(COVERINGS[chosen.key if chosen else USUAL.key], survey.edges.past_edge)
    worked_out = (Figure("", _CUTS_TO_COME, Tone.QUIET),) if chosen else ()
    drawn = sketched(roof, covering if chosen else None)
    try:
        rough = rough_of(roof, covering, survey, trader, sources) if sources else None
    except Refused as error:
        return TakeoffAsTyped((_open(error, values, slopes), *told), drawn)
    except NotNow as error:
        return TakeoffAsTyped((Figure("", str(error), Tone.QUIET), *told), drawn)
    figures = _roughly(rough, "" if chosen else f" if {USUAL.name}") if rough else ()
    return TakeoffAsTyped((*figures, *worked_out, *told), drawn)


def _roughly(rough: Rough, unless: str) -> tuple[Figure, ...]:
    packs = show_amount(Decimal(rough.packs), rough.covering.pack_word)
    price = show_money(rough.gross).removesuffix(".00")
    unsure = (Figure("", "from starting figures", Tone.CAUTION),) if rough.starting else ()
    return (
        Figure("Price", f"about {price}{unless}", Tone.STRONG),
        *unsure,
        Figure("Packs", f"about {packs}", Tone.STRONG),
    )


def work_out(
    values: Mapping[str, str],
    sources: PricesAndStock,
    trader: Trader,
    watch: Watch | None = None,
    slopes: tuple[TapedSlope, ...] = (),
    job: Job | None = None,
) -> TakeoffAsTyped:
    """The take-off of the survey as typed, as far as it goes.

    What cannot be worked out yet is told in a quiet sentence: typing may not be finished.
    ``watch`` is told how far the cut plan is, and can stop it. While the roof is as it was quoted
    to the ``job`` it goes by the plans that were kept.
    """
    first = at_once(values, sources, trader, slopes)
    covering = read_covering(values)
    if covering is None or not first.slopes:
        return first
    try:
        survey = as_far_as_typed(values, slopes, sources.today)
        kept = plans_of(job, covering.key) if job else None
        counted = fewest_in(covering, survey, sources, partial(cuts_of, watch=watch), kept)
    except Refused as error:
        worked = (_open(error, values, slopes), *_of_roof(build_roof(survey.measures)))
        return TakeoffAsTyped(worked, first.slopes)
    told = partial(_told, survey=survey, sources=sources, trader=trader)
    if isinstance(counted, FeltTakeOff) or counted.working is not None:
        return told(counted)
    return replace(told(counted), worked_out=lambda goes_on: told(worked_out(counted, goes_on)))


def _told(
    counted: TakeOff, survey: Survey, sources: PricesAndStock, trader: Trader
) -> TakeoffAsTyped:
    drawing = draw_roof(counted)
    figures = tuple(_counted(counted, survey, sources, trader))
    return TakeoffAsTyped(figures, drawing.slopes, drawing)


WORKING_OUT = Figure("", "Working out how it is cut and laid …", Tone.QUIET)
"""That there are figures, but not yet by the plan to work by."""


def _counted(
    counted: TakeOff, survey: Survey, sources: PricesAndStock, trader: Trader
) -> Iterator[Figure]:
    """All that the roof takes: what is bought first, so that it stands where lines are few."""
    try:
        rough = rough_from(counted.roof, needs_of(counted), trader, sources, survey)
        yield _roughly(rough, "")[0]
    except NotNow as error:
        yield Figure("", str(error), Tone.QUIET)
    told = list(_of_covering(counted))
    yield from (figure for figure in told if figure.tone is Tone.STRONG)
    yield from _of_roof(counted.roof)
    own = counted.cautions[len(counted.roof.cautions) :]  # the roof's are said with its sizes
    yield from (Figure("", caution, Tone.CAUTION) for caution in own)
    yield from (figure for figure in told if figure.tone is not Tone.STRONG)
    yield from _of_weights(weigh(counted, sources, survey.old, trader.van))


def _open(error: Refused, values: Mapping[str, str], slopes: tuple[TapedSlope, ...]) -> Figure:
    measured = slopes or any(values[key].strip() for key in (*LENGTHS, "pitch"))
    return Figure("", _still_missing(error) if measured else _NOT_YET, Tone.QUIET)


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


def suspected(values: Mapping[str, str], today: date) -> str:
    """Who to turn to if the old covering as typed may hold asbestos; empty if it is not suspected.

    As the check has it.
    """
    try:
        old = read_old(values, today)
    except Refused:  # a date that is still being typed clears nothing
        old = read_old({**values, "layers": "", "tested_on": "", "removed_on": ""}, today)
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
    if not fewest.proven:
        proof, tone = f"perhaps {fewest.bound}", Tone.CAUTION
    elif takeoff.over_fewest:
        proof, tone = f"fewest {fewest.strips}", Tone.PLAIN
    else:
        proof, tone = "the fewest", Tone.GOOD
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
