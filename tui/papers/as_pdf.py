"""Sets a paper on A4 as PDF, in a font that travels with the program.

The typesetter is loaded when a PDF is asked for. What a user typed reaches it as data alone.
"""

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from domain.errors import Refused
from domain.papers import blocks
from domain.papers.blocks import Block, Paper
from tui.frame.safe_text import lines
from tui.frame.text_layout import unbroken
from tui.roof.svg_site import site_svg

_FOLDER = Path(__file__).parent


def pdf_of(paper: Paper, logo: bytes = b"") -> bytes:
    """The paper as PDF; the same paper gives the same bytes.

    ``logo`` is the picture that its look names, a PNG or an SVG; without it the paper has none.
    """
    data = {
        "title": paper.title,
        "head": paper.head,
        "large": paper.on_the_roof,
        "colour": paper.look.colour,
        "blocks": [_as_data(block) for block in paper.blocks],
    }
    return _set(_printable(data), logo)


def demand_drawn(field: str, typed: str, logo: bytes) -> None:
    """Try a picture on an empty paper. Raises :class:`Refused` if it cannot be drawn.

    ``typed`` is the path it was found by.
    """
    import typst

    try:
        pdf_of(Paper("", ()), logo)
    except typst.TypstError as error:
        remedy = "The picture is damaged or not all there: save it again as PNG or SVG."
        raise Refused(field, typed, remedy) from error


def _set(data: Any, logo: bytes) -> bytes:
    import typst

    return typst.compile(
        _FOLDER / "paper.typ",
        root=_FOLDER,
        font_paths=[_FOLDER / "fonts"],
        ignore_system_fonts=True,
        sys_inputs={"paper": json.dumps(data), "logo": json.dumps(list(logo))},
        format="pdf",
    )


def _as_data(block: Block) -> dict[str, Any]:
    """A block by the name of its kind and its fields; a roof as it is drawn."""
    if isinstance(block, blocks.Picture):
        return {"kind": "picture", "svg": site_svg(block)}
    if isinstance(block, blocks.Laying):  # each part in its few signs
        rows = [{**asdict(row), "parts": [part.words for part in row.parts]} for row in block.rows]
        return {"kind": "laying", **asdict(block), "rows": rows}
    return {"kind": type(block).__name__.lower(), **asdict(block)}


def _printable(value: Any) -> Any:
    """A value with every text in it made printable; line breaks are kept, measures not broken."""
    if isinstance(value, str):
        return unbroken(lines(value))
    if isinstance(value, dict):
        return {key: lines(e) if key == "svg" else _printable(e) for key, e in value.items()}
    return [_printable(each) for each in value] if isinstance(value, list | tuple) else value
