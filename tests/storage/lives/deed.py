"""Something done to a job or a list: the call of the book, and what the reckoner makes of it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from domain.coverings.materials import Material
from domain.estimate.stock import StockMove
from domain.job import Job
from storage.book import Book
from tests.storage.books import NOW
from tests.storage.lives.reckoner import Change, Kind, Life, Reckoner

TODAY = NOW.date()
COVERINGS = ("square-butt", "hexagonal")
COLOURS = ("slate grey", "Slate Grey ")


@dataclass(frozen=True)
class Doing:
    """Where something is done: at which window's book, to which job, and what makes it differ."""

    book: Book
    reckoner: Reckoner
    read: Job | None
    n: int

    @property
    def job(self) -> Job:
        assert self.read is not None
        return self.read

    @property
    def key(self) -> int:
        return self.job.id or 0

    @property
    def life(self) -> Life:
        return self.reckoner.life(self.key)


def nothing(_: int) -> None:
    """Nothing beside the change itself."""


@dataclass(frozen=True)
class Deed:
    """Something done, whether it must be allowed, and what it changes."""

    call: Callable[[], object]
    change: Change
    allowed: bool = True
    final: bool = False
    moves: list[tuple[Kind, Decimal]] | None = None
    noted: Callable[[int], object] = field(default=nothing)
    """What else the reckoner is told, once it is done to a job."""


def sets(**cells: Any) -> Change:
    """A change that sets what a job holds."""

    def change(life: Life) -> None:
        for name, cell in cells.items():
            setattr(life, name, cell)

    return change


def stock_move(material: str, n: int, colour: str = "") -> StockMove:
    return StockMove(Material(material), colour, Decimal(n), TODAY, "counted")


def kind_of(move: StockMove) -> Kind:
    return str(move.material), move.colour.strip().lower()
