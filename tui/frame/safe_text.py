"""The one way by which user text reaches the screen.

What a user typed is never read as markup, never breaks a line that is meant to be one, and can
neither turn the writing direction of what follows nor smuggle a control sequence into the terminal.
What may stand in a text is decided where it enters, in :mod:`storage.texts`; a book written to by
another program may hold anything, so what is drawn is made safe whatever it is.
"""

import unicodedata
from typing import TYPE_CHECKING

from rich.cells import cell_len, set_cell_size

if TYPE_CHECKING:
    from rich.text import Text
    from textual.content import Content

_HIDDEN = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}


def one_line(text: str) -> str:
    """The text on one line: breaks and tabs become spaces, unprintable characters are left out."""
    if text.isprintable():  # none of either; nearly every text, and asked of every line of a list
        return text
    spaced = "".join(" " if c in "\n\r\t\v\f\u2028\u2029" else c for c in text)
    return "".join(c for c in spaced if unicodedata.category(c) not in _HIDDEN)


def lines(text: str) -> str:
    """As :func:`one_line` does, but line breaks stay."""
    return "\n".join(one_line(part) for part in text.splitlines())


def plain(text: str) -> "Content":
    """User text for a widget: no markup in it, line breaks kept."""
    from textual.content import Content  # the command line writes safe text with no screen

    return Content(lines(text))


def fitted(text: str, width: int) -> str:
    """The text in exactly ``width`` terminal cells: cut with an ellipsis, or filled with spaces."""
    line = one_line(text)
    if cell_len(line) > width:
        line = set_cell_size(line, max(0, width - 1)).rstrip(" →") + "…" if width > 0 else ""
    return set_cell_size(line, width)


def shortened(text: str, width: int) -> str:
    """The text in at most ``width`` terminal cells, with an ellipsis where it was cut."""
    return fitted(text, width).rstrip() if cell_len(one_line(text)) > width else one_line(text)


def styled(text: str, style: str = "") -> "Text":
    """User text as rich draws it: one line, no markup."""
    from rich.text import Text

    return Text(one_line(text), style=style, end="")
