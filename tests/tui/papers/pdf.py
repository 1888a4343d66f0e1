"""Reads a PDF back."""

import io

from pypdf import PdfReader
from pypdf.generic import DictionaryObject


def pages_of(content: bytes, most: int | None = None) -> list[str]:
    """The text of each page on one line: where the lines broke is not the paper's own doing.

    ``most`` of them if that is enough: what is drawn on a page is dear to go through.
    """
    pages = PdfReader(io.BytesIO(content)).pages[:most]
    return [" ".join(page.extract_text().split()) for page in pages]


def lines_of(content: bytes) -> list[str]:
    """The lines of all pages as they were broken, every space a plain one."""
    pages = PdfReader(io.BytesIO(content)).pages
    return [" ".join(line.split()) for page in pages for line in page.extract_text().splitlines()]


def fonts_of(content: bytes) -> set[str]:
    """The names of the fonts, without the mark of the part that is embedded."""
    pages = PdfReader(io.BytesIO(content)).pages
    resources = [page["/Resources"] for page in pages]
    fonts = [r.get("/Font") for r in resources if isinstance(r, DictionaryObject)]
    named = (font for each in fonts if isinstance(each, DictionaryObject) for font in each.values())
    return {str(font.get_object()["/BaseFont"]).split("+")[-1] for font in named}


def sizes_of(content: bytes) -> set[float]:
    """The sizes that anything is set in, in points, to a hundredth; in pictures too."""
    found: set[float] = set()

    def note(text: str, now: list[float], matrix: list[float], _font: object, size: float) -> None:
        if text.strip():
            found.add(round(abs(size * matrix[3] * now[3]), 2))

    for page in PdfReader(io.BytesIO(content)).pages:
        page.extract_text(visitor_text=note)
    return found


def pictures_of(content: bytes) -> list[int]:
    """How many pictures made of pixels stand on each page."""
    return [len(page.images) for page in PdfReader(io.BytesIO(content)).pages]


def is_tagged(content: bytes) -> bool:
    """Whether what is what can be told by a program that reads it aloud."""
    root = PdfReader(io.BytesIO(content)).root_object
    return "/StructTreeRoot" in root and "'/Marked': True" in str(root["/MarkInfo"])
