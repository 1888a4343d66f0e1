"""Draws a paper: for the screen in the colours in force, or as plain text for a file or a pipe.

Both come from the same lines, so that what is saved is what was seen.
"""

import io
import sys
from collections.abc import Callable, Iterator, Mapping
from math import inf
from types import MappingProxyType
from typing import Any

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from domain.papers.blocks import (
    Block,
    Cuts,
    Details,
    FillIn,
    Laying,
    Measures,
    NewPage,
    Offers,
    Paper,
    Picture,
    Signature,
    Step,
    Steps,
    Table,
    Ticks,
    Totals,
    Words,
)
from domain.signs import BEFORE_WORDS, Sign
from tui.frame import safe_text
from tui.frame.text_layout import GAP, natural_width, pairs, set_beside, wrapped
from tui.frame.theme import EVENING, Palette
from tui.papers.text_measures import measure_columns
from tui.papers.text_roof_work import draw_cuts, draw_laying, draw_sentences
from tui.papers.text_sums import draw_fill_in, draw_offers, draw_steps, draw_sums
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
    heading = _heading(getattr(block, "heading", ""), width, p)
    return heading + _DRAWN_BY[type(block)](block, width, p)


def _heading(text: str, width: int, p: Palette) -> list[Text]:
    return [Text(t, style=f"bold {p.ink}", end="") for t in wrapped(text, width)] if text else []


def _words(block: Words, width: int, p: Palette) -> list[Text]:
    sign = BEFORE_WORDS.get(block.tone, "")
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
        box = Text(f"[{Sign.GOOD}] " if done else "[ ] ", style=p.moss if done else p.quiet, end="")
        drawn += set_beside(
            [box], [Text(t, style=p.ink, end="") for t in wrapped(words, width - 4)], 4
        )
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


_DRAWN_BY: Mapping[type[Block], Callable[[Any, int, Palette], list[Text]]] = MappingProxyType(
    {
        Words: _words,
        Table: draw_table,
        Totals: lambda block, width, p: draw_sums(block.rows, len(block.rows) - 1, width, p),
        Offers: draw_offers,
        Steps: draw_steps,
        FillIn: draw_fill_in,
        NewPage: lambda _, width, p: [Text("─" * width, style=p.line, end="")],
        Details: lambda block, width, p: pairs(block.rows, width, p),
        Ticks: _ticks,
        Signature: _signature,
        Measures: measure_columns,
        Step: lambda block, width, p: draw_sentences(block.rows, width, p),
        Cuts: draw_cuts,
        Laying: draw_laying,
        Picture: roof_lines,
    }
)
"""What draws each kind of block, below its heading."""
