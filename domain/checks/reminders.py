"""Reminders about safety, by the stage that is about to be reached: shown where the work happens.

General knowledge of the trade and the titles of public regulations (known from memory unless a
source is named); no substitute for any of them, and each list ends by saying so.
"""

from collections.abc import Mapping
from types import MappingProxyType

from domain.job import Stage

FIRST = (
    "Reminders only: the law, local rules, the maker's instructions and licensed people come first."
)
"""Ends every list of reminders."""

_HEIGHT = (
    "Working at height: stay off if you can; if not, stop yourself falling (Work "
    "at Height Regulations 2005)."
)
_FRAGILE = "Fragile roof: treat every old roof as fragile until you know it is sound; stay off it."
# HSE / Ladder Association LA455, quoted: one out for four up.
_LADDER = "Ladder: firm ground, 1 out for every 4 up, tied or held, three points of contact."
_ASBESTOS = (
    "Asbestos: may be in cement sheet, and in old felt, shingles and mastic. If in "
    "doubt leave it alone and get it tested."
)
# HSE, construction FAQ on work at height, quoted: over 23 mph affects balance.
_WIND = "Wind: come off the roof above 23 mph, sooner in gusts; a loose sheet acts like a sail."
_CUTTING = "Cutting: cut away from you, on a board; guard hook blades; wear glasses and gloves."
_LIFTING = "Lifting: packs are heavy; split packs; do not carry them up a ladder on your shoulder."
_PLAN = "Construction phase plan: write one, even for a householder (CDM 2015)."
_FLAME = "No flame: no torch on or near a timber roof, even in the cold."

_IN_SHORT = (
    "Fragile: treat every old roof as fragile, stay off. Asbestos: if in doubt, get it tested.",
    "Height: stop yourself falling. Ladder: 1 out for 4 up, tied or held. Wind: off above 23 mph.",
    "Cut away from you, on a board; gloves, glasses. Lift split packs, no pack up a ladder alone.",
    "No flame on a timber roof, even in the cold. Write a construction phase plan (CDM 2015).",
)
"""Those of stripping and laying for paper: read at arm's length, two to a line."""

REMINDERS: Mapping[Stage, tuple[str, ...]] = MappingProxyType(
    {
        Stage.ENQUIRY: (),
        Stage.SURVEY: (),
        Stage.QUOTED: (_LADDER, _FRAGILE, _ASBESTOS, FIRST),
        Stage.BOOKED: (_PLAN, FIRST),
        Stage.STRIPPED: (_HEIGHT, _FRAGILE, _LADDER, _WIND, _ASBESTOS, _CUTTING, _LIFTING, FIRST),
        Stage.LAID: (_HEIGHT, _LADDER, _WIND, _CUTTING, _LIFTING, _FLAME, FIRST),
        Stage.SIGNED_OFF: (_HEIGHT, _LADDER, FIRST),
    }
)
"""By the stage a job reaches next; nobody is on a roof before the visit."""


def reminders_on_the_roof(found: str) -> tuple[str, ...]:
    """Those of the paper that goes up the ladder: at most six, what was ``found`` here first."""
    return (*[found] * bool(found), *_IN_SHORT, FIRST)
