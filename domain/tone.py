"""How a text speaks, on a paper or on a screen."""

from enum import StrEnum


class Tone(StrEnum):
    """How a text speaks: what draws it decides what that looks like."""

    PLAIN = "plain"
    QUIET = "quiet"
    STRONG = "strong"
    CAUTION = "caution"
    STOP = "stop"
    GOOD = "good"
