"""The words of a survey file: what is meant by one that is not quite right, and where it breaks."""

import re
from collections.abc import Collection, Mapping, Sequence
from difflib import get_close_matches
from types import MappingProxyType

from domain.coverings.registry import COVERINGS
from domain.errors import Refused

_MEANT: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "covering": ("material", "shingle", "shingles", "tiles", "roofing"),
        "strips_per_pack": ("pack", "pack size", "per pack", "bundle", "strips"),
        "underlay_roll": ("underlay", "membrane"),
        "felt_roll": ("roll", "felt", "roll length"),
        "past_edge": ("drip", "edge", "projection"),
        "form": ("type", "shape", "kind", "style", "roof type"),
        "length": ("long", "ridge", "ridge length", "building length"),
        "span": ("width", "wide", "depth", "across", "breadth"),
        "rise": ("height", "high"),
        "pitch": ("angle", "slope angle", "degrees", "fall"),
        "slope_length": ("rafter", "rafter length", "up the slope", "slope"),
        "eaves_overhang": ("overhang", "soffit"),
        "verge_overhang": ("gable overhang", "gable"),
        "sides": ("number of sides", "corners"),
        "side": ("side length",),
        "eaves": ("bottom", "lower edge", "width"),
        "top": ("upper edge", "ridge"),
        "finish": ("top finish", "at the top"),
        "left_edge": ("left",),
        "right_edge": ("right",),
    }
)
"""What people call a measure, beside the word of its key."""
_AT_LINE = re.compile(r"\(at line (\d+), column \d+\)")
_TWICE = re.compile(r"overwrite|declare|twice|already|mutate", re.I)
_MOST_SHOWN = 60  # characters of a line


def nearest_key(key: str, known: Collection[str], elsewhere: Collection[str]) -> str:
    """The right key that is nearest to a wrong one: by meaning, else by spelling."""
    plain = _plain(key).replace("-", " ")
    for right, others in _MEANT.items():
        if plain in others and right in known:
            return right
    for right, others in _MEANT.items():
        if plain in others and right in elsewhere:
            return right
    return get_close_matches(key, (*known, *elsewhere), n=1, cutoff=0)[0]


def chosen(value: str, choices: Sequence[str]) -> str | None:
    """The choice that a word means, as keys or as the screen writes it: "Square butt"."""
    plain = _plain(value)
    found = next((choice for choice in choices if _plain(choice) == plain), None)
    if found is not None:
        return found
    by_name = (c for c in choices if c in COVERINGS and plain in _names(c))
    return next(by_name, None)


def not_toml(text: str, told: str) -> Refused:
    """What is wrong with a file that cannot be read, by the line that it was found in."""
    lines = text.splitlines() or [""]
    at = _AT_LINE.search(told)
    number = min(int(at[1]) if at else len(lines), len(lines))
    line = lines[number - 1].strip()[:_MOST_SHOWN]
    if _TWICE.search(told):
        remedy = "It is given twice: leave one of the two out."
    else:
        remedy = (
            'Write it as span = "2.4 m" is written, with the quotation marks; a heading stands in '
            "brackets, as [roof] does."
        )
    return Refused(f"survey file, line {number}", line, remedy)


def _plain(word: str) -> str:
    """A word however it is joined and capitalised."""
    return re.sub(r"[\s_-]+", "-", word.strip().casefold())


def _names(key: str) -> tuple[str, ...]:
    """What a covering is called on the screen."""
    return _plain(COVERINGS[key].name), _plain(COVERINGS[key].words)
