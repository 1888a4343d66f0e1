"""The parts a paper is made of. Every text here is plain: it is never read as markup."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

from domain.look import Look
from domain.tone import Tone

if TYPE_CHECKING:  # the first screen shows papers too, and draws no roof
    from domain.drawing.drawing_parts import Drawing


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
class Offer:
    """What something costs, the price large."""

    words: str
    """What it is the price of; empty where the paper has said so."""
    label: str
    """What the price is: "Total, including VAT"."""
    price: str
    rows: tuple[tuple[str, str], ...] = ()
    """Label and amount of what is in the price or comes on top of it, small below it."""


@dataclass(frozen=True, slots=True)
class Offers:
    """One price, or up to three side by side."""

    rows: tuple[Offer, ...]
    heading: str = ""
    to_tick: bool = False
    """Whether the reader ticks the one that is chosen."""


@dataclass(frozen=True, slots=True)
class Steps:
    """What is done, one after the other, numbered."""

    rows: tuple[str, ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class FillIn:
    """Lines to write on, each with what is asked."""

    rows: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NewPage:
    """What comes after it begins a page of its own."""


@dataclass(frozen=True, slots=True)
class Details:
    """Label and value pairs: a date, a number, an address."""

    rows: tuple[tuple[str, str], ...]
    heading: str = ""
    framed: bool = False
    """Whether a frame stands round it, so that it is found at once and copied from."""


@dataclass(frozen=True, slots=True)
class Ticks:
    """Things to tick, each ticked or not."""

    rows: tuple[tuple[bool, str], ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Signature:
    """A line to sign on, with whose it is."""

    who: str


@dataclass(frozen=True, slots=True)
class Measures:
    """Numbered measures that are taped one after another."""

    rows: tuple[tuple[str, str], ...]
    """What each is the measure of, in a word or a number; the measure."""
    heading: str = ""


@dataclass(frozen=True, slots=True)
class CutPart:
    """A part of something that is cut."""

    name: str
    """What is written on it; empty if nothing is."""
    mm: int
    """How long it is, to the millimetre."""
    words: str
    """Where it goes; empty for what is spare."""
    pieces: int = 1
    """How many equal pieces it gives."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Something that is cut: its parts from left to right."""

    name: str
    cuts: tuple[str, ...]
    """Where it is cut, measured from its left end."""
    parts: tuple[CutPart, ...]


@dataclass(frozen=True, slots=True)
class Cuts:
    """What is cut, in the order in which it is needed."""

    rows: tuple[Cut, ...]
    heading: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A roof to scale, every piece or length where it lies."""

    drawing: "Drawing"


Block: TypeAlias = (
    Words
    | Table
    | Totals
    | Offers
    | Steps
    | FillIn
    | NewPage
    | Details
    | Ticks
    | Signature
    | Measures
    | Cuts
    | Picture
)


@dataclass(frozen=True, slots=True)
class Letter:
    """What is said to a customer beside a paper."""

    sender: str
    """The trader's e-mail address; empty if they have none."""
    subject: str
    text: str
    """Of an e-mail that the paper is attached to."""
    short: str
    """The same for a text message, which nothing is attached to."""
    to: str = ""
    """The customer's e-mail address; empty where it is not known."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, ready to be drawn."""

    title: str
    """"Quote", "Invoice INV-42"."""
    blocks: tuple[Block, ...]
    head: tuple[str, ...] = ()
    """The trader's name, address and the like, line by line."""
    look: Look = field(default_factory=Look)
    """Its colour and its logo."""
    letter: Letter | None = None
    """What goes with it to the customer; None for a paper that is the trader's own."""
    not_yet: str = ""
    """Why it cannot go to the customer yet, and what would do; empty if it can."""
    on_the_roof: bool = False
    """Whether it is read at the work, with wet hands at arm's length: set large and heavy."""
