"""The parts a paper is made of. Every text here is plain: it is never read as markup."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

from domain.look import Look
from domain.tone import Tone

if TYPE_CHECKING:  # the first screen shows papers too, and draws no roof
    from domain.drawing.drawing_parts import Drawing
    from domain.drawing.plan_view import Plan


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
class Step:
    """What is done on the roof before the next step, in sentences; their figures are set large."""

    heading: str
    rows: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CutPart:
    """A part of something that is cut."""

    name: str
    """What is written on it, the name of its pile; empty for what is spare."""
    mm: int
    """How long it is, to the millimetre."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Strips that are cut alike, with their parts from left to right."""

    times: int
    cuts: tuple[str, ...]
    """Where it is cut, measured from its left end."""
    parts: tuple[CutPart, ...]


@dataclass(frozen=True, slots=True)
class Cuts:
    """Every way of cutting, each with its picture."""

    rows: tuple[Cut, ...]
    heading: str
    notes: str
    """What holds for all of them, in sentences, before the pictures."""
    piles: tuple[str, ...]
    """Each name with the length of its parts: "A1 500"."""


@dataclass(frozen=True, slots=True)
class LaidPart:
    """A piece of a course as it is laid, or whole strips side by side."""

    name: str
    """Of its pile; empty for whole strips."""
    cut: int
    """How long it comes from the pile, mm; of whole strips side by side, how many."""
    laid: int
    """How much of it is laid, mm: the rest is trimmed off in place; 0 of whole strips."""
    over: int = 0
    """How far its left end reaches past the edge before it is trimmed, mm, where both ends are."""

    @property
    def words(self) -> str:
        """All of it in a few signs: "B 125", "2 whole", "D 500 → 433"."""
        if not self.laid:
            return f"{self.cut} whole"
        named = f"{self.name} {self.cut:,}" if self.name else "whole"
        told = named if self.laid == self.cut else f"{named} → {self.laid:,}"
        return f"{told}, {self.over:,} past the left edge" if self.over else told


@dataclass(frozen=True, slots=True)
class LaidRow:
    """Courses that are laid alike."""

    courses: str
    """"1, 3 and 5"."""
    parts: tuple[LaidPart, ...]
    """From left to right."""
    nails: int
    """In one such course."""


@dataclass(frozen=True, slots=True)
class Laying:
    """How every course is laid, slopes of one shape together."""

    rows: tuple[LaidRow, ...]
    slopes: str
    """"Slopes 1 and 2"; which they are."""
    heading: str = ""
    notes: tuple[str, ...] = ()
    """What holds for every course, before the rows."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A roof to scale, every piece or length where it lies, slopes that are alike once."""

    drawing: "Drawing"
    """Only of the slopes that are shown."""
    names: tuple[str, ...]
    """Of each slope shown: "Slopes 1–8"."""
    plan: "Plan | None" = None
    """The roof from above; None where its measures do not say how the slopes meet."""
    slope_one: str = ""
    """What slope 1 looks to; empty where the survey does not say."""


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
    | Step
    | Cuts
    | Laying
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
