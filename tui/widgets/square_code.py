"""A text message as a square code that a telephone's camera reads, drawn in half-blocks."""

from dataclasses import dataclass

from rich.style import Style
from rich.text import Text
from textual.app import RenderResult
from textual.widget import Widget

BORDER = 4
"""Modules of light all round: ISO/IEC 18004, from memory."""
_SMALLEST, _STEP = 21, 4
"""Modules a side of the first version, and by how many each is larger (as above)."""
_VERSIONS = 40
_INK = Style(color="#000000", bgcolor="#ffffff")
"""Dark on light in every theme: cameras do not read it the other way round."""
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


@dataclass(frozen=True, slots=True)
class SquareCode:
    """What is drawn, and what it says."""

    rows: tuple[tuple[bool, ...], ...]
    """Modules, True is dark, with the border."""
    text: str
    is_shortened: bool
    """Whether less stands in it than was to be said."""

    @property
    def lines(self) -> list[str]:
        """Two rows of modules in a line of characters."""
        light = (False,) * len(self.rows[0])
        pairs = zip(self.rows[::2], (*self.rows[1::2], light), strict=False)
        return ["".join(_HALVES[pair] for pair in zip(*both, strict=True)) for both in pairs]


def message_code(number: str, full: str, brief: str, side: int) -> SquareCode | None:
    """The code of a message to a number, in ``side`` modules at most with its border.

    ``brief`` stands in it where ``full`` is too long, and as much of that as there is room for
    where it is too. None if there is room for no word at all.
    """
    version = min(_VERSIONS, (side - 2 * BORDER - _SMALLEST) // _STEP + 1)
    if version < 1:
        return None
    for text in (full, brief):
        rows = _modules(number, text, version)
        if rows is not None:
            return SquareCode(rows, text, text != full)
    words = brief.split()
    for count in range(len(words) - 1, 0, -1):
        text = f"{' '.join(words[:count])}..."
        rows = _modules(number, text, version)
        if rows is not None:
            return SquareCode(rows, text, True)
    return None


def _modules(number: str, text: str, version: int) -> tuple[tuple[bool, ...], ...] | None:
    """The modules, as few as it takes; None if it takes a larger version."""
    import segno

    try:
        code = segno.make(
            f"SMSTO:{number}:{text}", error="l", boost_error=False, micro=False, version=version
        )
    except segno.DataOverflowError:
        return None
    return tuple(tuple(map(bool, row)) for row in code.matrix_iter(border=BORDER))


class CodeView(Widget):
    """The drawn code."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    CodeView { width: auto; height: auto; }
    """

    def __init__(self, code: SquareCode) -> None:
        super().__init__()
        self._code = code

    def render(self) -> RenderResult:
        """Black on white whatever the colours of the program."""
        return Text("\n".join(self._code.lines), style=_INK, no_wrap=True, end="")
