"""The take-off of a job: its survey, in the packs of the prices, less what lies in stock."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from domain.coverings.felt import Felt
from domain.coverings.materials import Material
from domain.coverings.reaching import reaching
from domain.coverings.registry import COVERINGS, Covering
from domain.cutting.plans import Plans
from domain.cutting.remembered import cuts_of
from domain.errors import NotNow
from domain.estimate.basis import Supply
from domain.estimate.kept_plans import plans_of
from domain.estimate.nails_chosen import sources_on
from domain.estimate.pricing import needs_on
from domain.estimate.supplies import PricesAndStock, known_supplies, needs_of
from domain.integer_programme import GoesOn, Stopped, always
from domain.job import CoveringChoice, Deck, Job, Survey
from domain.setting_out.forms.roof import build_roof
from domain.takeoff.fixings import NailBoxes
from domain.takeoff.nail_length import nail_cautions
from domain.takeoff.packing import Packing, usual_packing
from domain.takeoff.rolls import UNDERLAY
from domain.takeoff.roof_takeoff import PlanCuts, TakeOff, take_off, worked_out
from domain.trader import Nailing


def takeoff_of(job: Job, sources: PricesAndStock) -> TakeOff:
    """Count what the recorded roof takes, in the covering of its survey.

    While the roof is as it was quoted it goes by the plans that were kept with the quote. Raises
    :class:`NotNow` without a survey or a covering, and where that is another than the customer
    accepted; :class:`Refused` for a measure that is not valid.
    """
    chosen = job.survey.covering if job.survey else None
    if job.survey is None or chosen is None:
        raise NotNow("Nothing to count yet: fill in the survey and choose the covering.")
    taken = job.quote.accepted if job.quote else None
    if taken is not None and taken.covering != chosen.key:
        agreed, now = (COVERINGS[key].words for key in (taken.covering, chosen.key))
        raise NotNow(
            f"The customer accepted {agreed} but the survey says {now}: choose {agreed} "
            "there again, or send a new version and have it accepted."
        )
    return takeoff_in(chosen, job.survey, sources, kept=plans_of(job, chosen.key))


def takeoff_in(
    covering: CoveringChoice,
    survey: Survey,
    sources: PricesAndStock,
    plan_cuts: PlanCuts = cuts_of,
    kept: Plans | None = None,
    goes_on: GoesOn = always,
) -> TakeOff:
    """Count what a surveyed roof takes in any covering, by the plan to work by.

    It goes by the plans that were ``kept`` if they are of this roof, else takes a solver's time:
    once ``goes_on`` says no, it is counted by the fewest strips. Raises :class:`Refused` for a
    measure that is not valid.
    """
    own = fewest_in(covering, survey, sources, plan_cuts, kept)
    counted = with_nails_checked(own, survey.deck, sources.nailing)
    try:
        return worked_out(counted, goes_on)
    except Stopped:
        return counted


def fewest_in(
    covering: CoveringChoice,
    survey: Survey,
    sources: PricesAndStock,
    plan_cuts: PlanCuts = cuts_of,
    kept: Plans | None = None,
) -> TakeOff:
    """As :func:`takeoff_in`, by the fewest strips; its nails are not held against the deck."""
    roof, sources = build_roof(survey.measures), sources_on(survey, sources)
    own = reaching(as_nailed(covering, sources.nailing), survey.edges.past_edge)
    return take_off(roof, own, packing_for(covering, sources), plan_cuts, kept)


def as_nailed(covering: CoveringChoice, nailing: Nailing) -> Covering:
    """Return the covering as this trader nails it."""
    chosen = COVERINGS[covering.key]
    if isinstance(chosen, Felt):
        return chosen
    return replace(chosen, edge_nail_centres=Fraction(nailing.edge_centres))


def with_nails_checked(takeoff: TakeOff, deck: Deck, nailing: Nailing) -> TakeOff:
    """Return the take-off with what is to be said of its nails in a deck."""
    thick = deck.thickness
    if thick is None or thick.mm <= 0:
        return takeoff
    length, chosen = deck.nail_mm or nailing.shingle_nail, deck.nail_mm is not None
    covering, felt = takeoff.covering, nailing.felt_nail
    said = nail_cautions(covering, thick.mm, length, felt, chosen=chosen)
    return replace(takeoff, cautions=takeoff.cautions + said)


def supplied(job: Job, takeoff: TakeOff, sources: PricesAndStock) -> Mapping[Material, Supply]:
    """What stock gives and what is bought for a job's roof, of what has a price."""
    if job.survey is None:
        return known_supplies(needs_of(takeoff), "", sources)
    chosen = job.survey.covering
    needs, sources = needs_on(takeoff, job.survey), sources_on(job.survey, sources)
    return known_supplies(needs, chosen.colour if chosen else "", sources)


def packing_for(covering: CoveringChoice, sources: PricesAndStock) -> Packing:
    """Return how the covering and what it takes are packed by the prices, else as usual.

    Of shingles it says too how many loose strips are in stock. Mastic comes by the cartridge.

    Raises :class:`Refused` for a roll too short to lay.
    """
    usual = usual_packing(COVERINGS[covering.key])
    if isinstance(COVERINGS[covering.key], Felt):
        return _packing_of_felt(covering, usual, sources)
    material = Material(covering.key)
    strips = sources.price(material, covering.colour)
    roll = sources.price(Material.UNDERLAY, "")
    return replace(
        usual,
        nail_boxes=_nail_boxes(sources),
        strips_per_pack=max(1, int(strips.per_pack)) if strips else usual.strips_per_pack,
        underlay=replace(UNDERLAY, roll=Fraction(roll.per_pack) * 1000) if roll else usual.underlay,
        loose_strips=int(sources.held(material, covering.colour)),
    )


def _packing_of_felt(covering: CoveringChoice, usual: Packing, sources: PricesAndStock) -> Packing:
    """Return how felt is packed by the prices: the length of a roll, the lap that a tin sticks."""
    roll = sources.price(Material(covering.key), covering.colour)
    tin = sources.price(Material.ADHESIVE, "")
    return replace(
        usual,
        nail_boxes=_nail_boxes(sources),
        felt_roll=Fraction(roll.per_pack) * 1000 if roll else usual.felt_roll,
        adhesive_tin=Fraction(tin.per_pack) * 1000 if tin else usual.adhesive_tin,
    )


def _nail_boxes(sources: PricesAndStock) -> NailBoxes:
    """Return how many nails a box of each kind holds by its price, or as usual without one."""
    usual = NailBoxes()
    both = (Material.SHINGLE_NAILS, Material.FELT_NAILS)
    shingle, felt = (sources.price(m, sources.sort_of(m, "")) for m in both)
    return NailBoxes(
        shingle=max(1, int(shingle.per_pack)) if shingle else usual.shingle,
        felt=max(1, int(felt.per_pack)) if felt else usual.felt,
    )
