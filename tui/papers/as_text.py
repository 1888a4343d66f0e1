"""Draws a paper: for the screen in the colours in force, or as plain text for a file or a pipe.

Both come from the same lines, so that what is saved is what was seen.
"""

import io
import sys
from collections.abc import Iterator
from math import inf

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from domain.papers.blocks import (
    Block,
    Cuts,
    Details,
    Measures,
    Paper,
    Picture,
    Signature,
    Table,
    Ticks,
    Totals,
    Words,
)
from domain.tone import Tone
from tui.frame import safe_text
from tui.frame.text_layout import GAP, natural_width, pairs, set_beside, to_the_right, wrapped
from tui.frame.theme import EVENING, Palette
from tui.papers.text_measures import cuts_table, measure_columns
from tui.papers.text_table import draw_table
from tui.roof.text_drawing import roof_lines

PRINTED_WIDTH = 80
"""Columns of a paper as plain text: what a printer sets on a line of A4."""
_NARROWEST = 20
"""Columns under which no table can be set."""

TERMINAL = Palette(
    ground="default", panel="default", line="dim", ink="default", quiet="dim",
    verdigris="bold", brick="bold", timber="default",
    moss="green", slate="default", heather="default", caution="yellow", stop="red",
)  # fmt: skip
"""For printing into a terminal whose ground is not known: its own colours only."""

_SIGNS = {Tone.STOP: "■ ", Tone.CAUTION: "▲ ", Tone.GOOD: "✓ "}


def draw_paper(paper: Paper, width: int, palette: Palette) -> Text:
    """The paper in lines of at most ``width`` cells, or 20; no figure is cut or broken."""
    width = max(_NARROWEST, width)
    lines = _letterhead(paper, width, palette)
    for left, right in _in_pairs(paper.blocks, width):
        lines.append(_blank())
        drawn = _block(left, width, palette)
        if right is not None:
            half = (width - 4) // 2
            drawn = set_beside(_block(left, half, palette), _block(right, half, palette), half + 4)
        lines += drawn
    return Text("\n", end="").join(lines)


def plain_text(paper: Paper, width: int = PRINTED_WIDTH) -> str:
    """A paper as text without colour, ending in a line break."""
    lines = draw_paper(paper, width, EVENING).plain.split("\n")
    return "\n".join(line.rstrip() for line in lines) + "\n"


def print_paper(paper: Paper) -> None:
    """Print it: in colour on a terminal, as plain text into a pipe or a file."""
    if not sys.stdout.isatty():
        if isinstance(sys.stdout, io.TextIOWrapper):
            sys.stdout.reconfigure(errors="replace")  # a pipe may know fewer characters
        sys.stdout.write(plain_text(paper))
        return
    console = Console(highlight=False, soft_wrap=True)
    console.print(draw_paper(paper, min(console.width, PRINTED_WIDTH), TERMINAL))


def _letterhead(paper: Paper, width: int, p: Palette) -> list[Text]:
    """Who it is from at the left, what it is at the right, and a rule under both."""
    title = Text(safe_text.one_line(paper.title), style=f"bold {p.verdigris}", end="")
    room = width - title.cell_len - 4
    lines = [
        Text(line, style=f"bold {p.ink}" if number == 0 else p.quiet, end="")
        for number, text in enumerate(paper.head)
        for line in wrapped(text, width)
    ]
    if lines and lines[0].cell_len <= room:
        lines[0] = set_beside(lines[:1], [title], width - title.cell_len)[0]
    else:
        bold = f"bold {p.verdigris}"
        lines = [*lines, *(Text(t, style=bold, end="") for t in wrapped(paper.title, width))]
    return [*lines, Text("─" * width, style=p.line, end="")]


def _in_pairs(blocks: tuple[Block, ...], width: int) -> Iterator[tuple[Block, Block | None]]:
    """Blocks one by one; two details that follow each other stand side by side if both fit."""
    waiting = list(blocks)
    while waiting:
        block = waiting.pop(0)
        half = (width - 4) // 2
        if waiting and all(_least_width(b) <= half for b in (block, waiting[0])):
            yield block, waiting.pop(0)
        else:
            yield block, None


def _block(block: Block, width: int, p: Palette) -> list[Text]:
    match block:
        case Words():
            drawn = _words(block, width, p)
        case Table():
            drawn = draw_table(block, width, p)
        case Details():
            drawn = pairs(block.rows, width, p)
        case Ticks():
            drawn = _ticks(block, width, p)
        case Totals():
            return _totals(block, width, p)
        case Signature():
            return _signature(block, width, p)
        case Measures():
            drawn = measure_columns(block, width, p)
        case Cuts():
            drawn = draw_table(cuts_table(block), width, p)
        case Picture():
            return roof_lines(block.drawing, width, p)
    return _heading(block.heading, width, p) + drawn


def _heading(text: str, width: int, p: Palette) -> list[Text]:
    return [Text(t, style=f"bold {p.ink}", end="") for t in wrapped(text, width)] if text else []


def _words(block: Words, width: int, p: Palette) -> list[Text]:
    sign = _SIGNS.get(block.tone, "")
    style = p.tone(block.tone)
    return [
        Text((sign if not number else " " * len(sign)) + line, style=style, end="")
        for number, line in enumerate(wrapped(block.text, width - len(sign)))
    ]


def _least_width(block: Block) -> float:
    """Cells under which details would have to break a word; no end of them for other blocks."""
    if not isinstance(block, Details):
        return inf
    words = (cell_len(word) for _, value in block.rows for word in value.split())
    return (
        max((natural_width(label) for label, _ in block.rows), default=0)
        + GAP
        + max(words, default=0)
    )


def _ticks(block: Ticks, width: int, p: Palette) -> list[Text]:
    drawn: list[Text] = []
    for done, words in block.rows:
        box = Text("[✓] " if done else "[ ] ", style=p.moss if done else p.quiet, end="")
        drawn += set_beside(
            [box], [Text(t, style=p.ink, end="") for t in wrapped(words, width - 4)], 4
        )
    return drawn


def _totals(block: Totals, width: int, p: Palette) -> list[Text]:
    """At the right, lined up; a rule above the one that counts."""
    rows = [(safe_text.one_line(label), safe_text.one_line(sum_)) for label, sum_ in block.rows]
    amounts = max((cell_len(amount) for _, amount in rows), default=0)
    labels = min(max((cell_len(label) for label, _ in rows), default=0), width - amounts - 3)
    drawn: list[Text] = []
    for number, (label, amount) in enumerate(rows):
        last = number == len(rows) - 1
        if last and number:
            drawn.append(
                to_the_right(Text("─" * (labels + 3 + amounts), style=p.line, end=""), width)
            )
        style = f"bold {p.ink}" if last else p.quiet
        parts = wrapped(label, max(1, labels))
        left = [Text(t.ljust(labels + 3), style=style, end="") for t in parts]
        figure = Text(amount, style=f"bold {p.verdigris}" if last else p.ink, end="")
        left[-1].append_text(to_the_right(figure, amounts))
        for line in left[:-1]:
            line.append(" " * amounts)
        drawn += [to_the_right(line, width) for line in left]
    return drawn


def _signature(block: Signature, width: int, p: Palette) -> list[Text]:
    who = [Text(f"       {t}", style=p.quiet, end="") for t in wrapped(block.who, width - 7)]
    signed, date = f"Signed {'_' * min(38, width - 29)}", f"Date {'_' * 14}"
    if width < 48:
        signed, date = f"Signed {'_' * (width - 7)}", f"Date   {'_' * (width - 7)}"
        dated = [Text(date, style=p.ink, end="")]
        return [_blank(), Text(signed, style=p.ink, end=""), *who, _blank(), *dated]
    return [_blank(), Text(f"{signed}   {date}", style=p.ink, end=""), *who]


def _blank() -> Text:
    return Text("", end="")
