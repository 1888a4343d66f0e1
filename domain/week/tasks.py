"""One line of the evening's list."""

from dataclasses import dataclass
from datetime import date

from domain.money import Pence
from domain.page_names import PageName
from domain.week.tonight_order import RANKS, TONIGHT, TaskKind, TaskSign


@dataclass(frozen=True, slots=True)
class Task:
    """One line of the evening's list."""

    kind: TaskKind
    words: str
    """The verb first: "Order for Friday"."""
    who: str
    """Customer and place."""
    since: date
    """The day it hangs on: of tasks of one kind the earliest comes first."""
    amount: Pence | None = None
    job_id: int | None = None
    """None: the trader's details."""

    @property
    def rank(self) -> tuple[int, date]:
        """What tasks are sorted by: the order of Tonight, then the day."""
        return RANKS[self.kind], self.since

    @property
    def sign(self) -> TaskSign:
        """What stands before it."""
        return TONIGHT[RANKS[self.kind]].sign

    @property
    def page(self) -> PageName:
        """Where it is done."""
        return TONIGHT[RANKS[self.kind]].page
