"""The colours, evening and day: wet slate and lime wash, one accent, verdigris.

Contrast of every colour on ground and panel is at least 4.5 : 1. Colour never speaks alone:
a word and a sign stand beside it, so that nothing is lost under NO_COLOR.
"""

from typing import NamedTuple

from textual.theme import Theme

from domain.tone import Tone


class Palette(NamedTuple):
    """The named colours of one theme, as hex."""

    ground: str
    panel: str
    line: str
    ink: str
    quiet: str
    verdigris: str
    """The accent: focus, today, the key letters, the name of the program."""
    brick: str
    """Laid courses, and nothing else."""
    timber: str
    """Bare boards, and nothing else."""
    moss: str
    """Good: a dry window, paid, done."""
    slate: str
    """Plain information."""
    heather: str
    """What the program suggests."""
    caution: str
    stop: str

    def tone(self, tone: Tone) -> str:
        """The rich style of a tone."""
        return {
            Tone.PLAIN: self.ink,
            Tone.QUIET: self.quiet,
            Tone.STRONG: f"bold {self.ink}",
            Tone.CAUTION: self.caution,
            Tone.STOP: self.stop,
            Tone.GOOD: self.moss,
        }[tone]


EVENING = Palette(
    ground="#1b1f22", panel="#24292d", line="#3a4147", ink="#e7e2d8", quiet="#a39f95",
    verdigris="#74c0ad", brick="#d98a63", timber="#c9a878",
    moss="#a3b26b", slate="#8fb0c4", heather="#c1a0c8",
    caution="#e3b24c", stop="#ee7d6b",
)  # fmt: skip
DAY = Palette(
    ground="#f5f1e8", panel="#ebe5d8", line="#d3cbba", ink="#26292b", quiet="#66635c",
    verdigris="#1f6a5c", brick="#94402a", timber="#7a5f35",
    moss="#4f5f22", slate="#2f5870", heather="#6e4878",
    caution="#7a5200", stop="#a3201a",
)  # fmt: skip

PALETTES = {"evening": EVENING, "day": DAY}


def textual_theme(name: str) -> Theme:
    """The palette called ``name`` as Textual takes it; its colours are CSS variables by name."""
    p = PALETTES[name]
    return Theme(
        name=name,
        primary=p.verdigris,
        secondary=p.slate,
        accent=p.verdigris,
        foreground=p.ink,
        background=p.ground,
        surface=p.ground,
        panel=p.panel,
        success=p.moss,
        warning=p.caution,
        error=p.stop,
        dark=name == "evening",
        variables={
            "ground": p.ground,
            "line": p.line,
            "ink": p.ink,
            "quiet": p.quiet,
            "verdigris": p.verdigris,
            "brick": p.brick,
            "timber": p.timber,
            "moss": p.moss,
            "slate": p.slate,
            "heather": p.heather,
            "caution": p.caution,
            "stop": p.stop,
            "block-cursor-background": p.line,
            "block-cursor-foreground": p.ink,
            "block-cursor-text-style": "bold",
            "input-cursor-background": p.verdigris,
            "input-selection-background": p.line,
            "footer-background": p.panel,
            "footer-key-foreground": p.verdigris,
            "footer-description-foreground": p.quiet,
            "border": p.line,
            "scrollbar": p.line,
            "scrollbar-background": p.ground,
            "scrollbar-hover": p.quiet,
            "scrollbar-active": p.verdigris,
            "scrollbar-background-hover": p.ground,
            "scrollbar-background-active": p.ground,
            "scrollbar-corner-color": p.ground,
        },
    )
