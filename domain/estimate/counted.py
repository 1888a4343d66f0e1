"""The take-off of a job: its survey, in the packs of the prices, less what lies in the store."""

from dataclasses import replace
from fractions import Fraction

from domain.errors import NotNow
from domain.estimate.stock import Material
from domain.estimate.supplies import Sources
from domain.job import CoveringChoice, Job
from domain.setting_out.coverings import SHINGLES
from domain.setting_out.roof import build_roof
from domain.takeoff.take_off import Packing, TakeOff, take_off
from domain.takeoff.underlay import Underlay


def takeoff_of(job: Job, sources: Sources) -> TakeOff:
    """Count what the roof on record takes; the cut plan takes a solver's time.

    Raises :class:`NotNow` without a survey or a covering, :class:`Refused` for a measure that will
    not do.
    """
    chosen = job.survey.covering if job.survey else None
    if job.survey is None or chosen is None:
        raise NotNow("There is nothing to count yet: write up the survey and choose the covering.")
    roof = build_roof(job.survey.measures)
    return take_off(roof, SHINGLES[chosen.key], packing_for(chosen, sources))


def packing_for(covering: CoveringChoice, sources: Sources) -> Packing:
    """How the prices say it is packed, as usual where there is no price; less the loose strips.

    Raises :class:`Refused` for a roll too short to lay.
    """
    material, usual = Material(covering.key), Packing()
    strips = sources.price(material, covering.colour)
    roll = sources.price(Material.UNDERLAY, "")
    return replace(
        usual,
        strips_per_pack=max(1, int(strips.per_pack)) if strips else usual.strips_per_pack,
        underlay=Underlay(roll=Fraction(roll.per_pack) * 1000) if roll else usual.underlay,
        loose_strips=int(sources.held(material, covering.colour)),
    )
