"""Up to three coverings for one roof side by side: what each takes, and what it comes to."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal

from domain.errors import HeadlapError
from domain.estimate.basis import Basis
from domain.estimate.pricing import basis_for, option_of
from domain.estimate.supplies import Sources
from domain.job import CoveringChoice, Option, Survey
from domain.takeoff.take_off import TakeOff
from domain.trader import Trader


@dataclass(frozen=True, slots=True)
class Costed:
    """A covering that suits the roof and has its prices."""

    choice: CoveringChoice
    take_off: TakeOff
    basis: Basis
    option: Option
    """As it would stand in a quote of today."""


@dataclass(frozen=True, slots=True)
class Unsuited:
    """A covering that cannot be offered."""

    choice: CoveringChoice
    why: str
    """One sentence."""


def side_by_side(
    survey: Survey,
    keys: Iterable[str],
    count: Callable[[CoveringChoice], TakeOff],
    trader: Trader,
    sources: Sources,
    miles: Decimal,
) -> tuple[Costed | Unsuited, ...]:
    """Work a roof out in each covering of ``keys``, in the colour of the survey.

    ``count`` takes it off in one covering; ``miles`` are there and back, a day. A covering that the
    roof refuses, or that has no price, says so and hides none of the others.
    """
    colour = survey.covering.colour if survey.covering else ""
    worked: list[Costed | Unsuited] = []
    for key in keys:
        choice = CoveringChoice(key, colour)
        try:
            taken = count(choice)
            basis = basis_for(taken, survey, trader, sources, miles)
        except HeadlapError as error:
            worked.append(Unsuited(choice, str(error)))
        else:
            worked.append(Costed(choice, taken, basis, option_of(basis)))
    return tuple(worked)
