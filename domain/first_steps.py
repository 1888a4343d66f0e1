"""The first evening: what a quote needs in the book, and how much of it is there."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from domain.coverings.materials import MATERIALS
from domain.estimate.starting_prices import STARTING_WORDS
from domain.estimate.stock import Price
from domain.starting_rates import CHARGES, starting_rates
from domain.trader import Trader


class FirstStep(StrEnum):
    """A thing that is put down once, in this order."""

    WHO = "Who you are"
    CHARGES = "What you charge"
    PRICES = "What your coverings cost"


@dataclass(frozen=True, slots=True)
class StepTaken:
    """How far a step is."""

    step: FirstStep
    done: bool
    words: str
    """What there is of it, or what is still wanted."""
    unsure: bool = False
    """Whether starting figures stand in it."""


def first_steps(trader: Trader, prices: Sequence[Price]) -> tuple[StepTaken, ...]:
    """Return the steps in their order, each with how far it is."""
    return (_who(trader), _charges(trader), _prices(prices))


def _who(trader: Trader) -> StepTaken:
    if trader.heading:
        return StepTaken(FirstStep.WHO, True, trader.heading)
    return StepTaken(FirstStep.WHO, False, "name, address and telephone for your papers")


def _charges(trader: Trader) -> StepTaken:
    left = len(starting_rates(trader.rates).intersection(CHARGES))
    if left:
        return StepTaken(FirstStep.CHARGES, False, _left(left, len(CHARGES)), unsure=True)
    return StepTaken(FirstStep.CHARGES, True, "your own rates")


def _prices(prices: Sequence[Price]) -> StepTaken:
    """Done once every material has a price: a starting one is said to be one, and can wait."""
    newest = {price.material: price for price in sorted(prices, key=lambda p: (p.since, p.id or 0))}
    lacking = len(MATERIALS) - len(newest)
    if lacking:
        words = "merchant and prices, copied down the list"
        if newest:
            words = f"no price yet for {lacking} of {len(MATERIALS)}"
        return StepTaken(FirstStep.PRICES, False, words)
    starting = sum(price.starting for price in newest.values())
    if starting:
        return StepTaken(FirstStep.PRICES, True, _left(starting, len(MATERIALS)), unsure=True)
    return StepTaken(FirstStep.PRICES, True, "your own prices")


def _left(starting: int, of: int) -> str:
    return f"{starting} of {of}: {STARTING_WORDS}"
