"""The parts a paper is made of. Every text here is plain: it is never read as markup."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias


class Tone(StrEnum):
    """How a text speaks: the drawing decides what that looks like."""

    PLAIN = "plain"
    QUIET = "quiet"
    STRONG = "strong"
    CAUTION = "caution"
    STOP = "stop"
    GOOD = "good"


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph, with a heading if it has one."""

    text: str
    heading: str = ""
    tone: Tone = Tone.PLAIN


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table."""

    title: str
    number: bool = False
    """Numbers are set to the right so that they line up."""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under column titles; every cell is text."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Totals:
    """Label and amount, one under the other, at the right; the last is the one that counts."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Details:
    """Label and value pairs: a date, a number, an address."""

    rows: tuple[tuple[str, str], ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Ticks:
    """Things to tick, each ticked or not."""

    rows: tuple[tuple[bool, str], ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Signature:
    """A line to sign on, with whose it is."""

    who: str


Block: TypeAlias = Words | Table | Totals | Details | Ticks | Signature


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, ready to be drawn."""

    title: str
    """"Quote", "Invoice INV-42"."""
    blocks: tuple[Block, ...]
    head: tuple[str, ...] = ()
    """The trader's name, address and the like, line by line."""
