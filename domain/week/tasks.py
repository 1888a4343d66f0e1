"""One line of the evening's list."""

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from domain.job.to_send import Outgoing
from domain.money import Pence
from domain.page_names import PageName
from domain.week.tonight_order import RANKS, TaskKind, TaskSign, kind_of
from domain.week.week_data import WeekLine


class Going(NamedTuple):
    """What goes out to a customer by a task: it is made final first, then marked as sent."""

    paper: Outgoing
    number: int | None = None
    """None until it is final."""


@dataclass(frozen=True, slots=True)
class Task:
    """One line of the evening's list."""

    kind: TaskKind
    words: str
    """The verb first: "Order for Friday"."""
    who: str
    """Customer and place."""
    since: date
    """The day it hangs on."""
    amount: Pence | None = None
    job_id: int | None = None
    """None: the trader's details."""
    about: str = ""
    """What is wrong, in a few words, where the verb does not say it: "sheeted since 12 Jun"."""
    document_id: int | None = None
    """The invoice it is about."""
    page_there: PageName | None = None
    """Where it is done if that is another page than others of its kind are done on."""

    field: str = ""
    """The field there that settles it; empty for the first."""
    to_send: Going | None = None
    """The quote or invoice that it sends; None if it sends none, or none yet."""

    @property
    def rank(self) -> tuple[int, Pence, date]:
        """What tasks are sorted by: the order of Tonight, the larger sum, the earlier day."""
        return RANKS[self.kind], -(self.amount or 0), self.since

    @property
    def sign(self) -> TaskSign:
        """What stands before it."""
        return kind_of(self.kind).sign

    @property
    def page(self) -> PageName:
        """Where it is done."""
        return self.page_there or kind_of(self.kind).page


def task_of(
    kind: TaskKind, line: WeekLine, words: str, since: date, amount: Pence | None = None
) -> Task:
    """A task of a job, with its customer and place."""
    who = ", ".join(part for part in (line.customer, line.place) if part)
    return Task(kind, words, who, since, amount, line.job_id)
