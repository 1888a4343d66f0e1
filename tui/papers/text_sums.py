"""Sets sums, prices, steps and lines to write on, as text."""

from collections.abc import Sequence

from rich.cells import cell_len
from rich.text import Text

from domain.papers.blocks import FillIn, Offers, Steps
from tui.frame import safe_text
from tui.frame.text_layout import set_beside, to_the_right, wrapped
from tui.frame.theme import Palette

_LEAST_LINE = 24
"""Cells of a line to write on beside what is asked; with less it goes below."""


def draw_sums(rows: Sequence[tuple[str, str]], counts: int, width: int, p: Palette) -> list[Text]:
    """Label and amount at the right, lined up; row number ``counts`` is the one that counts.

    A rule stands above it if it is the last of several.
    """
    plain = [(safe_text.one_line(label), safe_text.one_line(amount)) for label, amount in rows]
    amounts = max((cell_len(amount) for _, amount in plain), default=0)
    labels = min(max((cell_len(label) for label, _ in plain), default=0), width - amounts - 3)
    drawn: list[Text] = []
    for number, (label, amount) in enumerate(plain):
        strong = number == counts
        if strong and number and number == len(plain) - 1:
            rule = Text("─" * (labels + 3 + amounts), style=p.line, end="")
            drawn.append(to_the_right(rule, width))
        style = f"bold {p.ink}" if strong else p.quiet
        parts = wrapped(label, max(1, labels))
        left = [Text(t.ljust(labels + 3), style=style, end="") for t in parts]
        figure = Text(amount, style=f"bold {p.verdigris}" if strong else p.ink, end="")
        left[-1].append_text(to_the_right(figure, amounts))
        for line in left[:-1]:
            line.append(" " * amounts)
        drawn += [to_the_right(line, width) for line in left]
    return drawn


def draw_offers(block: Offers, width: int, p: Palette) -> list[Text]:
    """The prices one below the other, each under what it is the price of."""
    drawn: list[Text] = []
    for number, offer in enumerate(block.rows):
        if number:
            drawn.append(Text("", end=""))
        box = "[ ] " if block.to_tick else ""
        if offer.words:
            words = wrapped(offer.words, width - len(box))
            told = [Text(t, style=p.ink, end="") for t in words]
            drawn += set_beside([Text(box, style=p.quiet, end="")], told, len(box))
        drawn += draw_sums(((offer.label, offer.price), *offer.rows), 0, width, p)
    return drawn


def draw_steps(block: Steps, width: int, p: Palette) -> list[Text]:
    """Each with its number before it."""
    drawn: list[Text] = []
    for number, words in enumerate(block.rows, start=1):
        before = Text(f"{number}.", style=p.quiet, end="")
        told = [Text(t, style=p.ink, end="") for t in wrapped(words, width - 4)]
        drawn += set_beside([before], told, 4)
    return drawn


def draw_fill_in(block: FillIn, width: int, p: Palette) -> list[Text]:
    """What is asked, and a line to write it on beside or below it."""
    asked = [safe_text.one_line(words) for words in block.rows]
    widest = max(map(cell_len, asked), default=0)
    drawn: list[Text] = []
    for words in asked:
        drawn.append(Text("", end=""))
        if width - widest - 2 >= _LEAST_LINE:
            line = words.ljust(widest + 2) + "_" * (width - widest - 2)
            drawn.append(Text(line, style=p.ink, end=""))
        else:
            drawn += [Text(t, style=p.ink, end="") for t in wrapped(words, width) if words]
            drawn += [Text("", end=""), Text("_" * width, style=p.ink, end="")]
    return drawn
