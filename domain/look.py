"""How the papers that customers see are made the trader's own: one colour, and a picture."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from domain.errors import Refused

LEAST_CONTRAST: Final = 4.5
"""To one against white paper, to be read in small print (WCAG 2.2, 1.4.3; from memory)."""

COLOURS: Mapping[str, str] = MappingProxyType(
    {
        "black": "#000000",
        "grey": "#595959",
        "slate": "#3f5565",
        "navy": "#14285a",
        "blue": "#1f4fa3",
        "light blue": "#7fb2e5",
        "teal": "#0f6a6a",
        "green": "#1f7a3a",
        "dark green": "#1b4d2b",
        "olive": "#5f6320",
        "yellow": "#e6c200",
        "gold": "#c9a227",
        "orange": "#e07b1a",
        "rust": "#9c4a1e",
        "brown": "#6b4423",
        "red": "#b3261e",
        "maroon": "#7a1f2b",
        "pink": "#d6628f",
        "purple": "#5e3a87",
        "white": "#ffffff",
    }
)
"""Colours by the names people say; one that is too pale is refused with a darker one."""

_HEX = re.compile(r"#?([0-9a-f]{6})")


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as it was found in a file."""

    name: str
    """What the file was called."""
    content: bytes

    @property
    def key(self) -> str:
        """What it is kept by: the same for the same content, whatever the file was called."""
        from hashlib import sha256  # the first screen reads a look, and never a picture

        return sha256(self.content).hexdigest()


@dataclass(frozen=True, slots=True)
class Look:
    """What makes a customer's papers the trader's own. Empty: black, and no picture."""

    colour: str = ""
    """"#rrggbb", dark enough to be read on white."""
    logo: str = ""
    """The key of a picture that the book keeps."""
    logo_name: str = ""
    """What its file was called."""


def read_colour(field: str, text: str) -> str:
    """A colour as ``#rrggbb``, given so or by its name; nothing for nothing.

    Raises :class:`Refused` for what is no colour, and for one too pale for white paper, with a
    darker one that would do.
    """
    typed = " ".join(text.lower().split())
    if not typed:
        return ""
    found = _HEX.fullmatch(COLOURS.get(typed, typed))
    if found is None:
        raise Refused(field, text, "Give a name such as navy or dark green, or #1f4e79.")
    colour = f"#{found[1]}"
    if contrast_on_white(colour) < LEAST_CONTRAST:
        remedy = f"Too pale to read on white paper: give a darker one, such as {_darker(colour)}."
        raise Refused(field, text, remedy)
    return colour


def colour_words(colour: str) -> str:
    """What a colour is called, or ``#rrggbb`` where it has no name here."""
    return next((name for name, known in COLOURS.items() if known == colour), colour)


def contrast_on_white(colour: str) -> float:
    """How a colour ``#rrggbb`` stands out on white, from 1 to 21 (WCAG 2.2; from memory)."""
    red, green, blue = (_linear(channel / 255) for channel in _channels(colour))
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def _darker(colour: str) -> str:
    """The same colour with as much black in it as it takes to be read."""
    channels = _channels(colour)
    shades = (
        "#" + "".join(f"{channel * part // 100:02x}" for channel in channels)
        for part in range(99, -1, -1)
    )
    return next(shade for shade in shades if contrast_on_white(shade) >= LEAST_CONTRAST)


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _linear(channel: float) -> float:
    """How much light a channel gives, of 0 to 1 as a screen is told it."""
    return float(channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4)
