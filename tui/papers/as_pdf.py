"""Sets a paper on A4 as PDF, in a font that travels with the program.

The typesetter is loaded when a PDF is asked for. What a user typed reaches it as data alone.
"""

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from domain.papers.blocks import Block, Paper, Picture
from tui.frame.safe_text import lines
from tui.roof.svg import drawing_svg

_FOLDER = Path(__file__).parent


def pdf_of(paper: Paper) -> bytes:
    """The paper as PDF; the same paper gives the same bytes."""
    import typst

    data = {"title": paper.title, "head": paper.head, "large": paper.on_the_roof}
    blocks = [_as_data(block) for block in paper.blocks]
    return typst.compile(
        _FOLDER / "paper.typ",
        root=_FOLDER,
        font_paths=[_FOLDER / "fonts"],
        ignore_system_fonts=True,
        sys_inputs={"paper": json.dumps(_printable({**data, "blocks": blocks}))},
        format="pdf",
    )


def _as_data(block: Block) -> dict[str, Any]:
    """A block by the name of its kind and its fields; a roof as it is drawn."""
    if isinstance(block, Picture):
        return {"kind": "picture", "svg": drawing_svg(block.drawing)}
    return {"kind": type(block).__name__.lower(), **asdict(block)}


def _printable(value: Any) -> Any:
    """A value with every text in it made printable; line breaks are kept."""
    if isinstance(value, str):
        return lines(value)
    if isinstance(value, dict):
        return {key: _printable(each) for key, each in value.items()}
    return [_printable(each) for each in value] if isinstance(value, list | tuple) else value
