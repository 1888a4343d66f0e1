"""Which end of a ridge is sheltered: ridge pieces and capping begin there.

So every piece laps over the one before it towards the wind, and the open ends lie away from it;
common practice, as is that the wind in Britain mostly comes from the south-west.
"""

from domain.errors import Refused

WINDS = (
    "north",
    "north-east",
    "east",
    "south-east",
    "south",
    "south-west",
    "west",
    "north-west",
)
"""Where a wind can come from, clockwise."""
MOSTLY = "south-west"
"""Where it comes from unless the survey says otherwise."""

_SHORT = {"".join(part[0] for part in each.split("-")): each for each in WINDS}


def read_wind(field: str, text: str) -> str:
    """A wind as one word: ``south-west``, ``South West``, ``SW``, ``south-westerly``; empty stays.

    Raises :class:`Refused` for anything else.
    """
    plain = "-".join(text.casefold().replace("-", " ").split()).removesuffix("erly")
    plain = plain.replace("northe", "north-e").replace("northw", "north-w")
    plain = plain.replace("southe", "south-e").replace("southw", "south-w")
    found = _SHORT.get(plain, plain)
    if found and found not in WINDS:
        raise Refused(field, text, "Say where it blows from, such as south-west or SW.")
    return found


def sheltered_end(wind: str) -> str:
    """The end away from a wind; from the south-west where it is empty."""
    return WINDS[(WINDS.index(wind or MOSTLY) + len(WINDS) // 2) % len(WINDS)]


def ridge_begins(wind: str) -> str:
    """Where ridge pieces and capping begin, in a sentence for the sheet's ridge line."""
    blows = wind or MOSTLY
    return f"Begin at the sheltered end: {sheltered_end(wind)}, as the wind is {blows}erly."
