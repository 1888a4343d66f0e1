"""The signs of a roof drawn in black and white: line widths, hatches, and the key to them."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from domain.cutting.plan import PieceKind
from domain.exact import half_up
from tui.roof.svg_elements import line, polygon, text

HATCHES = {PieceKind.LEFT: "left", PieceKind.RIGHT: "right", PieceKind.ROW: "row"}
"""By which name the hatch of a cut piece goes; a whole strip has none."""
COVERED = "#e4e4e4"
"""What ridge pieces, a top edge strip or a flashing cover."""
_WORDS = {"left": "left piece", "right": "right piece", "row": "course in one piece"}


@dataclass(frozen=True, slots=True)
class Pen:
    """Lines and letters by their size on paper, on a drawing at one to ``scale``."""

    scale: int

    def mm(self, paper: Fraction | int) -> int:
        """What so many millimetres of paper are on the drawing."""
        return half_up(Fraction(paper) * self.scale)

    @property
    def size(self) -> int:
        """The height of what is written."""
        return self.mm(3)

    def fine(self, **style: str) -> dict[str, str]:
        """Cut-outs, leaders, the pieces over ridge and hips."""
        return self._stroke("0.12") | style

    def plain(self, **style: str) -> dict[str, str]:
        """The line round a piece."""
        return self._stroke("0.2") | style

    def strong(self) -> dict[str, str]:
        """The outline of a slope."""
        return self._stroke("0.5")

    def broad(self) -> dict[str, str]:
        """An edge strip."""
        return self._stroke("1.6") | {"stroke": "#555555"}

    def dashes(self, paper: str) -> dict[str, str]:
        """A line that is broken so often."""
        return {"stroke_dasharray": str(self.mm(Fraction(paper)))}

    def _stroke(self, paper: str) -> dict[str, str]:
        width = str(max(1, self.mm(Fraction(paper))))
        return {"fill": "none", "stroke": "black", "stroke_width": width}


def defined(pen: Pen) -> str:
    """The hatches, to be filled with by name."""
    side = pen.mm(Fraction("1.6"))
    return f"<defs>{''.join(_pattern(name, side, pen) for name in HATCHES.values())}</defs>\n"


def _pattern(name: str, side: int, pen: Pen) -> str:
    """A square of one hatch; its lines run on over its corners, so that they meet the next."""
    strokes = {
        "left": ((0, side, side, 0),),
        "right": ((0, 0, side, side),),
        "row": ((0, side, side, 0), (0, 0, side, side)),
    }
    look = pen.fine(stroke="#8a8a8a", stroke_linecap="square")
    lines = "".join(line((x0, y0), (x1, y1), **look) for x0, y0, x1, y1 in strokes[name])
    size = f'width="{side}" height="{side}" patternUnits="userSpaceOnUse"'
    return f'<pattern id="{name}" {size}>{lines}</pattern>'


def drawing_key(pen: Pen) -> Iterator[str]:
    """What the signs mean, and the scale."""
    x, y = pen.mm(14), pen.mm(5)
    for name, words in _WORDS.items():
        box = [(x, y - pen.size), (x + 2 * pen.size, y - pen.size), (x + 2 * pen.size, y), (x, y)]
        yield polygon(box, **pen.plain(fill=f"url(#{name})"))
        yield text((x + 3 * pen.size, y), words, pen.size, text_anchor="start")
        x += pen.mm(37)
    yield scale_words(pen)
    words = "A2: from pile A2 of the cut list. Broad edge: edge strip. Dashed edge: valley. "
    words += "Chalk lines at the left, in mm."
    yield text((pen.mm(14), y + 2 * pen.size), words, pen.size, text_anchor="start")


def felt_key(pen: Pen) -> Iterator[str]:
    """As :func:`drawing_key`, of a roof in felt."""
    x, y = pen.mm(14), pen.mm(5)
    box = [(x, y - pen.size), (x + 2 * pen.size, y - pen.size), (x + 2 * pen.size, y), (x, y)]
    yield polygon(box, **pen.fine(stroke="#555555"), **pen.dashes("0.8"))
    yield text((x + 3 * pen.size, y), "capping, laid last", pen.size, text_anchor="start")
    yield scale_words(pen)
    words = "2a: length a of roll 2. Dashed edge: valley. Chalk lines at the left, in mm."
    yield text((x, y + 2 * pen.size), words, pen.size, text_anchor="start")


def scale_words(pen: Pen) -> str:
    """The scale, at the right of the key."""
    words = f"1 : {pen.scale} on A4"
    return text((pen.mm(176), pen.mm(5)), words, pen.size, text_anchor="end", font_weight="600")
