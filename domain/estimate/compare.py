"""Coverings for one roof side by side: what each takes, what it comes to, and which are offered."""

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from typing import TypeAlias

from domain.coverings.registry import COVERINGS
from domain.cutting.plan import TIME_LIMIT_S
from domain.cutting.remembered import cuts_of
from domain.errors import HeadlapError, NotNow
from domain.estimate.basis import Hours, PricingBasis, Supply, hours_for
from domain.estimate.job_takeoff import takeoff_in
from domain.estimate.kept_plans import plans_to_keep
from domain.estimate.nails_chosen import sources_on
from domain.estimate.pricing import basis_for, needs_on, option_of, surveyed_quantities
from domain.estimate.quoting import basis_of, offer, offered
from domain.estimate.supplies import PricesAndStock, Unpriced, supplies_as_packed
from domain.integer_programme import GoesOn, always
from domain.job import CoveringChoice, Job, Option, Quote, Survey
from domain.takeoff.roof_takeoff import TakeOff
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Costed:
    """A covering that suits the roof and has its prices."""

    choice: CoveringChoice
    take_off: TakeOff
    basis: PricingBasis
    option: Option
    """As it would stand in a quote of today."""


@dataclass(frozen=True, slots=True)
class Counted:
    """A covering that suits the roof, but something that it takes has no price."""

    choice: CoveringChoice
    take_off: TakeOff
    supplies: tuple[Supply, ...]
    """Packed as usual where there is no price; their money is not to be read."""
    hours: Hours
    why: str
    """One sentence: what has no price, and where to give it."""


@dataclass(frozen=True, slots=True)
class Unsuited:
    """A covering that cannot be offered."""

    choice: CoveringChoice
    why: str
    """One sentence."""


Compared: TypeAlias = Costed | Counted | Unsuited


def compare(
    job: Job, trader: Trader, sources: PricesAndStock, goes_on: GoesOn = always
) -> tuple[Compared, ...]:
    """Work the roof of the survey out in each covering, with the miles of the newest quote.

    ``goes_on`` can stop it; the cut plans of the fewest strips share the time of one, which is a
    solver's: not to be called on a thread that draws.

    Raises :class:`NotNow` before the survey, :class:`domain.errors.Refused` for a roof that cannot
    be drawn.
    """
    survey = job.survey
    if survey is None:
        raise NotNow("No roof to compare coverings on yet: fill in the survey.")
    each = TIME_LIMIT_S / len(COVERINGS)
    plan = partial(cuts_of, time_limit_s=each, watch=lambda *_: goes_on())

    def count(choice: CoveringChoice) -> TakeOff:
        return takeoff_in(choice, survey, sources, plan, goes_on=goes_on)

    return side_by_side(survey, COVERINGS, count, trader, sources, miles_of(job))


def miles_of(job: Job) -> Decimal:
    """Return miles there and back, a day, of the newest quote; 0 before there is one."""
    basis = basis_of(job.quotes[-1]) if job.quotes else None
    return basis.miles if basis else Decimal(0)


def keys_beside(job: Job) -> set[str]:
    """Return the keys of what the newest quote offers beside the survey's own covering."""
    own = job.survey.covering if job.survey else None
    return {choice.key for choice in offered(own, job.quotes)[1:]} if own else set()


def draft_of(
    job: Job,
    coverings: Sequence[Compared],
    beside: Collection[str],
    trader: Trader,
    today: date,
) -> Quote:
    """Draft a quote of ``beside`` and the survey's own covering, its deposit the newest quote's.

    What cannot be offered any more beside the survey's own is left out. Raises :class:`NotNow`
    before there is a quote with the miles, and where the survey has no covering or one that cannot
    be offered; :class:`domain.errors.Refused` for a deposit over the least of them.
    """
    own = job.survey.covering if job.survey else None
    if own is None:
        raise NotNow("The survey has no covering yet: choose the one that the quote starts with.")
    if not job.quotes:
        raise NotNow("No mileage entered yet: price it on the quote page first.")
    for each in coverings:
        if each.choice.key == own.key and not isinstance(each, Costed):
            raise NotNow(each.why)
    costed = [each for each in coverings if isinstance(each, Costed)]
    options = [each.option for each in costed if each.choice.key in {own.key, *beside}]
    return offer(job, options, trader, today, job.quotes[-1].deposit)


def side_by_side(
    survey: Survey,
    keys: Iterable[str],
    count: Callable[[CoveringChoice], TakeOff],
    trader: Trader,
    sources: PricesAndStock,
    miles: Decimal,
) -> tuple[Compared, ...]:
    """Work a roof out in each covering of ``keys``, in the colour of the survey.

    ``count`` takes it off in one covering; ``miles`` are there and back, a day. A covering that the
    roof refuses says so and hides none of the others; one without a price has all but its money.
    """
    colour = survey.covering.colour if survey.covering else ""

    def work_out(choice: CoveringChoice) -> Compared:
        try:
            taken = count(choice)
            try:
                basis = basis_for(taken, survey, trader, sources, miles)
            except Unpriced as error:
                return _counted(choice, taken, survey, trader, sources, str(error))
        except HeadlapError as error:
            return Unsuited(choice, str(error))
        return Costed(choice, taken, basis, option_of(basis, plans_to_keep(taken, sources.today)))

    return tuple(work_out(CoveringChoice(key, colour)) for key in keys)


def _counted(
    choice: CoveringChoice,
    taken: TakeOff,
    survey: Survey,
    trader: Trader,
    sources: PricesAndStock,
    why: str,
) -> Counted:
    """Return all that is known without the price.

    Raises :class:`NotNow` while the old covering is not described.
    """
    supplies = supplies_as_packed(
        needs_on(taken, survey), choice.colour, sources_on(survey, sources)
    )
    quantities = surveyed_quantities(taken.roof, survey)
    hours = hours_for(quantities, trader.rates.labour, supplies[0].material)
    return Counted(choice, taken, supplies, hours, why)
