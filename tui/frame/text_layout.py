"""Setting text by terminal cells: wrapping, columns, and what stands side by side.

Every text goes through :mod:`tui.frame.safe_text`; nothing is cut, a long word is broken.
"""

import re
from collections.abc import Iterable, Iterator

from rich.cells import cell_len, chop_cells
from rich.text import Text

from tui.frame import safe_text
from tui.frame.theme import Palette

GAP = 2
"""Cells between two columns."""
_IN_A_MEASURE = re.compile(
    r"(?<=[0-9½¼¾]) (?=(?:mm|cm|m|ft|kg|t|h|mph|mi|miles)(?![\w'’])|[%×]|°C|m²)|(?<=×) (?=[0-9])"
)
LEAST = 8
"""Cells under which a column of words is not worth setting."""


def unbroken(text: str) -> str:
    """The text with spaces that no line is broken at between a figure and its unit, and round ×."""
    return _IN_A_MEASURE.sub("\N{NO-BREAK SPACE}", text)


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines of at most ``width`` cells, its own line breaks kept; at least one line."""
    return [line for part in safe_text.lines(text).split("\n") for line in _broken(part, width)]


def natural_width(text: str) -> int:
    """Cells of the longest line of a text, left unwrapped."""
    return max(cell_len(line) for line in safe_text.lines(text).split("\n"))


def set_beside(left: list[Text], right: list[Text], at: int) -> list[Text]:
    """Two columns as one: the right one begins ``at`` so many cells, or after the left one."""
    both = []
    for row in range(max(len(left), len(right))):
        line = left[row].copy() if row < len(left) else Text(end="")
        if row < len(right):
            line.pad_right(max(0, at - line.cell_len))
            line.append_text(right[row])
        both.append(line)
    return both


def to_the_right(text: Text, width: int) -> Text:
    """The line set against the right edge."""
    line = Text(" " * max(0, width - text.cell_len), end="")
    line.append_text(text)
    return line


def pairs(rows: Iterable[tuple[str, str]], width: int, p: Palette) -> list[Text]:
    """Label and value, one pair under the other: labels quiet, values bright and lined up."""
    rows = tuple(rows)
    labels = max(1, min(max((natural_width(label) for label, _ in rows), default=0), width // 2))
    drawn: list[Text] = []
    for label, value in rows:
        left = [Text(t, style=p.quiet, end="") for t in wrapped(label, labels)]
        right = [Text(t, style=p.ink, end="") for t in wrapped(value, width - labels - GAP)]
        drawn += set_beside(left, right, labels + GAP)
    return drawn


def share_width(naturals: Iterable[int], room: int) -> list[int] | None:
    """Cells for columns of words: what each wants while it fits, else as even as can be.

    None if there is too little room for them.
    """
    wants = list(naturals)
    given = [0] * len(wants)
    open_columns = sorted(range(len(wants)), key=lambda i: wants[i])
    while open_columns:
        column = open_columns.pop(0)
        fair = room // (len(open_columns) + 1)
        given[column] = min(wants[column], fair)
        if given[column] < min(wants[column], LEAST):
            return None
        room -= given[column]
    return given


def _words(line: str, width: int) -> Iterator[str]:
    """What is not broken if it fits: a word, or a measure with its unit."""
    for word in unbroken(line).split(" "):
        parts = word.split()
        whole = " ".join(parts)
        yield from [whole] if whole and cell_len(whole) <= width else parts


def _broken(line: str, width: int) -> list[str]:
    """One line broken between words, and within a word that is longer than a line."""
    out, current = [], ""
    for word in _words(line, width):
        pieces = chop_cells(word, width) if cell_len(word) > width else [word]
        for piece in pieces:
            longer = f"{current} {piece}" if current else piece
            if cell_len(longer) <= width and len(pieces) == 1:
                current = longer
                continue
            if current:
                out.append(current)
            current = piece
    return [*out, current]
