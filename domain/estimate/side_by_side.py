"""Up to three coverings for one roof side by side: what each takes, and what it comes to."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias

from domain.errors import HeadlapError
from domain.estimate.basis import Basis, Hours, Supply, hours_for
from domain.estimate.pricing import basis_for, option_of, quantities_of
from domain.estimate.supplies import Sources, Unpriced, needs_of, supplies_as_packed
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


def side_by_side(
    survey: Survey,
    keys: Iterable[str],
    count: Callable[[CoveringChoice], TakeOff],
    trader: Trader,
    sources: Sources,
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
        return Costed(choice, taken, basis, option_of(basis))

    return tuple(work_out(CoveringChoice(key, colour)) for key in keys)


def _counted(
    choice: CoveringChoice,
    taken: TakeOff,
    survey: Survey,
    trader: Trader,
    sources: Sources,
    why: str,
) -> Counted:
    """All that is known without the price; raises NotNow as :func:`quantities_of` does."""
    supplies = supplies_as_packed(needs_of(taken), choice.colour, sources)
    quantities = quantities_of(taken.roof, survey.old, survey.deck.replace_m)
    hours = hours_for(quantities, trader.rates.labour, supplies[0].material)
    return Counted(choice, taken, supplies, hours, why)
