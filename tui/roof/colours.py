"""The colours and hatches of a drawn roof: no piece is told by its colour alone."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from textual.color import Color

from domain.cutting.plan import PieceKind
from domain.drawing.drawing_parts import DrawnEdge, DrawnPiece
from domain.drawing.marks import Mark
from domain.setting_out.kinds import EdgeKind
from tui.frame.theme import Palette

HATCHES = {PieceKind.LEFT: "╱", PieceKind.RIGHT: "╲", PieceKind.ROW: "╳"}
"""What a piece is filled with that is cut."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the cursor stands on."""

    marks: frozenset[Mark | None] = frozenset()
    """What stands on the pieces that are marked, wherever they lie; None: strips not cut."""
    courses: frozenset[tuple[int, int]] = frozenset()
    """Slope and course of those that are marked whole."""
    place: tuple[int, int, Fraction] | None = None
    """Slope, course and left end of a piece."""

    def has(self, drawn: DrawnPiece) -> bool:
        """Whether the cursor stands on the piece, on its pile or on its course."""
        piece = drawn.piece
        if drawn.mark in self.marks or (piece.slope, piece.course) in self.courses:
            return True
        return self.place == place_of(drawn)


def place_of(drawn: DrawnPiece) -> tuple[int, int, Fraction]:
    """Return slope, course and left end of a piece, which no other piece shares."""
    return drawn.piece.slope, drawn.piece.course, drawn.piece.u0


def hatch_of(drawn: DrawnPiece) -> str:
    """The sign a piece is filled with; none if the strip is laid as it comes."""
    kind = drawn.piece.kind
    return HATCHES.get(kind, " ") if kind and drawn.mark else " "


def fore_of(drawn: DrawnPiece, p: Palette, chosen: Chosen) -> str:
    """The colour of hatch and cut-outs."""
    return p.ground if chosen.has(drawn) else mix(p.ground, _hue(drawn, p), 60)


def ground_of(drawn: DrawnPiece, p: Palette, chosen: Chosen) -> str:
    """The colour a piece is filled with; courses are darker and lighter by turns."""
    if chosen.has(drawn):
        return p.verdigris
    share = (30 if drawn.mark else 20) + (8 if drawn.piece.course % 2 else 0)
    return mix(p.ground, _hue(drawn, p), share)


def finish_ground(p: Palette) -> str:
    """The colour of what closes a slope at the top."""
    return mix(p.ground, p.quiet, 30)


def edge_colour(edge: DrawnEdge, p: Palette) -> str:
    """The colour of what stands along an edge."""
    if edge.has_strip:
        return p.brick
    return p.quiet if edge.kind is EdgeKind.HIP else p.slate


@lru_cache(maxsize=256)
def mix(ground: str, hue: str, percent: int) -> str:
    """Return the colour that is so many per cent of ``hue`` on ``ground``, as hex."""
    return Color.parse(ground).blend(Color.parse(hue), percent / 100).hex


def _hue(drawn: DrawnPiece, p: Palette) -> str:
    kind = drawn.piece.kind
    if drawn.mark is None:
        return p.brick
    if kind is None:  # the lengths of one roll are of one colour
        return (p.slate, p.heather, p.moss)[drawn.mark.strip % 3]
    return {PieceKind.LEFT: p.slate, PieceKind.RIGHT: p.heather}.get(kind, p.moss)
