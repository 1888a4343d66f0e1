"""The few elements of SVG that drawings are made of; y counts downward, lengths are whole units."""

from collections.abc import Iterable
from fractions import Fraction
from html import escape
from typing import TypeAlias

from domain.exact import half_up

Number: TypeAlias = Fraction | int
Point: TypeAlias = tuple[Number, Number]


def polygon(corners: Iterable[Point], /, **style: str) -> str:
    """A closed figure; nothing if it has no corners."""
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in corners)
    return f'<polygon points="{points}"{_attributes(style)}/>' if points else ""


def line(start: Point, end: Point, /, **style: str) -> str:
    """A straight line."""
    ends = f'x1="{_n(start[0])}" y1="{_n(start[1])}" x2="{_n(end[0])}" y2="{_n(end[1])}"'
    return f"<line {ends}{_attributes(style)}/>"


def text(at: Point, words: str, size: Number, /, **style: str) -> str:
    """Words, in the middle of a place unless styled otherwise."""
    look = {"text-anchor": "middle", "font-size": _n(size)} | {
        name.replace("_", "-"): value for name, value in style.items()
    }
    place = f'x="{_n(at[0])}" y="{_n(at[1])}"'
    return f"<text {place}{_attributes(look)}>{escape(words, quote=False)}</text>"


def _attributes(style: dict[str, str]) -> str:
    return "".join(f' {name.replace("_", "-")}="{escape(value)}"' for name, value in style.items())


def _n(number: Number) -> str:
    return str(half_up(number))
