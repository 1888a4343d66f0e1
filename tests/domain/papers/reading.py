"""Reads a paper as text, whatever its blocks."""

from dataclasses import astuple, replace
from typing import Any

from domain.papers.blocks import Offer, Offers, Paper, Picture, Steps, Table, Totals


def words_of(paper: Paper) -> str:
    """Every text on the paper, a line each; a picture has none, and its letter goes beside it."""
    blocks = tuple(block for block in paper.blocks if not isinstance(block, Picture))
    return "\n".join(_texts(astuple(replace(paper, blocks=blocks, letter=None))))


def tables(paper: Paper) -> list[Table]:
    """The tables, in order."""
    return [block for block in paper.blocks if isinstance(block, Table)]


def totals(paper: Paper) -> list[tuple[str, str]]:
    """The rows of all totals."""
    return [row for block in paper.blocks if isinstance(block, Totals) for row in block.rows]


def offers(paper: Paper) -> list[Offer]:
    """The prices, in order."""
    return [offer for block in paper.blocks if isinstance(block, Offers) for offer in block.rows]


def steps(paper: Paper) -> tuple[str, ...]:
    """What is done, line by line."""
    (rows,) = (block.rows for block in paper.blocks if isinstance(block, Steps))
    return rows


def _texts(value: Any) -> list[str]:
    if isinstance(value, str):
        return [value]
    return [text for each in value for text in _texts(each)] if isinstance(value, tuple) else []
