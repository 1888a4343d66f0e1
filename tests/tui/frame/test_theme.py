"""The colours: each can be read on the grounds it stands on, and each means one thing."""

import pytest
from textual.color import Color

from tui.frame.theme import DAY, EVENING, Palette

TEXT = (
    "ink",
    "quiet",
    "verdigris",
    "brick",
    "timber",
    "moss",
    "slate",
    "heather",
    "caution",
    "stop",
)


def _luminance(colour: Color) -> float:
    """Relative luminance. Source: WCAG 2.2, "relative luminance", as quoted from memory."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.normalized]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def _contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours. Source: WCAG 2.2, success criterion 1.4.3, from memory."""
    light, dark = sorted((_luminance(Color.parse(c)) for c in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("palette", [EVENING, DAY], ids=["evening", "day"])
@pytest.mark.parametrize("name", TEXT)
def test_every_colour_can_be_read_on_ground_and_panel(palette: Palette, name: str) -> None:
    colour = getattr(palette, name)
    assert min(_contrast(colour, palette.ground), _contrast(colour, palette.panel)) >= 4.5


@pytest.mark.parametrize("palette", [EVENING, DAY], ids=["evening", "day"])
def test_no_two_colours_are_one(palette: Palette) -> None:
    colours = [getattr(palette, name) for name in TEXT]
    assert len(set(colours)) == len(TEXT)
