"""The signs that stand before words, and what each means: the help page tells it from here."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from domain.tone import Tone


class Sign(StrEnum):
    """A sign that never stands for a word alone: words follow it."""

    STOP = "■"
    CAUTION = "▲"
    GOOD = "✓"
    MONEY = "£"
    HERE = "▸"
    CHOSEN = "●"
    NOT_CHOSEN = "○"
    IN_FORCE = "·"
    COMING = "+"
    BEFORE = "–"


MEANINGS: Mapping[Sign, str] = MappingProxyType(
    {
        Sign.STOP: "A stop: it has to be settled before the job can go on, or tonight.",
        Sign.CAUTION: "A caution: look at it. You can go on if you write why.",
        Sign.GOOD: "Done, saved or in order.",
        Sign.MONEY: "In Tonight: money is waiting to be asked for.",
        Sign.HERE: "Where you are: the page, the day or the stage that is shown. In the prices: "
        "the price the next quote uses.",
        Sign.CHOSEN: "In a choice: what is chosen.",
        Sign.NOT_CHOSEN: "In a choice: what could be chosen instead.",
        Sign.IN_FORCE: "In the prices: a current price of another merchant.",
        Sign.COMING: "In the prices: a price from a day to come.",
        Sign.BEFORE: "In the prices: an old price, kept for the quotes made with it.",
    }
)
"""What each means, in the order in which the help page lists them."""

BEFORE_WORDS: Mapping[Tone, str] = MappingProxyType(
    {Tone.STOP: f"{Sign.STOP} ", Tone.CAUTION: f"{Sign.CAUTION} ", Tone.GOOD: f"{Sign.GOOD} "}
)
"""What stands before a sentence of each tone that has a sign."""
